import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Remark } from '#model/photo.ts';
import { TakenLately } from '#screens/colours/TakenLately.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { addHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Mix.module.css';

interface Props {
  colourwayId: ColourwayId;
  mix: Mix | null;
  remarks: readonly Remark[];
  /** Notes of this colour that were taken off, newest first. */
  takenOff: readonly Remark[];
}

/** What a note is about: three times in the life of a bait. */
export const remarkWords = {
  pour: 'At the pour',
  cure: 'After curing',
  water: 'In the water',
} as const;
const kinds = ['pour', 'cure', 'water'] as const;
const mostLetters = 2_000;

/** Notes about a colour, each of its kind. */
export function Remarks({ colourwayId, mix, remarks, takenOff }: Props) {
  const { book, clock } = useShop();
  const [kind, setKind] = useState<Remark['kind']>('pour');
  const [text, setText] = useState('');
  const { act, trouble } = useOneAct();
  const today = dayOf(clock.now(), clock.zone());
  const tooLong = text.length > mostLetters ? 'Keep it to 2,000 letters.' : undefined;

  const add = () =>
    act(async () => {
      const words = text.trim();
      if (words === '' || tooLong) return null;
      const facts = { kind, text: words, colourwayId, mixId: mix?.id ?? null };
      await addHead(book, 'remarks', { ...facts, mouldId: null, sessionId: null }, clock.now());
      setText('');
      return null;
    });

  return (
    <Sheet title="Notes">
      <Acts label="What the note is about">
        {kinds.map((one) => (
          <ActKey key={one} isPressed={kind === one} onPress={() => setKind(one)}>
            {remarkWords[one]}
          </ActKey>
        ))}
      </Acts>
      <Field label="Note" error={tooLong}>
        {(attributes) => (
          <textarea
            {...attributes}
            rows={2}
            value={text}
            onInput={({ currentTarget }) => setText(currentTarget.value)}
          />
        )}
      </Field>
      <ActKey onPress={() => void add()}>Add the note</ActKey>
      <Refusal says={trouble} />
      <TakenLately kind="remarks" taken={takenOff} />
      <ul class={styles.notes}>
        {remarks.toReversed().map((remark) => (
          <li key={remark.id}>
            <b>
              {remarkWords[remark.kind]}, {dateWords(dayOf(remark.createdAt, clock.zone()), today)}
            </b>
            <span>{remark.text}</span>
            <ActKey
              label={`Take off: ${remark.text.slice(0, 40)}`}
              onPress={() =>
                void act(async () => {
                  const at = clock.now();
                  await setDeleted(book, 'remarks', remark.id, at, at);
                  return null;
                })
              }
            >
              Take off
            </ActKey>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
