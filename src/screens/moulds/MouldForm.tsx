import { useShop } from '#live/shop.ts';
import type { Material, Mould } from '#model/mould.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import type { LengthUnit } from '#screens/lengths.ts';
import { LayoutFields } from '#screens/moulds/LayoutFields.tsx';
import type { LastSizes } from '#screens/moulds/last-sizes.ts';
import { mouldFrom, typedMould } from '#screens/moulds/mould-form.ts';
import { PartFields } from '#screens/moulds/PartFields.tsx';
import { SizeFields } from '#screens/moulds/SizeFields.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { addHead, changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './MouldForm.module.css';

const materials: readonly [Material, string][] = [
  ['aluminium', 'Aluminium'],
  ['silicone', 'Silicone'],
  ['stone', 'Stone or plaster'],
];

interface Props {
  mould: Mould | null;
  /** The moulds whose parts it could take. */
  makers: readonly Mould[];
  unit: LengthUnit;
  last: LastSizes;
}

/** The form of one mould. Every refusal stands beside its field and nothing typed is lost. */
export function MouldForm({ mould, makers, unit, last }: Props) {
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedMould(mould, unit));
  const { act, trouble } = useOneAct();

  function save() {
    const { value, refusals: wrong } = mouldFrom(typed, mould, unit);
    if (!value) return refuse(wrong);
    void act(async () => {
      const saved = mould
        ? await changeHead(book, 'moulds', mould.id, value, clock.now())
        : await addHead(book, 'moulds', value, clock.now());
      return { at: 'mould', mouldId: saved.id };
    });
  }

  return (
    <FormSheet form={form} onSend={save}>
      <Field label="Name" error={refusals.name}>
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            value={typed.name}
            onInput={({ currentTarget }) => change({ name: currentTarget.value })}
          />
        )}
      </Field>
      <LayoutFields typed={typed} error={refusals.spots} onChange={change} />
      <p>
        <b>Made of</b>
      </p>
      <div class={styles.materials} role="group" aria-label="Made of">
        {materials.map(([material, word]) => (
          <ActKey
            key={material}
            isPressed={typed.material === material}
            onPress={() => change({ material })}
          >
            {word}
          </ActKey>
        ))}
      </div>
      <PartFields typed={typed} makers={makers} onChange={change} />
      <SizeFields {...{ typed, refusals, unit, last }} onChange={change} />
      {Object.keys(refusals).length > 0 && <p role="status">Something above does not fit yet.</p>}
      <ActKey size="main" sends>
        {mould ? 'Save the changes' : 'Add this mould'}
      </ActKey>
      <Refusal says={trouble} />
    </FormSheet>
  );
}
