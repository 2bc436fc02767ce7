import { cavityVerdicts } from '#calc/cavities.ts';
import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { cavityMatrix, type LoggedShot } from '#calc/mould-shots.ts';
import type { MouldYield } from '#calc/yields.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Defect } from '#model/defect.ts';
import type { Mould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { standingOut } from '#screens/moulds/cavity-words.ts';
import { cavityWords } from '#screens/moulds/change-words.ts';
import { defectWords } from '#screens/words.ts';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';
import styles from './WhatGoesWrong.module.css';

interface Props {
  own: MouldYield;
  mould: Mould;
  shots: readonly LoggedShot[];
  since: ReadonlyMap<number, Instant>;
}

const pictured = 2;

/** The defects of a mould as bars, commonest first, and where the two commonest happen. */
export function WhatGoesWrong({ own, mould, shots, since }: Props) {
  const counts = [...own.byDefect].sort(([, a], [, b]) => b - a);
  const most = counts[0]?.[1];
  if (!most) return null;
  return (
    <Sheet title="What goes wrong">
      <dl class={styles.bars} style={{ '--max': most }}>
        {counts.map(([defect, count]) => (
          <div key={defect}>
            <dt>{defectWords[defect]}</dt>
            <dd>
              <i style={{ '--n': count }} />
              {count}
            </dd>
          </div>
        ))}
      </dl>
      <Where
        mould={mould}
        shots={shots}
        since={since}
        kinds={counts.slice(0, pictured).map(([defect]) => defect)}
      />
    </Sheet>
  );
}

interface WhereProps extends Pick<Props, 'mould' | 'shots' | 'since'> {
  kinds: readonly Defect[];
}

/** A small picture a defect; each kind looked at makes all of them harder to pass. */
function Where({ mould, shots, since, kinds }: WhereProps) {
  const found = useWorked(
    () =>
      kinds.map((defect) => {
        const matrix = cavityMatrix(shots, defect, since);
        const verdicts = cavityVerdicts(matrix);
        const seen = (matrix[0] ?? []).map((_, index) => {
          const own = matrix.flatMap((shot) => shot[index] ?? []);
          return { bad: own.filter((bad) => bad === 1).length, checked: own.length };
        });
        return { defect, seen, words: whereWords(verdicts, kinds.length) };
      }),
    [shots, since, kinds.join(' ')],
  );
  if (!found || (found[0]?.seen.length ?? 0) < 2) return null;
  const { rows, cols } = pictureSize(mould.layout);
  const cavities = found[0]?.seen.map((_, index) => index) ?? [];
  return (
    <>
      <div class={styles.where}>
        {found.map(({ defect, seen, words }) => {
          const shares = seen.map(({ bad, checked }) => bad / Math.max(1, checked));
          const worst = Math.max(...shares);
          return (
            <figure key={defect}>
              <GridPicture
                rows={rows}
                cols={cols}
                label={`${defectWords[defect]} by cavity: ${seen.map(({ bad }) => bad).join(', ')}`}
                cells={spotsOf(mould.layout, mould.opens).map(({ cavity, row, col }) => ({
                  number: cavity,
                  row,
                  col,
                  share: (shares[cavity - 1] ?? 0) / Math.max(worst, 0.3),
                  isClosed: mould.closed.includes(cavity),
                }))}
              />
              <figcaption>
                {defectWords[defect]}: {words}
              </figcaption>
            </figure>
          );
        })}
      </div>
      <TwinTable
        heads={['Cavity', ...found.map(({ defect }) => defectWords[defect]), 'Looked at']}
        rows={cavities.map((index) => [
          index + 1,
          ...found.map(({ seen }) => seen[index]?.bad ?? 0),
          found[0]?.seen[index]?.checked ?? 0,
        ])}
      />
    </>
  );
}

function whereWords(verdicts: ReturnType<typeof cavityVerdicts>, kinds: number): string {
  if (verdicts.kind !== 'judged') return 'too early to tell where';
  const out = standingOut(verdicts, kinds).map(({ number }) => number);
  if (out.length > 0) return `more in ${cavityWords(out)} than in its neighbours`;
  const isEarly = verdicts.cavities.every(({ verdict }) => verdict === 'too-early');
  return isEarly ? 'too early to tell where' : 'no cavity stands out';
}
