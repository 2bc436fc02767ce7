import { wholeFrom } from '#calc/counts.ts';
import { finite, notNegative, positive } from '#calc/range.ts';

/** Something bought (a quantity above 0, for whole cents) or used (below 0). */
export type Move = { qty: number; cents: number } | { qty: number; cents?: never };

/** What is on the shelf after some moves. */
export interface Ledger {
  /** Whole cents that each use took, in order. */
  used: number[];
  /** How much the first impossible use lacked; the ledger stops before it. 0 when all went well. */
  short: number;
  qty: number;
  cents: number;
}

/** A lot on the shelf. */
interface Lot {
  qty: number;
  cents: number;
}

/** Quantities this near to each other differ by the rounding of their sums alone. */
const ROUNDING = 1e-9;

/**
 * The shelf at moving average cost, right for liquids that are mixed: a use takes its share of the
 * value to the nearest cent, the last one all that is left, so that no cent is lost. Never below
 * zero. RangeError for a purchase without whole cents or a move of nothing.
 */
export function averageLedger(moves: readonly Move[]): Ledger {
  return ledger(moves, (lots, bought) => {
    const [shelf] = lots;
    if (shelf === undefined) lots.push(bought);
    else {
      shelf.qty += bought.qty;
      shelf.cents += bought.cents;
    }
  });
}

/** The shelf at first in, first out: uses take the oldest lot first. RangeError as above. */
export function fifoLedger(moves: readonly Move[]): Ledger {
  return ledger(moves, (lots, bought) => lots.push(bought));
}

/**
 * One average over a whole period, whatever the order: what a unit cost, what all uses took and what
 * is left. RangeError when nothing was bought or more was used than bought.
 */
export function periodAverage(moves: readonly Move[]): {
  averageCents: number;
  usedCents: number;
  qty: number;
  cents: number;
} {
  const bought = { qty: 0, cents: 0 };
  let used = 0;
  for (const move of moves) {
    const lot = purchase(move);
    if (lot === null) used -= move.qty;
    else {
      bought.qty += lot.qty;
      bought.cents += lot.cents;
    }
  }
  if (bought.qty === 0) throw new RangeError('Nothing was bought, so there is no average.');
  if (used > finite('qty', bought.qty) * (1 + ROUNDING)) {
    throw new RangeError(`${used} was used, but only ${bought.qty} was bought.`);
  }
  const averageCents = bought.cents / bought.qty;
  const usedCents = takenFrom(bought, used);
  return { averageCents, usedCents, qty: bought.qty, cents: bought.cents };
}

/**
 * Days until more must be ordered so that the reserve is not touched; below 0 when that day has
 * passed. RangeError for negative figures or no use at all.
 */
export function reorderDay(shelf: {
  qty: number;
  usePerDay: number;
  leadDays: number;
  reserve?: number;
}): number {
  const above = notNegative('qty', shelf.qty) - notNegative('reserve', shelf.reserve ?? 0);
  const days = above / positive('usePerDay', shelf.usePerDay);
  return finite('days', days - notNegative('leadDays', shelf.leadDays));
}

function ledger(moves: readonly Move[], put: (lots: Lot[], bought: Lot) => void): Ledger {
  const lots: Lot[] = [];
  const used: number[] = [];
  for (const move of moves) {
    const bought = purchase(move);
    if (bought !== null) {
      put(lots, bought);
      continue;
    }
    const { qty } = shelfOf(lots);
    const wanted = -move.qty;
    if (wanted > qty + ROUNDING * Math.max(qty, wanted)) {
      return { used, short: wanted - qty, ...shelfOf(lots) };
    }
    used.push(takenFromLots(lots, wanted));
  }
  return { used, short: 0, ...shelfOf(lots) };
}

function takenFromLots(lots: Lot[], wanted: number): number {
  let left = wanted;
  let cents = 0;
  for (const lot of lots) {
    const part = Math.min(left, lot.qty);
    cents += takenFrom(lot, part);
    left -= part;
  }
  lots.splice(0, lots.length, ...lots.filter((lot) => lot.qty > 0));
  return cents;
}

/** Cents of a quantity taken off a lot; what is left of the lot keeps the rest. */
function takenFrom(lot: Lot, qty: number): number {
  const isAll = lot.qty - qty <= ROUNDING * lot.qty;
  const cents = isAll ? lot.cents : Math.round(finite('qty', lot.cents * qty) / lot.qty);
  lot.cents -= cents;
  lot.qty = isAll ? 0 : lot.qty - qty;
  return cents;
}

function shelfOf(lots: readonly Lot[]): Lot {
  const shelf = { qty: 0, cents: 0 };
  for (const lot of lots) {
    shelf.qty += lot.qty;
    shelf.cents += lot.cents;
  }
  return shelf;
}

/** The lot that a move brings, or null for a use. */
function purchase(move: Move): Lot | null {
  const qty = finite('qty', move.qty);
  if (qty === 0) throw new RangeError('A move of nothing is no move.');
  if (qty < 0) return null;
  return { qty, cents: wholeFrom(0, 'cents', move.cents ?? Number.NaN) };
}
