import { type Result, type Said, type SessionId, ShotId } from '#model/entry.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import { type Book, freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { addHead, type FactsOf } from '#store/heads.ts';
import { endSession, entriesOf } from '#store/sessions.ts';
import { plainMould, startPouring } from '#store/start.ts';

const minMs = 60_000;

/** 24 Nov 2026, 19:02 in Berlin. */
export const seven = Date.UTC(2026, 10, 24, 18, 2);
/** The morning after, 9:00 in Berlin. */
export const morning = Date.UTC(2026, 10, 25, 8);

/** One letter per cavity. */
const letters: Record<string, Result> = {
  g: 'good',
  s: 'short',
  d: 'dent',
  b: 'bubble',
  t: 'tear',
  c: 'closed',
  n: 'not-checked',
};

/** `ggsg` as results. */
export function results(text: string): Result[] {
  return [...text].map((letter) => {
    const result = letters[letter];
    if (!result) throw new Error(`No result is written ${letter}.`);
    return result;
  });
}

/** Adds a mould of the shop. */
export async function aMould(
  book: Book,
  name: string,
  shape: { rows: number; cols: number } = { rows: 2, cols: 2 },
  changes: Partial<FactsOf<'moulds'>> = {},
): Promise<Mould> {
  const facts = { ...plainMould(shape), ...changes, name };
  return await addHead(book, 'moulds', facts, seven - 86_400_000);
}

/** Adds a colourway of one swatch, or of two for a laminate. */
export async function aColourway(
  book: Book,
  name: string,
  ...swatches: string[]
): Promise<Colourway> {
  const sides = swatches.map((swatch, index) => ({
    name: swatches.length > 1 ? `${name} ${'AB'[index]}` : name,
    swatch,
  }));
  return await addHead(book, 'colourways', { name, sides }, seven - 86_400_000);
}

/** Two injectors, of 4 and of 2 fl oz; the first of them. */
export async function twoInjectors(book: Book): Promise<Injector> {
  const facts = { boreMm: null, isTwin: false };
  const long = { ...facts, name: 'Long one', capacityMl: 118 };
  const injector = await addHead(book, 'injectors', long, seven);
  await addHead(book, 'injectors', { ...facts, name: 'Short one', capacityMl: 59 }, seven);
  return injector;
}

/** One fill of one mould: results as letters, null when it was never logged. */
export interface Fill {
  mould: Mould;
  gave: string | null;
  /** Minutes from the start; leave out for five minutes after the fill before. */
  atMin?: number;
}

export interface Evening {
  fills: readonly Fill[];
  colourway?: Colourway;
  at?: number;
  zone?: string;
  /** Said after the fills, each at its minute. */
  also?: readonly { said: Said; atMin: number }[];
  /** Minutes from the start to Finish; null: the session still runs. */
  endMin?: number | null;
}

/** Pours an evening through the store, as the table would: each mould opened three minutes after its fill. */
export async function pourEvening(book: Book, evening: Evening): Promise<SessionId> {
  const { fills, colourway, at = seven, zone = 'Europe/Berlin', also = [] } = evening;
  const mouldIds = [...new Set(fills.map(({ mould }) => mould.id))];
  const beginning = { mouldIds, injectorId: null, colourwayId: colourway?.id ?? null, zone };
  const sessionId = await startPouring(book, beginning, at);
  const potIds = (await entriesOf(book, sessionId)).flatMap(({ said }) =>
    said.kind === 'pot-mixed' ? said.pots.map(({ potId }) => potId) : [],
  );
  let min = 0;
  for (const { mould, gave, atMin } of fills) {
    min = atMin ?? min + 5;
    const filledAt = at + min * minMs;
    const shotId = ShotId.parse(freshId(filledAt));
    const shot = { shotId, mouldId: mould.id, volumeMl: 42, closed: mould.closed, setSec: 180 };
    await logEntry(
      book,
      sessionId,
      { kind: 'filled', shots: [shot], potIds, injectorId: null },
      filledAt,
    );
    if (gave === null) continue;
    const shots = [{ shotId, results: results(gave) }];
    await logEntry(book, sessionId, { kind: 'opened', shots }, filledAt + 3 * minMs);
  }
  for (const { said, atMin } of also) await logEntry(book, sessionId, said, at + atMin * minMs);
  const { endMin = Math.max(min + 4, ...also.map(({ atMin }) => atMin)) } = evening;
  if (endMin !== null) await endSession(book, sessionId, at + endMin * minMs);
  return sessionId;
}
