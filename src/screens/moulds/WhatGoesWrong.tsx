import type { MouldYield } from '#calc/yields.ts';
import { defectWords } from '#screens/words.ts';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './WhatGoesWrong.module.css';

/** The defects of a mould as bars, commonest first. */
export function WhatGoesWrong({ own }: { own: MouldYield }) {
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
    </Sheet>
  );
}
