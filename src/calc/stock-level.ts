import { type Measured, stockAmount } from '#calc/stock-measure.ts';
import type { SessionUse } from '#calc/used.ts';
import type { SessionId } from '#model/entry.ts';
import type { MaterialId } from '#model/material.ts';
import type { Movement, MovementId } from '#model/movement.ts';
import type { Instant } from '#model/schemas.ts';

/** One line of a material's journal, with the level that it left. */
export interface StockLine {
  at: Instant;
  /** The movement, or the session that took some. */
  cause: { movement: Movement } | { sessionId: SessionId };
  /** In the material's unit, below 0: it went. What a count found too much or too little is here too. */
  change: number;
  /** After this line; below 0 when more went than was ever written down as there. */
  level: number;
}

/** A material's stock, in its own unit. */
export interface Stock {
  /** What is there; never below 0. */
  level: number;
  /** How much more went than was there; 0 when the journal is whole. */
  missing: number;
  /** When it was counted last, or looked at and still right; null: never. */
  seenAt: Instant | null;
  /** Every standing line, oldest first. */
  lines: StockLine[];
}

/**
 * The stock of a material: the sum of what moved since it was last counted. The order in which
 * movements and uses arrive does not matter and doubled movements count once; one that was taken
 * back is as if never written.
 */
export function stockOf(
  material: Measured & { id: MaterialId },
  movements: readonly Movement[],
  uses: readonly SessionUse[],
): Stock {
  const lines: StockLine[] = [];
  let level = 0;
  let seenAt: Instant | null = null;
  for (const event of eventsOf(material, movements, uses)) {
    const before = level;
    level = event.level ?? before + event.change;
    if (event.isSight) seenAt = event.at;
    lines.push({ at: event.at, cause: event.cause, change: level - before, level });
  }
  return { level: Math.max(0, level), missing: Math.max(0, -level), seenAt, lines };
}

/** True once somebody told what is there: what went of a jar before that says nothing of its level. */
export function isLevelTold({ lines }: Pick<Stock, 'lines'>): boolean {
  return lines.some(({ cause }) => 'movement' in cause);
}

/** The journal as a page shows it: what one session took in a row is one line. */
export function joinedLines(lines: readonly StockLine[]): StockLine[] {
  const joined: StockLine[] = [];
  for (const line of lines) {
    const last = joined.at(-1);
    if (last && isSameSession(last, line)) {
      joined[joined.length - 1] = { ...line, at: last.at, change: last.change + line.change };
    } else joined.push(line);
  }
  return joined;
}

/** The movements that stand: each once, none that was taken back, none that takes back. */
export function standingMovements(movements: readonly Movement[]): Movement[] {
  const takers = takersOf(movements);
  return inOrderOf(movements).filter(
    ({ id, says }) => says.kind !== 'taken-back' && !takers.has(id),
  );
}

/**
 * For each movement that is taken back, the one that does it: taking that one back brings it again.
 * A taking back is always written after its target, so the newest is settled first.
 */
export function takersOf(movements: readonly Movement[]): Map<MovementId, Movement> {
  const takers = new Map<MovementId, Movement>();
  for (const movement of inOrderOf(movements).toReversed()) {
    const { id, says } = movement;
    if (says.kind === 'taken-back' && !takers.has(id)) takers.set(says.target, movement);
  }
  return takers;
}

function inOrderOf(movements: readonly Movement[]): Movement[] {
  const byId = new Map(movements.map((movement) => [movement.id, movement]));
  return [...byId.values()].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
}

/** Something that can change a level, before it is known what it leaves. */
interface StockEvent {
  at: Instant;
  /** Settles what comes first at one instant. */
  order: string;
  cause: StockLine['cause'];
  change: number;
  /** Where the level starts again; null: it goes on. */
  level: number | null;
  isSight: boolean;
}

function eventsOf(
  material: Measured & { id: MaterialId },
  movements: readonly Movement[],
  uses: readonly SessionUse[],
): StockEvent[] {
  const moved = standingMovements(movements)
    .filter(({ materialId }) => materialId === material.id)
    .map(eventOfMovement);
  const used = uses
    .filter(({ materialId }) => materialId === material.id)
    .map((use): StockEvent => {
      const { at, sessionId, amount, unit } = use;
      const order = `1 ${sessionId} ${unit} ${amount}`;
      const change = -stockAmount(use, material);
      return { at, order, cause: { sessionId }, change, level: null, isSight: false };
    });
  return [...moved, ...used].sort((a, b) => a.at - b.at || (a.order < b.order ? -1 : 1));
}

function eventOfMovement(movement: Movement): StockEvent {
  const { says, at } = movement;
  const event = { at, cause: { movement }, change: 0, level: null, isSight: false };
  const order = keyOf(movement);
  switch (says.kind) {
    case 'bought':
      return { ...event, order: `0 ${order}`, change: says.qty };
    case 'lost':
      return { ...event, order: `2 ${order}`, change: -says.qty };
    case 'counted':
      return { ...event, order: `3 ${order}`, level: says.level, isSight: true };
    default:
      return { ...event, order: `4 ${order}`, isSight: says.kind === 'checked' };
  }
}

function isSameSession(a: StockLine, b: StockLine): boolean {
  return (
    'sessionId' in a.cause && 'sessionId' in b.cause && a.cause.sessionId === b.cause.sessionId
  );
}

function keyOf({ stamp, id }: Movement): string {
  return `${stamp} ${id}`;
}
