import { useState } from 'preact/hooks';
import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import type { Remark } from '#model/photo.ts';
import { TakenLately } from '#screens/colours/TakenLately.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { remarkWords } from '#screens/remark-words.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { dateWords } from '#screens/words.ts';
import { addHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Choices } from '#ui/Choices.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Mix.module.css';

interface Props {
  /** Null: the mix has no name yet. */
  colourwayId: ColourwayId | null;
  mix: Mix | null;
  remarks: readonly Remark[];
  /** Notes of this colour that were taken off, newest first. */
  takenOff: readonly Remark[];
  /** The moulds of the shop. */
  moulds: readonly Mould[];
  /** Those that this colour went into, the last one first. */
  pouredIn: readonly MouldId[];
}

const kinds = ['pour', 'cure', 'water'] as const;
const mostLetters = 2_000;
/** Two lines of a phone. */
const lastLetters = 80;
/** As many moulds as a hand can choose from without looking for one. */
const mostMoulds = 6;

/** Notes about a colour, each of its kind. */
export function Remarks(props: Props) {
  const { colourwayId, mix, remarks, takenOff, moulds, pouredIn } = props;
  const { book, clock } = useShop();
  const [kind, setKind] = useState<Remark['kind']>('pour');
  const [text, setText] = useState('');
  const [mouldId, setMouldId] = useState<MouldId | null>(null);
  const { act, trouble } = useOneAct();
  const today = dayOf(clock.now(), clock.zone());
  const nameOf = (id: MouldId | null) => moulds.find((mould) => mould.id === id)?.name;
  const offered = pouredIn.filter(nameOf).slice(0, mostMoulds);
  const tooLong = text.length > mostLetters ? 'Keep it to 2,000 letters.' : undefined;

  const add = () =>
    act(async () => {
      const words = text.trim();
      if (words === '' || tooLong) return null;
      const facts = { kind, text: words, colourwayId, mixId: mix?.id ?? null };
      const of = kind === 'water' ? mouldId : null;
      await addHead(book, 'remarks', { ...facts, mouldId: of, sessionId: null }, clock.now());
      // What was typed or pressed while it was written is the next note.
      setText((now) => (now === text ? '' : now));
      setMouldId((now) => (now === mouldId ? null : now));
      return null;
    }, `add ${text}`);

  return (
    <Sheet title="Notes">
      <Acts label="What the note is about">
        {kinds.map((one) => (
          <ActKey key={one} isPressed={kind === one} onPress={() => setKind(one)}>
            {remarkWords[one]}
          </ActKey>
        ))}
      </Acts>
      {kind === 'water' && offered.length > 0 && (
        <>
          <p>
            <b>Out of which mould, if you know</b>
          </p>
          <Choices label="Out of which mould">
            {offered.map((id) => (
              <ActKey
                key={id}
                isPressed={mouldId === id}
                onPress={() => setMouldId(mouldId === id ? null : id)}
              >
                {nameOf(id)}
              </ActKey>
            ))}
          </Choices>
        </>
      )}
      <Field label="Note" last={lastWords(remarks, kind)} error={tooLong}>
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
              {[
                remarkWords[remark.kind],
                dateWords(dayOf(remark.createdAt, clock.zone()), today),
                nameOf(remark.mouldId),
              ]
                .filter(Boolean)
                .join(', ')}
            </b>
            <span>{remark.text}</span>
            <ActKey
              label={`Take off: ${remark.text.slice(0, 40)}`}
              onPress={() =>
                void act(async () => {
                  const at = clock.now();
                  await setDeleted(book, 'remarks', remark.id, at, at);
                  return null;
                }, remark.id)
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

/** What was noted of this kind the last time, begun; undefined: nothing yet, or it stands right under the field. */
function lastWords(remarks: readonly Remark[], kind: Remark['kind']): string | undefined {
  const last = remarks.findLast((one) => one.kind === kind);
  const text = last === remarks.at(-1) ? undefined : last?.text;
  return text && text.length > lastLetters ? `${text.slice(0, lastLetters)}…` : text;
}
