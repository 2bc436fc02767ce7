import { averageLedger, type Move } from '#calc/stock.ts';
import type { StockLine } from '#calc/stock-level.ts';
import type { Material } from '#model/material.ts';
import type { Instant } from '#model/schemas.ts';

/** What a unit of stock cost from an instant on, until the next one. */
export interface PriceStep {
  at: Instant;
  /** Cents for one mL, g or piece, at moving weighted average. */
  unitCents: number;
}

/** What a material cost over time, and what is on the shelf is worth now. */
export interface StockPrice {
  steps: PriceStep[];
  /** Whole cents; 0 when nothing was ever paid. */
  worthCents: number;
}

type DatedMove = Move & { at: Instant };
type Packaged = Pick<Material, 'package'>;

/** Quantities this near to each other differ by the rounding of their sums alone, as in the ledger. */
const rounding = 1e-9;

/**
 * The moving weighted average over a journal. Each use takes its share of what was paid, the last
 * one all that is left; what a count finds too little is used up, what it finds too much is taken in
 * at the price of that day. More than there is was never paid for: it costs nothing here.
 */
export function stockPrice(lines: readonly StockLine[], material: Packaged): StockPrice {
  const moves: DatedMove[] = [];
  let qty = 0;
  for (const { at, cause, change, level } of lines) {
    const says = 'movement' in cause ? cause.movement.says : null;
    const move =
      says?.kind === 'bought'
        ? { at, qty: says.qty, cents: says.cents }
        : otherMove(at, says?.kind === 'counted' ? level - qty : change, qty, () =>
            lastUnitCents(moves, material),
          );
    if (!move) continue;
    moves.push(move);
    qty = qtyAfter(qty, move);
  }
  return { steps: stepsOf(moves), worthCents: averageLedger(moves).cents };
}

/** What a unit cost at an instant; before the first purchase as its package says; null: not told. */
export function unitCentsAt(price: StockPrice, material: Packaged, at: Instant): number | null {
  const step = price.steps.findLast((one) => one.at <= at);
  return step ? step.unitCents : packageUnitCents(material);
}

/** Stock that comes or goes without being paid for; null: nothing that money could follow. */
function otherMove(
  at: Instant,
  by: number,
  qty: number,
  unitCents: () => number | null,
): DatedMove | null {
  if (by < 0) return qty > 0 ? { at, qty: -Math.min(qty, -by) } : null;
  const cents = by > 0 ? unitCents() : null;
  return cents === null ? null : { at, qty: by, cents: Math.round(by * cents) };
}

function lastUnitCents(moves: readonly DatedMove[], material: Packaged): number | null {
  return stepsOf(moves).at(-1)?.unitCents ?? packageUnitCents(material);
}

function packageUnitCents({ package: own }: Packaged): number | null {
  return own && own.cents / own.qty;
}

/** The average after each purchase: what a use leaves differs from it by the rounding of cents. */
function stepsOf(moves: readonly DatedMove[]): PriceStep[] {
  const { used } = averageLedger(moves);
  const steps: PriceStep[] = [];
  let [qty, cents, uses] = [0, 0, 0];
  for (const move of moves) {
    qty = qtyAfter(qty, move);
    if (move.qty < 0) {
      cents -= used[uses] ?? 0;
      uses += 1;
      continue;
    }
    cents += move.cents ?? 0;
    steps.push({ at: move.at, unitCents: cents / qty });
  }
  return steps;
}

function qtyAfter(qty: number, move: Move): number {
  const after = qty + move.qty;
  return after <= rounding * qty ? 0 : after;
}
