import { useState } from 'preact/hooks';
import { lastScrapG } from '#calc/last-time.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { type Said, type SaidOf, ScrapG } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { numberFrom } from '#screens/number-text.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';
import { gramWords } from '#screens/words.ts';
import { sessionsBefore } from '#store/last-time.ts';
import { Field } from '#ui/Field.tsx';

interface Props {
  open: OpenLine;
  said: SaidOf<'scrap-weighed'>;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** What the scale showed, and when. */
export function PutRightScrap({ open, said, onSave, onLeave }: Props) {
  const { book } = useShop();
  const { sessionId } = open.table;
  const before = useLive(() => sessionsBefore(book, sessionId), ['columns'], sessionId ?? '');
  const lastG = before ? lastScrapG(before) : null;
  const [text, setText] = useState(String(Math.round(said.massG)));
  const [refusal, setRefusal] = useState<string>();

  function read(): Said | null {
    const typed = numberFrom(text);
    const checked = typed === null ? null : ScrapG.safeParse(typed);
    setRefusal(checked ? checked.error?.issues[0]?.message : 'Write a number, such as 210.');
    return checked?.success ? { ...said, massG: checked.data } : null;
  }

  return (
    <PutRightForm open={open} says={read} onSave={onSave} onLeave={onLeave}>
      <Field
        label="Bad baits, g"
        last={lastG === null ? undefined : gramWords(lastG)}
        error={refusal}
      >
        {(attributes) => (
          <input
            {...attributes}
            inputMode="decimal"
            autocomplete="off"
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        )}
      </Field>
    </PutRightForm>
  );
}
