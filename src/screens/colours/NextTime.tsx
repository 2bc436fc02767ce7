import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Mix } from '#model/mix.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { noteNextTime } from '#store/mixes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** What to do otherwise next time; it waits in the draft of the next version. */
export function NextTime({ mix }: { mix: Mix }) {
  const { book, clock } = useShop();
  const [text, setText] = useState(mix.nextTime);
  const { act, trouble } = useOneAct();
  const tooLong = text.length > 2_000 ? 'Keep it to 2,000 letters.' : undefined;
  return (
    <Sheet title="Next time">
      <Field
        label="What to change"
        hint="Waits for you where you change the doses."
        error={tooLong}
      >
        {(attributes) => (
          <textarea
            {...attributes}
            rows={2}
            value={text}
            onInput={({ currentTarget }) => setText(currentTarget.value)}
          />
        )}
      </Field>
      {text !== mix.nextTime && !tooLong && (
        <ActKey
          onPress={() =>
            void act(async () => {
              await noteNextTime(book, mix.id, text, clock.now());
              return null;
            }, text)
          }
        >
          Keep the note
        </ActKey>
      )}
      <Refusal says={trouble} />
    </Sheet>
  );
}
