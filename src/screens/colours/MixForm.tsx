import { plastisolGPerMl } from '#calc/pot-course.ts';
import { gPerMlOf } from '#calc/stock-measure.ts';
import { oddDose } from '#calc/usual-dose.ts';
import { useShop } from '#live/shop.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix, MixRole } from '#model/mix.ts';
import { MixFormSide } from '#screens/colours/MixFormSide.tsx';
import { mixFrom, type TypedSide, typedMix, typedPart } from '#screens/colours/mix-form.ts';
import type { MixBook } from '#screens/colours/use-mix-book.ts';
import { oddWords } from '#screens/dose-words.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { keepMix } from '#store/mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import { Stepper } from '#ui/Stepper.tsx';

interface Props {
  colourway: Colourway;
  newest: Mix | null;
  of: MixBook;
}

const parts = [
  ['core', 'core'],
  ['tail', 'tail'],
] as const;

/** The doses of every side for one volume, and what to do otherwise next time. */
export function MixForm({ colourway, newest, of }: Props) {
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(
    typedMix(colourway, newest, of.usualPlastisolId),
  );
  const { act, trouble } = useOneAct();
  const unit = of.settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  // Per cent are of the weight of the plastisol that the doses are for.
  const basisGOf = ({ plastisolId }: TypedSide) => {
    const base = plastisolId ? of.materials.get(plastisolId) : undefined;
    return typed.baseMl * (base ? gPerMlOf(base) : plastisolGPerMl);
  };
  const read = mixFrom(typed, basisGOf);
  const odd = read.value && oddDose(read.value, of.mixes);

  const setSide = (at: number, side: TypedSide | null) =>
    change({
      sides: side ? typed.sides.with(at, side) : typed.sides.filter((_, index) => index !== at),
    });
  const stepBase = (by: number) =>
    change({ baseMl: Math.min(20_000, Math.max(stepMl, typed.baseMl + by * stepMl)) });

  function save() {
    const { value, refusals: wrong } = mixFrom(typed, basisGOf);
    if (!value) return refuse(wrong);
    void act(async () => {
      await keepMix(book, colourway.id, value, clock.now());
      return { at: 'colour', colourwayId: colourway.id };
    });
  }

  return (
    <FormSheet form={form} onSend={save}>
      {newest?.nextTime && <p>You noted: {newest.nextTime}</p>}
      <Stepper
        label="Doses for"
        value={volumeWords(typed.baseMl, unit)}
        small="what the doses below are for"
        last={newest ? volumeWords(newest.baseMl, unit) : undefined}
        lessName={`${volumeWords(stepMl, unit)} less`}
        moreName={`${volumeWords(stepMl, unit)} more`}
        onLess={() => stepBase(-1)}
        onMore={() => stepBase(1)}
      />
      {typed.sides.map((side, at) => (
        <MixFormSide
          key={side.role}
          side={side}
          at={at}
          was={newest?.sides.find(({ role }) => role === side.role)}
          isOne={typed.sides.length === 1}
          basisG={basisGOf(side)}
          materials={[...of.materials.values()]}
          refusals={refusals}
          onChange={(next) => setSide(at, next)}
        />
      ))}
      <Acts>
        {parts
          .filter(([role]) => !hasRole(typed.sides, role))
          .map(([role, word]) => (
            <ActKey
              key={role}
              onPress={() =>
                change({ sides: [...typed.sides, typedPart(role, colourway, of.usualPlastisolId)] })
              }
            >
              Add a {word}
            </ActKey>
          ))}
      </Acts>
      <Field label="Next time" hint="What to change next time." error={refusals.nextTime}>
        {(attributes) => (
          <textarea
            {...attributes}
            rows={2}
            value={typed.nextTime}
            onInput={({ currentTarget }) => change({ nextTime: currentTarget.value })}
          />
        )}
      </Field>
      {odd && <p>{oddWords(odd)}</p>}
      <ActKey size="main" sends>
        Save the doses
      </ActKey>
      <Refusal says={trouble || refusals.form} />
    </FormSheet>
  );
}

function hasRole(sides: readonly TypedSide[], role: MixRole): boolean {
  return sides.some((side) => side.role === role);
}
