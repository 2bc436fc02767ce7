import type { Columns } from '#calc/columns.ts';
import { pouredColours } from '#calc/session-counts.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import { ColourChip } from '#screens/ColourChip.tsx';
import { hrefTo } from '#screens/routes.ts';
import { type Expected, expectedOf, ofWords } from '#screens/yield-words.ts';
import { Range } from '#ui/Range.tsx';
import styles from './SessionRow.module.css';

/** One session in a list: what it was poured in, with what, and what came of it. Leads to its page. */
export function SessionRow({ session, title }: { session: Columns; title: string }) {
  const yields = yieldsByMould([session]);
  const { good, checked, shots } = totalOf(yields);
  const colours = pouredColours(session);
  const names = [...yields.map(({ name }) => name), ...colours.map(({ name }) => name)];
  return (
    <li class={styles.row}>
      <a href={hrefTo({ at: 'session', sessionId: session.sessionId })}>
        <ColourChip swatches={colours[0]?.swatches ?? []} />
        <b>{title}</b>
        <b class={styles.count}>{shots === 0 ? 'no shots' : ofWords(good, checked)}</b>
        <span class={styles.names}>{names.join(', ')}</span>
        {shots > 0 && <Small expected={expectedOf([session], 'all')} />}
      </a>
    </li>
  );
}

function Small({ expected }: { expected: Expected | null }) {
  if (!expected) return <b class={styles.early}>too few to tell</b>;
  // The line of all rows begins at half: a dot cannot stand to the left of it.
  if (expected.p < 50) return <b class={styles.early}>under half good</b>;
  const { p, lo, hi } = expected;
  return (
    <span class={styles.range}>
      <Range {...expected} label={`${p} of 100; expect ${lo} to ${hi}`} />
    </span>
  );
}
