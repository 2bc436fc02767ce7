import * as z from 'zod/mini';
import { cavityCount } from '#calc/cavity-layout.ts';
import { mouldMassG } from '#calc/mould-size.ts';
import { useShop } from '#live/shop.ts';
import { type Mould, mouldFacts } from '#model/mould.ts';
import { readForm, useForm } from '#screens/form.ts';
import { LayoutFields } from '#screens/moulds/LayoutFields.tsx';
import { mouldFrom, typedMould } from '#screens/moulds/mould-form.ts';
import { hrefTo } from '#screens/routes.ts';
import { addHead, changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';

const facts = z.object(mouldFacts);
const materials = [
  ['aluminium', 'Aluminium'],
  ['silicone', 'Silicone'],
  ['stone', 'Stone or plaster'],
] as const;

/** The form of one mould. Every refusal stands beside its field and nothing typed is lost. */
export function MouldForm({ mould }: { mould: Mould | null }) {
  const { book, clock } = useShop();
  const { typed, change, refusals, setRefusals } = useForm(typedMould(mould));
  const size = { ...typed, massG: null, partMl: null, sprueMl: null };
  const cavities = cavityCount(typed.layout);
  const guessKg = (mouldMassG(size).massG / 1_000).toFixed(1);

  async function save(event: Event) {
    event.preventDefault();
    const read = mouldFrom(typed, mould);
    const checked = readForm(facts, read.facts);
    const all = { ...renamed(checked.refusals ?? {}), ...read.refusals };
    if (!checked.value || Object.keys(all).length > 0) return setRefusals(all);
    const saved = mould
      ? await changeHead(book, 'moulds', mould.id, checked.value, clock.now())
      : await addHead(book, 'moulds', checked.value, clock.now());
    window.location.hash = hrefTo({ at: 'mould', mouldId: saved.id });
  }

  const text = (field: 'name' | 'massG' | 'partMl' | 'sprueMl' | 'thicknessMm' | 'setTime') => ({
    value: typed[field],
    onInput: (event: Event) => change({ [field]: (event.target as HTMLInputElement).value }),
  });
  return (
    <form onSubmit={(event) => void save(event)} noValidate>
      <Sheet>
        <Field label="Name" error={refusals.name}>
          {(attributes) => <input {...attributes} {...text('name')} autocomplete="off" />}
        </Field>
        <LayoutFields
          layout={typed.layout}
          opens={typed.opens}
          error={refusals.layout}
          onChange={change}
        />
        <Acts label="Material">
          {materials.map(([material, word]) => (
            <ActKey
              key={material}
              isPressed={typed.material === material}
              onPress={() => change({ material })}
            >
              {word}
            </ActKey>
          ))}
        </Acts>
        <Field
          label="Weight in g"
          hint={`Both halves together. Empty: guessed from ${cavities} cavities, about ${guessKg} kg.`}
          error={refusals.massG}
        >
          {(attributes) => <input {...attributes} {...text('massG')} inputMode="decimal" />}
        </Field>
        <Field label="One bait in mL" hint="Empty: 9 mL." error={refusals.partMl}>
          {(attributes) => <input {...attributes} {...text('partMl')} inputMode="decimal" />}
        </Field>
        <Field
          label="Sprue in mL"
          hint="Everything of a shot that is no bait. Empty: 1.5 mL a cavity."
          error={refusals.sprueMl}
        >
          {(attributes) => <input {...attributes} {...text('sprueMl')} inputMode="decimal" />}
        </Field>
        <Field
          label="Thickest part of the bait in mm"
          hint="It sets last, so the clock is worked out from it. Empty: 3:00 to begin with."
          error={refusals.thicknessMm}
        >
          {(attributes) => <input {...attributes} {...text('thicknessMm')} inputMode="decimal" />}
        </Field>
        <Acts label="Shape of the thickest part">
          {(['round', 'flat'] as const).map((shape) => (
            <ActKey
              key={shape}
              isPressed={typed.sectionShape === shape}
              onPress={() => change({ sectionShape: shape })}
            >
              {shape === 'round' ? 'Round' : 'Flat'}
            </ActKey>
          ))}
        </Acts>
        <Field
          label="Your own set time"
          hint="Minutes and seconds, like 3:15. Empty: worked out, then learnt."
          error={refusals.setTime}
        >
          {(attributes) => <input {...attributes} {...text('setTime')} autocomplete="off" />}
        </Field>
        {Object.keys(refusals).length > 0 && <p role="status">Something above does not fit yet.</p>}
        <ActKey size="main" sends>
          {mould ? 'Save the changes' : 'Add this mould'}
        </ActKey>
      </Sheet>
    </form>
  );
}

/** Schema paths to the fields of the form. */
function renamed(refusals: Record<string, string>): Record<string, string> {
  const fields: Record<string, string> = {
    'section.thicknessMm': 'thicknessMm',
    setSec: 'setTime',
  };
  return Object.fromEntries(
    Object.entries(refusals).map(([path, sentence]) => [
      path.startsWith('layout') ? 'layout' : (fields[path] ?? path),
      sentence,
    ]),
  );
}
