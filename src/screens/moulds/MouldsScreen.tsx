import type { MouldYield } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mould } from '#model/mould.ts';
import { MouldPicture } from '#screens/moulds/MouldPicture.tsx';
import { expectedOfMould, mouldYieldOf } from '#screens/moulds/mould-view.ts';
import { hrefTo } from '#screens/routes.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Range } from '#ui/Range.tsx';
import { Tag } from '#ui/Tag.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './MouldsScreen.module.css';

interface Hung {
  mould: Mould;
  own: MouldYield | null;
  expected: { p: number; lo: number; hi: number } | null;
}

/** The wall of moulds, worst first: by what may be expected at least, those that cannot tell yet last. */
export function MouldsScreen() {
  const { book } = useShop();
  const wall = useLive(
    async () => {
      const columns = await allColumns(book);
      const moulds = await headsOf(book, 'moulds');
      return moulds
        .map((mould): Hung => {
          const own = mouldYieldOf(columns, mould.id, 'warm');
          return { mould, own, expected: own && expectedOfMould(own) };
        })
        .sort((a, b) => (a.expected?.lo ?? 101) - (b.expected?.lo ?? 101));
    },
    ['moulds', 'columns'],
    'wall',
  );
  if (!wall) return null;
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
            <MouldCard {...hung} />
          </li>
        ))}
      </ul>
      <ActKey href={hrefTo({ at: 'mould-facts', mouldId: null })}>Add a mould</ActKey>
    </DeskPage>
  );
}

function MouldCard({ mould, own, expected }: Hung) {
  return (
    <a class={styles.mould} href={hrefTo({ at: 'mould', mouldId: mould.id })}>
      <h2>{mould.name}</h2>
      <MouldPicture mould={mould} own={own} />
      <span class={styles.count}>
        {own ? `${ofWords(own.tally.good, own.tally.checked)} good` : 'No warm shot yet'}
      </span>
      {expected ? (
        <Range
          {...expected}
          label={`${expected.p} of 100 good, expect ${expected.lo} to ${expected.hi}`}
        />
      ) : (
        <Tag>too few to tell</Tag>
      )}
      <span class={styles.quiet}>{quietWords(mould, own)}</span>
    </a>
  );
}

function quietWords(mould: Mould, own: MouldYield | null): string {
  const [first] = mould.closed;
  if (mould.closed.length === 1) return `Cavity ${first} closed off`;
  if (mould.closed.length > 1) return `${mould.closed.length} cavities closed off`;
  if (!own) return '';
  const worst = worstOf(own);
  if (worst) return `Cavity ${worst.cavity}: ${worst.bad} bad of ${worst.checked}`;
  return own.tally.notChecked > 0
    ? `${own.tally.notChecked} not checked`
    : `${own.tally.shots} shots so far`;
}
