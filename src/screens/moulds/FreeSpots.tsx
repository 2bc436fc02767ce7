import type { Spots } from '#screens/moulds/mould-form.ts';
import styles from './FreeSpots.module.css';

type Spot = Spots[number];

const side = 8;
const most = 48;

/** A plan of the open mould: an empty place takes the next number, a number pressed is taken out. */
export function FreeSpots(props: { spots: Spots; onChange: (spots: Spots) => void }) {
  const { spots, onChange } = props;
  const places = Array.from({ length: side * side }, (_, index) => ({
    x: ((index % side) + 0.5) / side,
    y: (Math.floor(index / side) + 0.5) / side,
  }));
  const at = (place: Spot) => spots.findIndex((spot) => isSame(spot, place));
  function press(place: Spot) {
    const found = at(place);
    if (found >= 0) onChange(spots.filter((_, index) => index !== found));
    else if (spots.length < most) onChange([...spots, place]);
  }
  return (
    <>
      <p>
        Press where the cavities lie, in the order of their numbers, as you see them when it is
        open. The pouring side is up. {soFar(spots.length)}
      </p>
      <div class={styles.plan} role="group" aria-label="Plan of the mould">
        {places.map((place, index) => {
          const found = at(place);
          const where = `row ${Math.floor(index / side) + 1}, column ${(index % side) + 1}`;
          return (
            <button
              key={where}
              type="button"
              aria-pressed={found >= 0}
              aria-label={found >= 0 ? `Cavity ${found + 1}, ${where}` : `Empty, ${where}`}
              onClick={() => press(place)}
            >
              {found >= 0 ? found + 1 : ''}
            </button>
          );
        })}
      </div>
    </>
  );
}

function soFar(count: number): string {
  if (count === 0) return '';
  return count === most ? `${most} cavities is the most.` : `${count} so far.`;
}

function isSame(a: Spot, b: Spot): boolean {
  return Math.abs(a.x - b.x) < 0.5 / side && Math.abs(a.y - b.y) < 0.5 / side;
}
