import type { CameDue } from '#calc/came-due.ts';
import type { Instant } from '#model/schemas.ts';
import { shortened } from '#screens/table/shortened.ts';
import { clockWords, spanWords } from '#screens/words.ts';

/** What came ready while nobody looked: `Grub 50 was ready 1:20 ago`; null: nothing. */
export function readyWords(dues: readonly CameDue[], now: Instant): string | null {
  const [first, ...others] = dues;
  if (!first) return null;
  const ago = ({ at }: CameDue) => agoWords(now - at);
  const name = ({ seat }: CameDue, most: number) => shortened(seat.mould.name, most);
  if (others.length === 0) return `${name(first, 14)} was ready ${ago(first)} ago`;
  const rest = others.map((due) => `${name(due, 10)} ${ago(due)}`);
  return `Ready: ${[`${name(first, 10)} ${ago(first)} ago`, ...rest].join(', ')}`;
}

/** `1:20`; from an hour on `1 h 05`. */
function agoWords(ms: number): string {
  return ms < 3_600_000 ? clockWords(Math.floor(ms / 1_000)) : spanWords(ms);
}

/** The clock time of an instant where the session is poured, `19:42`. */
export function timeWords(at: Instant, zone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    timeZone: zone,
  }).format(at);
}
