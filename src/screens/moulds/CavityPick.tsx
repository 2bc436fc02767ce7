import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { Mould } from '#model/mould.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './CavityPick.module.css';

interface Props {
  mould: Mould;
  picked: readonly number[];
  onPress: (cavity: number) => void;
}

const cellPx = 52;

/** The mould as it lies opened, a key for every cavity; a quarter turn to the left where only that fits. */
export function CavityPick({ mould, picked, onPress }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const { rows, cols } = pictureSize(mould.layout);
  const isTurned = cols > rows && cols * cellPx > widthPx;
  return (
    <div ref={box}>
      <div
        class={styles.map}
        role="group"
        aria-label={`Cavities of ${mould.name}`}
        data-turned={isTurned || undefined}
        style={{ '--cols': isTurned ? rows : cols }}
      >
        <i aria-hidden="true" />
        {spotsOf(mould.layout, mould.opens).map(({ cavity, row, col }) => (
          <button
            key={cavity}
            type="button"
            aria-pressed={picked.includes(cavity)}
            aria-label={`Cavity ${cavity}`}
            style={{ '--r': isTurned ? cols + 1 - col : row, '--c': isTurned ? row : col }}
            onClick={() => onPress(cavity)}
          >
            {cavity}
          </button>
        ))}
      </div>
    </div>
  );
}
