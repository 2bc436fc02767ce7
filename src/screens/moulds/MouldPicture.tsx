import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { MouldYield } from '#calc/yields.ts';
import type { Mould } from '#model/mould.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { GridPicture } from '#ui/GridPicture.tsx';

interface Props {
  mould: Mould;
  /** Null: nothing was counted. */
  own: MouldYield | null;
  /** The cavity to mark; leave out for the one with the most bad. */
  worst?: number | null;
  size?: 'large';
}

/** The mould drawn, ink in a cavity as its bad share. */
export function MouldPicture({ mould, own, size, ...given }: Props) {
  const { worst = (own && worstOf(own)?.cavity) ?? null } = given;
  const { rows, cols } = pictureSize(mould.layout);
  const said = own
    ? own.byCavity
        .map(({ bad, checked }, index) => {
          const isClosed = mould.closed.includes(index + 1);
          const counts = `cavity ${index + 1}: ${bad} bad of ${checked}`;
          return isClosed ? `${counts}, closed off` : counts;
        })
        .join(', ')
    : 'nothing logged yet';
  return (
    <GridPicture
      rows={rows}
      cols={cols}
      label={`${mould.name}, ${said}`}
      {...(size ? { size } : {})}
      cells={spotsOf(mould.layout, mould.opens).map(({ cavity, row, col }) => {
        const { bad = 0, checked = 0 } = own?.byCavity[cavity - 1] ?? {};
        return {
          number: cavity,
          row,
          col,
          share: checked === 0 ? 0 : bad / checked,
          isClosed: mould.closed.includes(cavity),
          isWorst: cavity === worst,
          words: wordsOf(mould.closed.includes(cavity), bad, checked, cols),
        };
      })}
    />
  );
}

function wordsOf(isClosed: boolean, bad: number, checked: number, cols: number): string {
  if (isClosed) return 'off';
  if (bad === 0) return '';
  if (cols > 4) return String(bad);
  return cols > 3 ? `${bad} bad` : ofWords(bad, checked);
}
