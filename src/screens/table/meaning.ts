import type { NextStep } from '#calc/next-step.ts';
import { shortageOf, type Trays } from '#calc/parts.ts';
import { type Seat, type Table, waitingShot } from '#calc/table.ts';
import type { Result, Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { partWords } from '#screens/part-words.ts';
import { allSaid, filledSaid, layerSaid } from '#screens/table/acts.ts';
import { saveWords } from '#screens/table/save-words.ts';
import { shortened } from '#screens/table/shortened.ts';
import type { Walk } from '#screens/table/use-walk.ts';
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
  /** It may be pressed again at once: nothing is on its way to the disk. */
  isQuick?: true;
  act: () => void;
}

const longestNames = 22;
/** On a stand the word of the key leaves one line. */
const longestOnStand = 9;
/** With a shortage to tell, less room is left for names. */
const longestNamesShort = 12;

/** A name that is too long for the line; the dots make it wider than its letters. */
function cut(name: string, most: number): string {
  return name.length > most ? shortened(name, most - 1) : name;
}

/** All that the main key says, as a screen reader reads it. */
export function spokenOf({ word, spoken, touches }: Meaning): string {
  return `${word} ${spoken ?? touches}`;
}

/** The same as a name: it begins with the words that the key shows (WCAG 2.2, 2.5.3). */
export function labelOf(meaning: Meaning, isStand: boolean): string {
  const { word, spoken, touches, short } = meaning;
  const shown = isStand ? short : touches;
  const full = spoken ?? touches;
  return full.startsWith(shown) ? `${word} ${full}` : `${word} ${shown}, ${full}`;
}

/** The main key for the next step: its word, the moulds it touches, and what it writes. */
export function meaningOf(
  table: Table,
  step: NextStep,
  now: Instant,
  say: (said: Said) => void,
  trays: Trays = new Map(),
): Meaning {
  const names = joined(step.seats.map((seat) => seat.mould.name));
  const places = joined(step.seats.map((seat) => String(table.seats.indexOf(seat) + 1)));
  const isOne = step.seats.length === 1;
  const short = isOne ? cut(names, longestOnStand) : places;
  // Long names would not fit the key: the numbers on the cards name the moulds as well.
  const shown = names.length > longestNames ? (isOne ? cut(names, longestNames) : places) : names;
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
      const starts = startWords(step.seats, trays);
      const isLong = names.length > (starts.isShort ? longestNamesShort : longestNames);
      return {
        means: 'filled',
        icon: 'fill',
        word: 'Filled',
        touches: `${isLong ? places : names}: ${starts.long}`,
        spoken: `${names}: ${starts.long}`,
        short: `${short}: ${starts.short}`,
        act: () => say(filledSaid(table, step.seats, now)),
      };
    }
    case 'layer': {
      const [first] = step.seats;
      const number = (first ? (waitingShot(first)?.layers.length ?? 0) : 0) + 1;
      const pot = first?.hand?.pot?.name ?? '';
      return {
        means: 'filled',
        icon: 'fill',
        word: `Layer ${number}`,
        touches: `${shortened(pot, 16)}: ${names.length > longestNamesShort ? places : names}`,
        spoken: `${pot}: ${names}`,
        short: `${shortened(pot, 8)}: ${places}`,
        act: () => {
          const said = layerSaid(step.seats);
          if (said) say(said);
        },
      };
    }
    case 'setting':
      return {
        means: 'nothing',
        word: 'Setting',
        touches: `${shown} first`,
        spoken: `${names} first`,
        short: `${short} first`,
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

/** The main key while a map is open: Save, or on to the next cavity where a pedal walks it. */
export function mapMeaning(
  results: readonly Result[],
  walk: Pick<Walk, 'cavity' | 'next'>,
  save: () => void,
): Meaning {
  const words = saveWords(results);
  if (walk.cavity !== null) {
    const touches = `cavity ${walk.cavity} of ${results.length}`;
    return { means: 'save', word: 'Next', touches, short: touches, act: walk.next };
  }
  const hasBad = words.includes('bad');
  return {
    means: hasBad ? 'save-bad' : 'save',
    icon: hasBad ? 'cross' : 'tick',
    word: 'Save',
    touches: words,
    short: words,
    act: save,
  };
}

/** The main key while a pedal goes through the keys. */
export function keysMeaning({ next }: { next: () => void }): Meaning {
  return {
    means: 'save',
    word: 'Next',
    touches: 'key, hold to press',
    short: 'hold: press',
    act: next,
  };
}

/** What a fill starts, or the parts that it lacks. */
function startWords(
  seats: readonly Seat[],
  trays: Trays,
): { long: string; short: string; isShort: boolean } {
  const lacks = shortageOf(seats, trays);
  if (lacks) {
    const { needs, has, part } = lacks;
    const long = `needs ${partWords(needs, part)}, tray has ${has}`;
    return { long, short: `${has}/${needs}`, isShort: true };
  }
  if (seats[0]?.hand) {
    const pot = seats[0].hand.pot?.name;
    return {
      long: pot ? `layer 1, ${shortened(pot, 16)}` : 'layer 1',
      short: 'layer 1',
      isShort: false,
    };
  }
  const clocks = seats.filter((seat) => !seat.mould.hasNoClock).length;
  if (clocks === 0) return { long: 'no clock', short: 'no clock', isShort: false };
  const count = countWords(clocks, 'clock');
  return { long: `start ${count}`, short: count, isShort: false };
}
