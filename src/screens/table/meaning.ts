import type { NextStep } from '#calc/next-step.ts';
import type { Table } from '#calc/table.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { allSaid, filledSaid } from '#screens/table/acts.ts';
import { countWords, joined } from '#screens/words.ts';
import type { Drawing } from '#ui/Icon.tsx';

/** What the main key says and does. */
export interface Meaning {
  means: 'filled' | 'good' | 'save-bad' | 'save' | 'nothing';
  icon?: Drawing;
  word: string;
  /** Names what the press will touch. */
  touches: string;
  /** The same in full, for a screen reader, where the key shows numbers. */
  spoken?: string;
  /** The same where there is little room: by number. */
  short: string;
  act: () => void;
}

const longestNames = 22;

/** All that the main key says, as a screen reader reads it. */
export function spokenOf({ word, spoken, touches }: Meaning): string {
  return `${word} ${spoken ?? touches}`;
}

/** The main key for the next step: its word, the moulds it touches, and what it writes. */
export function meaningOf(
  table: Table,
  step: NextStep,
  now: Instant,
  say: (said: Said) => void,
): Meaning {
  const names = joined(step.seats.map((seat) => seat.mould.name));
  const places = joined(step.seats.map((seat) => String(table.seats.indexOf(seat) + 1)));
  const short = step.seats.length > 1 ? places : names;
  // Long names would not fit the key: the numbers on the cards name the moulds as well.
  const shown = names.length > longestNames ? short : names;
  switch (step.means) {
    case 'good':
      return {
        means: 'good',
        icon: 'tick',
        word: 'All good',
        touches: shown,
        spoken: names,
        short,
        act: () => {
          const said = allSaid(step.seats, 'good');
          if (said) say(said);
        },
      };
    case 'filled': {
      const clocks = step.seats.filter((seat) => !seat.mould.hasNoClock).length;
      const starts = clocks === 0 ? 'no clock' : `start ${countWords(clocks, 'clock')}`;
      return {
        means: 'filled',
        icon: 'fill',
        word: 'Filled',
        touches: `${shown}: ${starts}`,
        spoken: `${names}: ${starts}`,
        short: `${short}: ${clocks === 0 ? 'no clock' : countWords(clocks, 'clock')}`,
        act: () => say(filledSaid(table, step.seats, now)),
      };
    }
    case 'setting':
      return {
        means: 'nothing',
        word: 'Setting',
        touches: `${names} first`,
        short: `${names} first`,
        act: () => {},
      };
    default:
      return {
        means: 'nothing',
        word: 'Nothing',
        touches: table.seats.length === 0 ? 'Add a mould' : 'All moulds sit out',
        short: table.seats.length === 0 ? 'Add a mould' : 'All sit out',
        act: () => {},
      };
  }
}
