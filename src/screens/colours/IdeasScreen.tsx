import { useState } from 'preact/hooks';
import { lastPoured } from '#calc/last-poured.ts';
import { type Pourable, suggestion } from '#calc/suggestion.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Idea } from '#model/photo.ts';
import { TakenLately } from '#screens/colours/TakenLately.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import type { Book } from '#store/book.ts';
import { addHead, changeHead, deletedHeadsOf, headsOf, setDeleted } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { newestMixes } from '#store/newest-mixes.ts';
import { onHandOf } from '#store/on-hand.ts';
import { shelfTables } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Mix.module.css';

/** What shall I pour? The person's own ideas, and one quiet suggestion. */
export function IdeasScreen() {
  const { book, clock } = useShop();
  const [text, setText] = useState('');
  const { act, trouble } = useOneAct();
  const found = useLive(
    async () => ({
      ideas: await headsOf(book, 'ideas'),
      takenOff: await deletedHeadsOf(book, 'ideas'),
      colours: await pourables(book),
    }),
    ['ideas', 'colourways', 'mixes', ...shelfTables],
    'ideas',
  );
  if (!found) return null;
  const open = found.ideas.filter(({ doneAt }) => doneAt === null).toReversed();
  const done = found.ideas.filter(({ doneAt }) => doneAt !== null);
  const quiet = suggestion(found.colours, clock.now());
  const tooLong = text.length > 2_000 ? 'Keep it to 2,000 letters.' : undefined;

  const add = () =>
    act(async () => {
      const words = text.trim();
      if (words === '' || tooLong) return null;
      const facts = { text: words, colourwayId: null, mouldId: null, doneAt: null };
      await addHead(book, 'ideas', facts, clock.now());
      // What was typed while it was written is the next idea.
      setText((now) => (now === text ? '' : now));
      return null;
    }, `add ${text}`);
  const setDone = (idea: Idea, isDone: boolean) =>
    act(async () => {
      await changeHead(
        book,
        'ideas',
        idea.id,
        { doneAt: isDone ? clock.now() : null },
        clock.now(),
      );
      return null;
    }, `done ${idea.id}`);

  const takeOff = (idea: Idea) =>
    act(async () => {
      const at = clock.now();
      await setDeleted(book, 'ideas', idea.id, at, at);
      return null;
    }, idea.id);

  return (
    <DeskPage
      title="What shall I pour?"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      {quiet && (
        <Sheet>
          <p>{quietWords(quiet, clock.now())}</p>
          <ActKey href={hrefTo({ at: 'colour', colourwayId: quiet.id })}>
            Look at {quiet.name}
          </ActKey>
        </Sheet>
      )}
      <Sheet title="Ideas">
        <Field label="An idea" error={tooLong}>
          {(attributes) => (
            <input
              {...attributes}
              autocomplete="off"
              value={text}
              onInput={({ currentTarget }) => setText(currentTarget.value)}
            />
          )}
        </Field>
        <ActKey onPress={() => void add()}>Add the idea</ActKey>
        <Refusal says={trouble} />
        {open.length === 0 && <p>No idea waits.</p>}
        <TakenLately kind="ideas" taken={found.takenOff} />
        <ul class={styles.notes}>
          {open.map((idea) => (
            <li key={idea.id}>
              <span>{idea.text}</span>
              <Acts>
                <ActKey
                  label={`Poured: ${idea.text.slice(0, 40)}`}
                  onPress={() => void setDone(idea, true)}
                >
                  Poured
                </ActKey>
                <ActKey
                  label={`Take off: ${idea.text.slice(0, 40)}`}
                  onPress={() => void takeOff(idea)}
                >
                  Take off
                </ActKey>
              </Acts>
            </li>
          ))}
        </ul>
      </Sheet>
      {done.length > 0 && (
        <Sheet title="Poured">
          <ul class={styles.notes}>
            {done.toReversed().map((idea) => (
              <li key={idea.id}>
                <span>{idea.text}</span>
                <Acts>
                  <ActKey
                    label={`Back to the ideas: ${idea.text.slice(0, 40)}`}
                    onPress={() => void setDone(idea, false)}
                  >
                    Back to the ideas
                  </ActKey>
                </Acts>
              </li>
            ))}
          </ul>
        </Sheet>
      )}
    </DeskPage>
  );
}

/** Every colour with a mix, when it was poured and whether all of it is on hand. */
async function pourables(book: Book): Promise<Pourable<ColourwayId>[]> {
  const columns = await allColumns(book);
  const last = lastPoured(columns);
  const mixes = await newestMixes(book);
  const onHand = await onHandOf(book);
  return (await headsOf(book, 'colourways')).flatMap(({ id, name }) => {
    const mix = mixes.get(id);
    if (!mix) return [];
    const used = mix.sides.flatMap(({ plastisolId, doses }) => [
      ...(plastisolId ? [plastisolId] : []),
      ...doses.map(({ materialId }) => materialId),
    ]);
    const isOf = (session: (typeof columns)[number]) =>
      session.colourways.some(({ colourwayId }) => colourwayId === id);
    return [
      {
        id,
        name,
        lastAt: last.get(id) ?? null,
        times: columns.filter(isOf).length,
        isOnHand: used.every((one) => onHand.has(one)),
      },
    ];
  });
}

function quietWords({ name, lastAt }: Pourable<ColourwayId>, now: number): string {
  if (lastAt === null) return `${name} was never poured, and all of it is on hand.`;
  const weeks = Math.floor((now - lastAt) / (7 * 86_400_000));
  return `${name} was not poured for ${weeks} weeks, and all of it is on hand.`;
}
