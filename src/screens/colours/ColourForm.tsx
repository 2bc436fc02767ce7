import { useShop } from '#live/shop.ts';
import type { Colourway } from '#model/gear.ts';
import { ColourSide } from '#screens/colours/ColourSide.tsx';
import { colourFrom, typedColour } from '#screens/colours/colour-form.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { TakeOff } from '#screens/TakeOff.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { addHead, changeHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';

/** One colour, or the two sides of a laminate: A left, B right. */
export function ColourForm({ colourway }: { colourway: Colourway | null }) {
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedColour(colourway));
  const { act, trouble } = useOneAct();

  function save() {
    const { value, refusals: wrong } = colourFrom(typed);
    if (!value) return refuse(wrong);
    void act(async () => {
      if (colourway) await changeHead(book, 'colourways', colourway.id, value, clock.now());
      else await addHead(book, 'colourways', value, clock.now());
      return { at: 'colours' };
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
      <Acts label="How many colours">
        <ActKey isPressed={!typed.isPair} onPress={() => change({ isPair: false })}>
          One colour
        </ActKey>
        <ActKey isPressed={typed.isPair} onPress={() => change({ isPair: true })}>
          Two sides
        </ActKey>
      </Acts>
      <ColourSide side="A" typed={typed} refusals={refusals} onChange={change} />
      {typed.isPair && <ColourSide side="B" typed={typed} refusals={refusals} onChange={change} />}
      <ActKey size="main" sends>
        {colourway ? 'Save the changes' : 'Add this colour'}
      </ActKey>
      <Refusal says={trouble} />
      {colourway && (
        <TakeOff
          deletedAt={colourway.deletedAt}
          list={{ at: 'colours' }}
          onSet={(next, at) => setDeleted(book, 'colourways', colourway.id, next, at)}
        />
      )}
    </FormSheet>
  );
}
