import type { Warmth as Facts } from '#calc/warmth.ts';
import styles from './Table.module.css';

const words = { cold: 'Cold', warming: 'Warming', warm: 'Warm', cooling: 'Cooling' } as const;

/** Three blocks and a word for how warm the mould is. */
export function Warmth({ warmth }: { warmth: Facts }) {
  return (
    <div
      class={styles.warmth}
      data-state={warmth.word}
      data-blocks={warmth.blocks}
      data-flagged={warmth.isFlagged || undefined}
    >
      <span class={styles.blocks} aria-hidden="true">
        <i />
        <i />
        <i />
      </span>
      <b>{words[warmth.word]}</b>
    </div>
  );
}
