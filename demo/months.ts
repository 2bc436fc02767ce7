import type { Instant } from '#model/schemas.ts';
import { type Chance, seeded } from '../tests/hands/seeded.ts';
import { type ColourKey, colourways, type InjectorKey, type MouldKey } from './shop.ts';
import { truths } from './truths.ts';

/** Something that is done beside the pouring, before a round of the evening. */
export type Happening = { beforeRound: number } & (
  | { does: 'note'; text: string }
  | { does: 'read-shop'; ambientC: number }
  | { does: 'read-moulds' }
  | { does: 'read-pots' }
  | { does: 'rest'; min: number }
  | { does: 'add-mould'; mould: MouldKey }
  | { does: 'close-cavity'; mould: MouldKey; cavity: number; isClosed: boolean }
  | { does: 'choose-set-time'; mould: MouldKey; setSec: number }
);

/** One evening of the four months, before it is poured. */
export interface EveningPlan {
  startAt: Instant;
  lineUp: readonly MouldKey[];
  injector: InjectorKey;
  /** In the order of mixing, each for about as many rounds. */
  colourways: readonly ColourKey[];
  rounds: number;
  /** The choked cavity breathes by now. */
  isVentOpen: boolean;
  happenings: readonly Happening[];
  chance: Chance;
}

/** The day of the first evening, and how many days later the last one is: four months. */
const firstDayAt = Date.UTC(2026, 4, 31);
const lastDay = 118;
const evenings = 40;
const dayMs = 86_400_000;
const minMs = 60_000;

/** Poured five by five in changing order; each with one injector and then with the other. */
const lineUps: readonly (readonly MouldKey[])[] = [
  ['grub', 'shad'],
  ['leaf', 'reed', 'toad'],
  ['grub', 'craw', 'fin'],
  ['shad', 'leaf'],
  ['grub', 'toad', 'reed'],
];

/** The plan of every evening, oldest first. Clock times are those of the shop's wall. */
export function plannedMonths(seed: number): EveningPlan[] {
  const chance = seeded(seed);
  const deal = dealer(chance);
  const bare = Array.from({ length: evenings }, (_, index) => {
    const turn = index % lineUps.length;
    return { day: dayOf(index, chance), turn, cycle: Math.floor(index / lineUps.length) };
  });
  let order: number[] = [];
  const plans = bare.map(({ day, turn, cycle }, index): EveningPlan & { week: number } => {
    if (turn === 0) order = shuffled(chance, [...lineUps.keys()]);
    const which = order[turn] ?? 0;
    const rounds = 11 + Math.floor(chance() * 2);
    return {
      startAt: firstDayAt + day * dayMs + clockMin(index, chance) * minMs,
      week: 1 + Math.floor(day / 7),
      lineUp: lineUps[which] ?? [],
      injector: (which + cycle) % 2 === 0 ? 'blue' : 'green',
      colourways: deal(chance() < 0.5 ? 2 : 3),
      rounds,
      isVentOpen: false,
      happenings: [],
      // A source of its own for every evening: a change to one leaves the others as they are.
      chance: seeded(seed * 1_000 + index),
    };
  });
  return plans.map((plan, index) => withHappenings(plan, index, plans));
}

function withHappenings(
  { week, ...plan }: EveningPlan & { week: number },
  index: number,
  all: readonly (EveningPlan & { week: number })[],
): EveningPlan {
  const first = (mould: MouldKey, from: number) =>
    all.findIndex((other) => other.lineUp.includes(mould) && other.week >= from);
  const vent = first(truths.vent.mould, truths.vent.openedInWeek);
  const short = all.findIndex(({ lineUp, week: at }) => lineUp.length === 2 && at >= 6);
  const once: readonly (readonly [evening: number, Happening])[] = [
    [vent, { beforeRound: 1, does: 'note', text: truths.vent.note }],
    [first('reed', 3), { beforeRound: 4, does: 'choose-set-time', mould: 'reed', setSec: 165 }],
    [first('leaf', 5), { beforeRound: 5, ...leafEleven, isClosed: true }],
    [
      first('leaf', 5),
      { beforeRound: 5, does: 'note', text: 'Leaf tail 11 is plugged, closed off' },
    ],
    [first('leaf', 7), { beforeRound: 1, ...leafEleven, isClosed: false }],
    [short, { beforeRound: 5, does: 'add-mould', mould: 'fin' }],
    [10, { beforeRound: 7, does: 'rest', min: 18 }],
    [10, { beforeRound: 7, does: 'note', text: 'Neighbour came by, moulds stood a while' }],
    [26, { beforeRound: 6, does: 'rest', min: 14 }],
  ];
  const own = once.flatMap(([evening, happening]) => (evening === index ? [happening] : []));
  const happenings = [...own, ...usualHappenings(index, plan.chance)];
  return { ...plan, isVentOpen: index >= vent, happenings };
}

const leafEleven = { does: 'close-cavity', mould: 'leaf', cavity: 11 } as const;

const notes = [
  'Door open, light wind',
  'New bag of release, thin coat',
  'Pot stirred before every round',
  'Hinge of the clamp is stiff',
  'Sprues went back into the next pot',
  'Warm evening, fan on high',
];

/** What belongs to many evenings: the thermometer and a word now and then. */
function usualHappenings(index: number, chance: Chance): Happening[] {
  const found: Happening[] = [];
  if (index % 4 === 0) {
    const ambientC = 18 + Math.round(chance() * 12) / 2;
    found.push({ beforeRound: 1, does: 'read-shop', ambientC });
  }
  if (index % 6 === 1) found.push({ beforeRound: 3, does: 'read-pots' });
  if (index % 8 === 2) {
    for (const beforeRound of [4, 9]) found.push({ beforeRound, does: 'read-moulds' });
  }
  const text = index % 6 === 4 ? notes[Math.floor(index / 6) % notes.length] : undefined;
  if (text) found.push({ beforeRound: 2, does: 'note', text });
  return found;
}

/** About every third day, not like clockwork; the first and the last are fixed. */
function dayOf(index: number, chance: Chance): number {
  const even = Math.round((index * lastDay) / (evenings - 1));
  const sway = Math.floor(chance() * 3) - 1;
  return index === 0 || index === evenings - 1 ? even : even + sway;
}

/** Minutes after midnight: after supper, every fifth time in the morning; the last in the evening. */
function clockMin(index: number, chance: Chance): number {
  const isMorning = index % 5 === 2;
  return Math.round(isMorning ? 570 + chance() * 60 : 1_120 + chance() * 75);
}

/** Hands out colourways, none twice before all were had, and none twice in an evening. */
function dealer(chance: Chance): (count: number) => ColourKey[] {
  let deck: ColourKey[] = [];
  return (count) => {
    const hand: ColourKey[] = [];
    while (hand.length < count) {
      if (deck.length === 0) deck = shuffled(chance, Object.keys(colourways) as ColourKey[]);
      const next = deck.findIndex((colour) => !hand.includes(colour));
      hand.push(...deck.splice(Math.max(0, next), 1));
    }
    return hand;
  };
}

/** The values in an order by chance (Fisher and Yates). */
function shuffled<T>(chance: Chance, values: readonly T[]): T[] {
  const rest = [...values];
  const drawn: T[] = [];
  while (rest.length > 0) drawn.push(...rest.splice(Math.floor(chance() * rest.length), 1));
  return drawn;
}
