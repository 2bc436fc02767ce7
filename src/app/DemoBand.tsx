import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { hrefTo } from '#screens/routes.ts';
import { headsOf } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './DemoBand.module.css';

/** Says on every desk page of the demo shop that its numbers are made up, with the way out. */
export function DemoBand({ leave, isOnWall }: { leave: () => void; isOnWall: boolean }) {
  return (
    <aside class={styles.band} aria-label="Demo shop">
      <p>Demo: made-up numbers</p>
      <ActKey onPress={leave}>Leave demo</ActKey>
      {isOnWall && <Hints />}
    </aside>
  );
}

/** The mould whose vent is opened in week 9. */
const toldMould = 'Grub 50';

/** What there is to find, asked as questions. */
function Hints() {
  const { book } = useShop();
  const moulds = useLive(() => headsOf(book, 'moulds'), ['moulds'], 'told');
  const told = moulds?.find(({ name }) => name === toldMould);
  if (!told) return null;
  const href = hrefTo({ at: 'mould', mouldId: told.id });
  return (
    <ul class={styles.hints}>
      {['Which cavity is bad?', 'Did the vent help?', 'How many shots to warm?'].map((asked) => (
        <li key={asked}>
          <a href={href}>{asked}</a>
        </li>
      ))}
    </ul>
  );
}
