import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { pouredAt } from '#calc/pot-mix.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mix, MixId } from '#model/mix.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo, type Route } from '#screens/routes.ts';
import { countedOf, forgetCounted, keepCounted } from '#store/glass.ts';
import { headOf } from '#store/heads.ts';
import { type SettingsFacts, settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './Mix.module.css';

/** Drops of a mix counted one by one, for so much plastisol. */
export function DropsScreen({ mixId, volumeMl }: { mixId: MixId; volumeMl: number }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({ mix: await headOf(book, 'mixes', mixId), settings: await settingsOf(book) }),
    ['mixes', 'settings'],
    mixId,
  );
  if (!found) return null;
  const { mix, settings } = found;
  if (!mix) return <NotHere what="This mix" back={{ at: 'colours' }} word="Colours" />;
  return <Counter mix={mix} volumeMl={volumeMl} settings={settings} />;
}

/** A material that is counted in drops. */
interface Counted {
  id: string;
  name: string;
  drops: number;
}

function Counter({
  mix,
  volumeMl,
  settings,
}: {
  mix: Mix;
  volumeMl: number;
  settings: SettingsFacts;
}) {
  const shop = useShop();
  const { book, clock, keys, sound } = shop;
  const mixKey = `${mix.id} ${volumeMl}`;
  const lines = countedIn(mix, volumeMl);
  const [counts, setCounts] = useState(() => countedOf(book, mixKey, clock.now()));
  const [at, setAt] = useState(() => firstOpen(lines, counts));
  /** What stood there before it began anew; null: it did not, or a drop fell since. */
  const [before, setBefore] = useState<readonly number[] | null>(null);
  const line = lines[at];
  const count = counts[at] ?? 0;
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus({ preventScroll: true }), [at]);
  useEffect(() => sound.canSound(() => {}, settings.music), [sound, settings.music]);

  // Two drops may fall before the page is drawn once.
  const now = useRef(counts);
  const setAll = (next: number[]) => {
    now.current = next;
    setCounts(next);
    keepCounted(book, mixKey, next, clock.now());
  };
  const set = (next: number) => {
    setAll(lines.map((_, index) => (index === at ? next : (now.current[index] ?? 0))));
    setBefore(null);
  };
  const beginAnew = () => {
    setBefore(now.current);
    setAll([]);
    setAt(0);
  };
  const bringBack = (counted: readonly number[]) => {
    setAll([...counted]);
    setAt(firstOpen(lines, counted));
    setBefore(null);
  };
  // A cup that is full and left is done: the next one begins at none.
  useEffect(
    () => () => {
      if (isFull(lines, now.current)) forgetCounted(book);
    },
    [],
  );
  const add = () => {
    if (!line) return;
    const next = (now.current[at] ?? 0) + 1;
    set(next);
    // Every fifth drop is heard: the eyes stay on the bottle.
    if (next % 5 === 0 || next === line.drops) confirm(shop);
  };
  const undo = () => {
    const last = now.current[at] ?? 0;
    if (last === 0) return refuse(shop);
    set(last - 1);
  };
  const latest = useRef({ add, undo });
  latest.current = { add, undo };
  useLayoutEffect(
    () =>
      keys.listen(settings.pedal, (means) => {
        if (means === 'undo') latest.current.undo();
        else latest.current.add();
      }),
    [keys, settings.pedal],
  );

  const back: Route = mix.colourwayId
    ? { at: 'colour', colourwayId: mix.colourwayId }
    : { at: 'nameless', mixId: mix.id };
  if (!line) {
    return <NotHere what="A colourant in drops" back={back} word="the colour" />;
  }
  return (
    <main class={styles.counter}>
      <header>
        <h1 ref={head} tabIndex={-1}>
          {line.name}
        </h1>
        {before && <ActKey onPress={() => bringBack(before)}>Bring the count back</ActKey>}
        {counts.some((counted) => counted > 0) && <ActKey onPress={beginAnew}>Begin anew</ActKey>}
        <ActKey href={hrefTo(back)}>Back</ActKey>
      </header>
      <button
        type="button"
        class={styles.count}
        data-reached={count >= line.drops || undefined}
        onClick={add}
      >
        <span>Drop</span>
        <b>{count}</b>
        <span>{restWords(count, line.drops)}</span>
      </button>
      <footer>
        <ActKey onPress={undo}>Undo a drop</ActKey>
        {lines.length > 1 && (
          <ActKey onPress={() => setAt((at + 1) % lines.length)}>
            Next: {lines[(at + 1) % lines.length]?.name}
          </ActKey>
        )}
      </footer>
    </main>
  );
}

/** The materials of a mix that go in by drops, for so much plastisol, side after side. */
function countedIn(mix: Mix, volumeMl: number): Counted[] {
  return mix.sides.flatMap((side) =>
    pouredAt(mix.baseMl, side, volumeMl).lines.flatMap(({ dose, amount }, index) =>
      dose.unit === 'drop'
        ? [
            {
              id: `${side.role} ${index}`,
              name: mix.sides.length > 1 ? `${dose.name}, ${side.name}` : dose.name,
              drops: amount,
            },
          ]
        : [],
    ),
  );
}

/** Where a count that was broken off goes on. */
function firstOpen(lines: readonly Counted[], counts: readonly number[]): number {
  const open = lines.findIndex(({ drops }, index) => (counts[index] ?? 0) < drops);
  return Math.max(0, open);
}

/** True when all that goes in by drops is in. */
function isFull(lines: readonly Counted[], counts: readonly number[]): boolean {
  return lines.length > 0 && lines.every(({ drops }, index) => (counts[index] ?? 0) >= drops);
}

function restWords(count: number, drops: number): string {
  if (count === drops) return `all ${drops} are in`;
  return count > drops ? `${count - drops} more than ${drops}` : `of ${drops}`;
}
