import { useEffect, useRef, useState } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import type { Instant } from '#model/schemas.ts';
import { changesBetween, sightsAt } from '#screens/table/announced.ts';

interface Props {
  table: Table;
  now: Instant;
  /** Lines that the eye sees as well; each is told when it comes. */
  lines: readonly (string | null)[];
}

/**
 * Tells a screen reader, when it has a moment, what has changed. The digits of a countdown are not told
 * as they run, only at 1:00, at 0:10 and when the mould is open.
 */
export function Announcer({ table, now, lines }: Props) {
  const [words, setWords] = useState('');
  const sights = sightsAt(table, now);
  const before = useRef({ sights, lines: [] as Props['lines'] });
  useEffect(() => {
    const was = before.current;
    before.current = { sights, lines };
    const fresh = lines.filter((line) => line !== null && !was.lines.includes(line));
    const told = [...changesBetween(was.sights, sights), ...fresh].join('. ');
    if (told) setWords(told);
  });
  return (
    <p class="said" role="status">
      {words}
    </p>
  );
}
