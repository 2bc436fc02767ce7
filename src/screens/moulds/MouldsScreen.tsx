import type { MouldYield } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { MouldCard } from '#screens/moulds/MouldCard.tsx';
import { expectedShares, mouldYieldOf, scaleFrom } from '#screens/moulds/mould-view.ts';
import { hrefTo } from '#screens/routes.ts';
import { headsOf } from '#store/heads.ts';
import { learntColumns } from '#store/learnt.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MouldsScreen.module.css';

/** The wall of moulds, worst first: by the least that may be expected of them. */
export function MouldsScreen() {
  const { book } = useShop();
  const wall = useLive(
    async () => {
      const columns = await learntColumns(book);
      const moulds = await headsOf(book, 'moulds');
      return moulds
        .map((mould) => {
          const own = mouldYieldOf(columns, mould.id, 'warm');
          return { mould, own, shares: own && expectedShares(own) };
        })
        .sort((a, b) => leastOf(a) - leastOf(b) || shotsOf(b) - shotsOf(a));
    },
    ['moulds', 'columns'],
    'wall',
  );
  if (!wall) return null;
  const from = scaleFrom(wall.map(({ shares }) => shares));
  return (
    <DeskPage
      title="Moulds"
      small="Warm shots, worst first"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="workshop" word="Workshop" />}
    >
      <ul class={styles.wall}>
        {wall.map((hung) => (
          <li key={hung.mould.id}>
            <MouldCard {...hung} from={from} />
          </li>
        ))}
      </ul>
      <ActKey href={hrefTo({ at: 'yields' })}>Compare yields</ActKey>
      <ActKey href={hrefTo({ at: 'mould-facts', mouldId: null })}>Add a mould</ActKey>
    </DeskPage>
  );
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
