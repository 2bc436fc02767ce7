import { clockText } from '#calc/days.ts';
import type { Limit } from '#calc/entry-limits.ts';
import { instantNear } from '#calc/near-clock.ts';
import type { Instant } from '#model/schemas.ts';

/** An instant that was asked for: the instant, or one sentence that says why it cannot be. */
export type Asked = { at: Instant } | { refusal: string };

const minuteMs = 60_000;

/** The instant that a typed clock time means near `at`, if the entry can have happened then. */
export function askedTime(
  clock: string,
  at: Instant,
  limits: { from: Limit; to: Limit },
  zone: string,
): Asked {
  if (clock.trim() === clockText(at, zone)) return { at };
  const found = instantNear(withColon(clock), at, zone);
  return found === null
    ? { refusal: 'Write a time from 0:00 to 23:59, such as 20:46.' }
    : askedInstant(found, limits, zone);
}

/** A number pad has no colon: `2046` is 20:46. */
function withColon(clock: string): string {
  return clock.trim().replace(/^(\d{1,2})(\d\d)$/, '$1:$2');
}

/** The instant itself, if the entry can have happened then; the limit's own minute will do. */
export function askedInstant(
  at: Instant,
  { from, to }: { from: Limit; to: Limit },
  zone: string,
): Asked {
  if (at < from.at) {
    return at > from.at - minuteMs ? { at: from.at } : { refusal: limitWords(from, zone) };
  }
  return at > to.at ? { refusal: limitWords(to, zone) } : { at };
}

function limitWords({ at, by }: Limit, zone: string): string {
  const clock = clockText(at, zone);
  switch (by) {
    case 'begun':
      return `The session began at ${clock}.`;
    case 'first-entry':
      return `The first entry of the session is at ${clock}.`;
    case 'mixed':
      return `This pot was mixed at ${clock}.`;
    case 'filled':
      return `The mould was filled at ${clock}. It cannot open before.`;
    case 'last-filled':
      return `The last mould was filled at ${clock}.`;
    case 'opened':
      return `The mould was opened at ${clock}. It was filled before.`;
    case 'now':
      return `That is still to come. It is ${clock} now.`;
    case 'none':
      return 'This time cannot be.';
  }
}
