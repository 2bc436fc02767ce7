/** One pulse of a sound: when it begins, from the start of the sound, how long it is and how loud, 0..1. */
export interface Pulse {
  atSec: number;
  lengthSec: number;
  level: number;
}

/** A sound as it is to be played: one colour of tone and its pulses. */
export interface Tone {
  fundamentalHz: number;
  /** Loudness of the fundamental and of each harmonic after it, to each other. */
  partials: readonly number[];
  /** Every pulse rises and falls this long, in a straight line. */
  rampSec: number;
  pulses: readonly Pulse[];
}

/** A place that will be ready: in how long; below 0: since when. */
export interface Due {
  place: number;
  inMs: number;
}

/** One ring of one place, from now. */
export interface Ring {
  place: number;
  fromSec: number;
  untilSec: number;
  level: number;
}

const pulseSec = 0.18;
const pauseSec = 0.12;
/** Between two places that are ready at once, so that their pulses are counted apart. */
const apartSec = 0.3;
const fullLevel = 0.9;
/** The first ring: half the pressure, so 6 dB below the others. */
const firstLevel = fullLevel / 2;
const secondRingSec = 3;
const everySec = 15;
const ringsForSec = 600;

const readyPartials = [1, 0.9, 0.8, 0.7, 0.6];

/**
 * The ready sound, once: as many pulses as the place has, because a count outlives noise and bad
 * ears. 660 Hz and four harmonics within 15 dB, after IEC 60601-1-8 (from memory).
 */
export function readyTone(place: number, level = fullLevel): Tone {
  return {
    fundamentalHz: 660,
    partials: readyPartials,
    rampSec: 0.025,
    pulses: Array.from({ length: place }, (_, index) => ({
      atSec: index * (pulseSec + pauseSec),
      lengthSec: pulseSec,
      level,
    })),
  };
}

/** The press is stored: one short tick. */
export const loggedTone: Tone = {
  fundamentalHz: 1_100,
  partials: [1, 0.5],
  rampSec: 0.02,
  pulses: [{ atSec: 0, lengthSec: 0.05, level: 0.5 }],
};

/** The press was refused: a low double. Its harmonics carry it over a small speaker. */
export const wrongWayTone: Tone = {
  fundamentalHz: 260,
  partials: [1, 0.9, 0.8, 0.6],
  rampSec: 0.02,
  pulses: [0, 0.17].map((atSec) => ({ atSec, lengthSec: 0.1, level: 0.7 })),
};

/** How long a sound is, with its last pulse. */
export function toneSec({ pulses }: Tone): number {
  return Math.max(0, ...pulses.map(({ atSec, lengthSec }) => atSec + lengthSec));
}

/**
 * Every ring to come: at zero and quieter, after 3 s, then every 15 s for ten minutes. Two places
 * never sound together: the later one waits its turn, and nothing sounds before `freeAtSec`.
 */
export function ringsOf(dues: readonly Due[], freeAtSec = 0): Ring[] {
  const wanted = dues
    .flatMap(({ place, inMs }) =>
      ringTimesSec.map((afterSec, index) => ({
        place,
        atSec: inMs / 1_000 + afterSec,
        level: index === 0 ? firstLevel : fullLevel,
      })),
    )
    .filter(({ atSec }) => atSec >= 0)
    .sort((a, b) => a.atSec - b.atSec || a.place - b.place);
  let freeSec = freeAtSec;
  return wanted.map(({ place, atSec, level }) => {
    const fromSec = Math.max(atSec, freeSec);
    const untilSec = fromSec + toneSec(readyTone(place));
    freeSec = untilSec + apartSec;
    return { place, fromSec, untilSec, level };
  });
}

/** All these rings of one place as one sound. */
export function alarmTone(place: number, rings: readonly Ring[]): Tone {
  const pulses = rings.flatMap(({ fromSec, level }) =>
    readyTone(place, level).pulses.map((pulse) => ({ ...pulse, atSec: pulse.atSec + fromSec })),
  );
  return { ...readyTone(place), pulses };
}

const ringTimesSec = [
  0,
  ...Array.from(
    { length: Math.ceil((ringsForSec - secondRingSec) / everySec) + 1 },
    (_, index) => secondRingSec + index * everySec,
  ),
];
