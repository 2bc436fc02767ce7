import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { byId, calledNow } from '#calc/names-now.ts';
import { pouredAt } from '#calc/pot-mix.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mix, MixId } from '#model/mix.ts';
import { type Counted, restWords, useDropCount } from '#screens/drop-count.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo, type Route } from '#screens/routes.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { type SettingsFacts, settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './Mix.module.css';

/** Drops of a mix counted one by one, for so much plastisol. */
export function DropsScreen({ mixId, volumeMl }: { mixId: MixId; volumeMl: number }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const mix = await headOf(book, 'mixes', mixId);
      const materials = byId(await headsOf(book, 'materials'));
      return { mix: mix && calledNow(mix, materials), settings: await settingsOf(book) };
    },
    ['mixes', 'materials', 'settings'],
    mixId,
  );
  if (!found) return null;
  const { mix, settings } = found;
  if (!mix) return <NotHere what="This mix" back={{ at: 'colours' }} word="Colours" />;
  return <Counter mix={mix} volumeMl={volumeMl} settings={settings} />;
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
  const { keys, sound } = useShop();
  const of = useDropCount(countedIn(mix, volumeMl), `${mix.id} ${volumeMl}`);
  const { line, count, nextLine, add, undo, hasCounted, before, leave } = of;
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus({ preventScroll: true }), [line?.id]);
  useEffect(() => sound.canSound(() => {}, settings.music), [sound, settings.music]);

  // A cup that is full and left is done: the next one begins at none.
  useEffect(() => leave, []);
  const latest = useRef({ add, undo });
  latest.current = { add, undo };
  useLayoutEffect(
    () =>
      keys.listen(settings.pedal, (means) => {
        if (means === 'undo') latest.current.undo();
        else if (means === 'press') latest.current.add();
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
        <div class={styles.counterKeys}>
          {before ? (
            <ActKey label="Bring back the count" onPress={before}>
              Bring back
            </ActKey>
          ) : (
            hasCounted && <ActKey onPress={of.beginAnew}>Begin anew</ActKey>
          )}
          <ActKey href={hrefTo(back)}>Back</ActKey>
        </div>
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
        {nextLine && <ActKey onPress={of.next}>Next: {nextLine.name}</ActKey>}
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
