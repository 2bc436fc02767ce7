import type { Columns } from '#calc/columns.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { mendedSince } from '#calc/mould-changes.ts';
import { loggedShots, warmShots } from '#calc/mould-shots.ts';
import type { MouldYield } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { cavitySaid } from '#screens/moulds/cavity-words.ts';
import { MouldCard } from '#screens/moulds/MouldCard.tsx';
import {
  countedSince,
  expectedShares,
  mouldYieldOf,
  scaleFrom,
} from '#screens/moulds/mould-view.ts';
import { hrefTo } from '#screens/routes.ts';
import { headsOf } from '#store/heads.ts';
import { learntColumns } from '#store/learnt.ts';
import { breath } from '#store/steps.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MouldsScreen.module.css';

/** The wall of moulds, worst first: by the least that may be expected of them. */
export function MouldsScreen() {
  const { book } = useShop();
  const wall = useLive(
    async () => {
      const columns = await learntColumns(book);
      const changes = await headsOf(book, 'changes');
      const hung = [];
      for (const mould of await headsOf(book, 'moulds')) {
        const done = changes.filter(({ mouldId }) => mouldId === mould.id);
        hung.push(hungOf(mould, columns, mendedSince(done)));
        await breath();
      }
      return hung.sort((a, b) => leastOf(a) - leastOf(b) || shotsOf(b) - shotsOf(a));
    },
    ['moulds', 'columns', 'changes'],
    'wall',
  );
  if (!wall) return null;
  const from = scaleFrom(wall.map(({ shares }) => shares));
  return (
    <DeskPage
      title="Moulds"
      {...(wall.length > 1 ? { small: 'Warm shots, worst first' } : {})}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="workshop" word="Workshop" />}
    >
      {wall.length === 0 && <Sheet>There is no mould on the list.</Sheet>}
      <ul class={styles.wall}>
        {wall.map((hung) => (
          <li key={hung.mould.id}>
            <MouldCard {...hung} from={from} />
          </li>
        ))}
      </ul>
      {wall.length > 0 && <ActKey href={hrefTo({ at: 'yields' })}>Compare yields</ActKey>}
      <ActKey href={hrefTo({ at: 'mould-facts', mouldId: null })}>Add a mould</ActKey>
    </DeskPage>
  );
}

/** One mould with its warm counts, mended cavities from their mending on, and the one that stands out. */
function hungOf(mould: Mould, columns: readonly Columns[], since: ReadonlyMap<number, Instant>) {
  const own = mouldYieldOf(columns, mould.id, 'warm');
  if (!own) return { mould, own, shares: null, said: null };
  const shots = warmShots(loggedShots(sessionsOfMould(columns, mould.id), mould.id));
  return {
    mould,
    own: countedSince(own, shots, since),
    shares: expectedShares(own),
    said: cavitySaid(shots, since),
  };
}

interface Hung {
  own: MouldYield | null;
  shares: [number, number, number] | null;
}

/** The least good share to expect; above every share where that cannot be told yet. */
function leastOf({ shares }: Hung): number {
  return shares?.[1] ?? 2;
}

function shotsOf({ own }: Hung): number {
  return own?.tally.shots ?? 0;
}
