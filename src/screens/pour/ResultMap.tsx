import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { mapViewIn } from '#calc/map-view.ts';
import type { Result } from '#model/entry.ts';
import type { FrozenMould } from '#model/mould.ts';
import { defectWords } from '#screens/words.ts';
import { Icon } from '#ui/Icon.tsx';
import { useSize } from '#ui/use-size.ts';
import styles from './ResultMap.module.css';

interface Props {
  mould: FrozenMould;
  results: readonly Result[];
  onPress: (cavity: number) => void;
}

/** The least a cell may be, CSS px: a word has to stand in it. */
const cellPx = 64;
const gapPx = 4;

/**
 * The mould as it lies opened, a key for every cavity: upright where it fits, else a quarter turn
 * to the left with the notch left; a mould too wide for both runs on to the right.
 */
export function ResultMap({ mould, results, onPress }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const size = pictureSize(mould.layout);
  // The page grows with the map, so height sets no limit.
  const room = { widthPx, heightPx: 100_000, cellPx, gapPx, partKeysPx: 0 };
  const view = mapViewIn(room, size);
  const isTurned = view.parts > 1 ? size.rows < size.cols : view.isTurned;
  return (
    <div class={styles.box} ref={box}>
      {widthPx > 0 && (
        <div
          class={styles.map}
          role="group"
          aria-label={`${mould.name}, plastic goes in at the notch`}
          data-turned={isTurned || undefined}
          style={{ '--cols': isTurned ? size.rows : size.cols }}
        >
          <i aria-hidden="true" />
          {spotsOf(mould.layout, mould.opens).map(({ cavity, row, col }) => (
            <Cell
              key={cavity}
              cavity={cavity}
              row={isTurned ? size.cols + 1 - col : row}
              col={isTurned ? row : col}
              result={results[cavity - 1] ?? 'not-checked'}
              onPress={() => onPress(cavity)}
            />
          ))}
        </div>
      )}
    </div>
  );
}

interface CellProps {
  cavity: number;
  row: number;
  col: number;
  result: Result;
  onPress: () => void;
}

function Cell({ cavity, row, col, result, onPress }: CellProps) {
  const { state, word } = looksOf(result);
  return (
    <button
      type="button"
      class={styles.cell}
      style={{ '--r': row, '--c': col }}
      data-state={state}
      aria-label={`Cavity ${cavity}, ${word || 'good'}`}
      onClick={onPress}
    >
      <b>{cavity}</b> {state === 'unchecked' ? <Icon of="unknown" /> : <span>{word}</span>}
    </button>
  );
}

function looksOf(result: Result): { state: string; word: string } {
  if (result === 'good') return { state: 'good', word: '' };
  if (result === 'closed') return { state: 'closed', word: 'off' };
  if (result === 'not-checked') return { state: 'unchecked', word: 'not checked' };
  return { state: 'bad', word: defectWords[result] };
}
