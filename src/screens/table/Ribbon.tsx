import type { Seat } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import styles from './Table.module.css';

const shown = 8;

/** The last shots of a mould, a bar a shot: ink from the top is bad, dots are not checked. */
export function Ribbon({ seat }: { seat: Seat }) {
  const shots = seat.shots.filter((shot) => shot.loggedAt !== null).slice(-shown);
  if (shots.length === 0) return null;
  const counts = shots.map((shot) => ({ id: shot.id, ...countOf(shot.results) }));
  const unchecked = counts.filter(({ notChecked }) => notChecked > 0).length;
  const said = `${seat.mould.name}, last ${shots.length} shots: bad ${counts
    .map(({ bad }) => bad)
    .join(', ')}${unchecked > 0 ? `; ${unchecked} not all checked` : ''}`;
  return (
    <div class={styles.side}>
      <span class={styles.sideWord}>
        {shots.length === 1 ? 'last shot' : `last ${shots.length} shots`}
      </span>
      <div class={styles.ribbon} role="img" aria-label={said}>
        {counts.map(({ id, good, bad, notChecked }) => (
          <i
            key={id}
            style={{ '--bad': bad, '--of': Math.max(1, good + bad) }}
            data-state={notChecked > 0 ? 'unchecked' : undefined}
          />
        ))}
      </div>
    </div>
  );
}
