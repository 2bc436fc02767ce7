import { useShop } from '#live/shop.ts';
import type { Mix } from '#model/mix.ts';
import { ColourSide } from '#screens/colours/ColourSide.tsx';
import { colourFrom, type TypedColour } from '#screens/colours/colour-form.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { TakeOff } from '#screens/TakeOff.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { setDeleted } from '#store/heads.ts';
import { nameMix } from '#store/naming.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';

/** Makes a colour of a mix without a name: its name, and how it looks; of a laminate, side by side. */
export function NameForm({ mix }: { mix: Mix }) {
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedName(mix));
  const { act, trouble } = useOneAct();

  function save() {
    const { value, refusals: wrong } = colourFrom(typed);
    if (!value) return refuse(wrong);
    void act(async () => {
      const { id } = await nameMix(book, mix.id, value, clock.now());
      return { at: 'colour', colourwayId: id };
    });
  }

  return (
    <FormSheet form={form} onSend={save}>
      <h2>Give it a name</h2>
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
      <ColourSide side="A" typed={typed} refusals={refusals} onChange={change} />
      {typed.isPair && <ColourSide side="B" typed={typed} refusals={refusals} onChange={change} />}
      <ActKey size="main" sends>
        Keep it as a colour
      </ActKey>
      <Refusal says={trouble} />
      <TakeOff
        deletedAt={mix.deletedAt}
        list={{ at: 'colours' }}
        onSet={(next, at) => setDeleted(book, 'mixes', mix.id, next, at)}
      />
    </FormSheet>
  );
}

/** The sides as they were made up: a laminate's have names of their own. */
function typedName({ sides }: Mix): TypedColour {
  const [a, b] = sides;
  return {
    name: '',
    isPair: b !== undefined,
    nameA: 'Side A',
    swatchA: a?.swatch ?? '#d8d2c2',
    nameB: 'Side B',
    swatchB: b?.swatch ?? '#d8d2c2',
  };
}
