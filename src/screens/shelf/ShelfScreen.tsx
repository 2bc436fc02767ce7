import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { roundingWords } from '#screens/amounts.ts';
import { hrefTo } from '#screens/routes.ts';
import { JarCard } from '#screens/shelf/JarCard.tsx';
import { type Jar, jarsOf, kindWords, unitsOf } from '#screens/shelf/shelf-view.ts';
import { ToBuy } from '#screens/shelf/ToBuy.tsx';
import { countWords } from '#screens/words.ts';
import { settingsOf } from '#store/settings.ts';
import { shelfOf, shelfTables } from '#store/stock.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './ShelfScreen.module.css';

/** The place of the materials: jars to their level, and what to buy. */
export function ShelfScreen() {
  const { book } = useShop();
  const found = useLive(
    async () => ({ jars: jarsOf(await shelfOf(book)), settings: await settingsOf(book) }),
    [...shelfTables, 'settings'],
    'shelf',
  );
  if (!found) return null;
  const { jars, settings } = found;
  const units = unitsOf(settings);
  const toBuy = jars.filter(({ reason }) => reason !== null);
  return (
    <DeskPage
      title="Shelf"
      small={smallWords(jars, toBuy.length)}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="workshop" word="Workshop" />}
    >
      {toBuy.length > 0 && <ToBuy jars={toBuy} units={units} />}
      {jars.length === 0 && (
        <Sheet>
          <p>Nothing on the shelf yet. Add what you pour with, and each mix takes its part.</p>
        </Sheet>
      )}
      {grouped(jars).map(([kind, group]) => (
        <section key={kind} class={styles.group}>
          <h2>{kind}</h2>
          <ul class={styles.jars}>
            {group.map((jar) => (
              <li key={jar.material.id}>
                <JarCard jar={jar} units={units} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <ActKey href={hrefTo({ at: 'material-facts', materialId: null })}>Add a material</ActKey>
      {jars.length > 0 && (
        <>
          <ActKey href={hrefTo({ at: 'bait-cost' })}>What a bait costs</ActKey>
          <p class={styles.quiet}>{roundingWords}</p>
        </>
      )}
    </DeskPage>
  );
}

function smallWords(jars: readonly Jar[], toBuy: number): string {
  if (jars.length === 0) return 'Empty';
  const materials = countWords(jars.length, 'material');
  return toBuy === 0 ? materials : `${materials}, ${countWords(toBuy, 'thing')} to buy`;
}

/** The jars under the words of their kinds; small kinds share one row. */
function grouped(jars: readonly Jar[]): [kind: string, Jar[]][] {
  const groups = new Map<string, Jar[]>();
  for (const jar of jars) {
    const { kind, isAside } = jar.material;
    const word = isAside ? 'Set aside' : (groupWords[kind] ?? kindWords[kind][1]);
    groups.set(word, [...(groups.get(word) ?? []), jar]);
  }
  return [...groups];
}

const groupWords: Partial<Record<Jar['material']['kind'], string>> = {
  plastisol: 'To pour',
  softener: 'To pour',
  hardener: 'To pour',
  stabiliser: 'To pour',
  scent: 'Scent and salt',
  salt: 'Scent and salt',
  hook: 'Hooks, bags and other',
  bag: 'Hooks, bags and other',
  other: 'Hooks, bags and other',
};
