import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { MapView } from '#calc/map-view.ts';
import type { Result } from '#model/entry.ts';
import type { FrozenMould } from '#model/mould.ts';
import { defectWords } from '#screens/words.ts';
import { Icon } from '#ui/Icon.tsx';
import { usePress } from '#ui/use-press.ts';
import styles from './Table.module.css';

interface Props {
  mould: FrozenMould;
  results: readonly Result[];
  /** Cavities that were bad in the shot before. */
  lastBad: readonly number[];
  view: MapView;
  /** Which part of the map is shown, from 0. */
  part: number;
  /** The cavity that a pedal stands on; null or absent: none. */
  walkedTo?: number | null;
  onPress: (cavity: number) => void;
}

/** The mould as it lies opened, a key for every cavity of the part that is shown. */
export function CavityMap(props: Props) {
  const { mould, results, lastBad, view, part, walkedTo, onPress } = props;
  return (
    <div
      class={styles.map}
      role="group"
      aria-label={`${mould.name}, plastic goes in at the notch`}
      data-turned={view.isTurned || undefined}
      style={{ '--rows': view.rows, '--cols': view.cols }}
    >
      <i class={styles.inlet} aria-hidden="true" />
      {placesIn(mould, view, part).map(({ cavity, row, col }) => (
        <Cell
          key={cavity}
          cavity={cavity}
          row={row}
          col={col}
          result={results[cavity - 1] ?? 'not-checked'}
          wasBad={lastBad.includes(cavity)}
          isWalkedTo={cavity === walkedTo}
          onPress={() => onPress(cavity)}
        />
      ))}
    </div>
  );
}

interface CellProps {
  cavity: number;
  row: number;
  col: number;
  result: Result;
  wasBad: boolean;
  isWalkedTo: boolean;
  onPress: () => void;
}

function Cell({ cavity, row, col, result, wasBad, isWalkedTo, onPress }: CellProps) {
  const press = usePress(onPress);
  const { state, word } = looksOf(result);
  return (
    <button
      type="button"
      class={styles.cell}
      style={{ '--r': row, '--c': col }}
      data-state={state}
      data-last={wasBad ? 'bad' : undefined}
      data-walked={isWalkedTo || undefined}
      aria-current={isWalkedTo || undefined}
      aria-pressed={state === 'bad'}
      {...press}
    >
      <i class="said">
        {`Cavity ${cavity}, ${word || 'good'}${wasBad ? ', bad last shot too' : ''}`}
      </i>
      <b aria-hidden="true">{cavity}</b>
      {state === 'bad' && <Icon of="cross" />}
      {state === 'unchecked' && <Icon of="unknown" />}
      {(state === 'bad' || state === 'closed') && (
        <span aria-hidden="true">
          <em class={styles.whole}>{word}</em>
          <em class={styles.telling}>{telling(word)}</em>
        </span>
      )}
    </button>
  );
}

/** The mould as a thin-lined picture, while there is nothing to press in it. */
export function StillMap({ mould, lastBad, view }: Pick<Props, 'mould' | 'lastBad' | 'view'>) {
  const bad = lastBad.length > 0 ? `, cavity ${lastBad.join(', ')} bad last shot` : '';
  const closed = mould.closed.length > 0 ? `, ${mould.closed.join(', ')} closed off` : '';
  return (
    <div
      class={styles.map}
      role="img"
      aria-label={`${mould.name}, plastic goes in at the notch${bad}${closed}`}
      data-still
      data-turned={view.isTurned || undefined}
      style={{ '--rows': view.rows, '--cols': view.cols }}
    >
      <i class={styles.inlet} />
      {placesIn(mould, view, 0).map(({ cavity, row, col }) => (
        <div
          key={cavity}
          class={styles.cell}
          style={{ '--r': row, '--c': col }}
          data-state={mould.closed.includes(cavity) ? 'closed' : 'good'}
          data-last={lastBad.includes(cavity) ? 'bad' : undefined}
        >
          <b>{cavity}</b>
          {mould.closed.includes(cavity) && <span>off</span>}
        </div>
      ))}
    </div>
  );
}

/** Where each cavity of one part of the map is drawn. */
function placesIn(mould: FrozenMould, view: MapView, part: number) {
  const size = pictureSize(mould.layout);
  const across = Math.ceil((view.isTurned ? size.rows : size.cols) / view.cols);
  const firstRow = Math.floor(part / across) * view.rows;
  const firstCol = (part % across) * view.cols;
  return spotsOf(mould.layout, mould.opens)
    .map((spot) => ({
      cavity: spot.cavity,
      // A true quarter turn to the left brings the notch from the top to the left.
      row: (view.isTurned ? size.cols + 1 - spot.col : spot.row) - firstRow,
      col: (view.isTurned ? spot.row : spot.col) - firstCol,
    }))
    .filter(({ row, col }) => row >= 1 && row <= view.rows && col >= 1 && col <= view.cols);
}

/** The word that tells a defect from the others, where a small cell has no room for both of its words. */
function telling(word: string): string {
  return word === defectWords['came-apart'] ? 'Apart' : (word.split(' ')[0] ?? word);
}

function looksOf(result: Result): { state: string; word: string } {
  if (result === 'good') return { state: 'good', word: '' };
  if (result === 'closed') return { state: 'closed', word: 'off' };
  if (result === 'not-checked') return { state: 'unchecked', word: 'not checked' };
  return { state: 'bad', word: defectWords[result] };
}
