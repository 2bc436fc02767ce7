import type { Columns } from '#calc/columns.ts';
import { frozenInjector, frozenMould } from '#calc/line-up.ts';
import { withBatches, withMix } from '#calc/pot-mix.ts';
import type { PotId, Said, SaidOf, SessionId } from '#model/entry.ts';
import type { Colourway, ColourwayId, Injector, InjectorId } from '#model/gear.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { batchesOf } from '#store/batches.ts';
import { type Book, freshId } from '#store/book.ts';
import { addHead, type FactsOf, headOf, headsOf } from '#store/heads.ts';
import { allColumns, newestColumns } from '#store/history.ts';
import { newestMixes } from '#store/newest-mixes.ts';
import { beginSession } from '#store/running.ts';
import { pourerOf, settingsOf } from '#store/settings.ts';

/** What a session is to begin with. */
export interface Beginning {
  mouldIds: readonly MouldId[];
  injectorId: InjectorId | null;
  /** Null: a pot without a name yet. */
  colourwayId: ColourwayId | null;
  /** The colours of the whole evening in their order; absent: the one above. */
  planned?: readonly ColourwayId[];
  zone: string;
  /** What the first pot holds and what it is poured at; absent: as the shop has it. */
  potMl?: number;
  pourC?: number;
  /** Who pours; null: to be named at the table; absent: as the shop has it. */
  pourer?: string | null;
  /** Set times that are not those of the moulds. */
  setTimes?: readonly SaidOf<'set-time-chosen'>[];
  /** No pot stands there yet: it is mixed at the table. */
  hasNoPot?: boolean;
}

/** Begins a session on these moulds and one fresh mix, if one is wanted. Resolves once it is on disk. */
export async function startPouring(
  book: Book,
  beginning: Beginning,
  at: Instant,
): Promise<SessionId> {
  const { mouldIds, injectorId, colourwayId, planned = [], zone, setTimes = [] } = beginning;
  const settings = await settingsOf(book);
  const { ambientC } = settings;
  const { pourC = settings.pourC, potMl = settings.potMl, hasNoPot = false } = beginning;
  const { pourer = pourerOf(settings) } = beginning;
  const colourway = colourwayId ? await headOf(book, 'colourways', colourwayId) : undefined;
  const mix = colourway ? (await newestMixes(book)).get(colourway.id) : undefined;
  const mixed = mixOf(colourway ?? null, potMl, 1, at);
  const opening: Said[] = [
    { kind: 'session-begun', zone, ambientC, pourC },
    await lineUpOf(book, mouldIds, injectorId),
  ];
  if (!hasNoPot) {
    const batches = await batchesOf(book, { at, zone }, 2);
    opening.push(withBatches(mix ? withMix(mixed, mix) : mixed, batches));
  }
  opening.push(...setTimes);
  if (planned.length > 1) opening.push({ kind: 'colours-planned', colourwayIds: [...planned] });
  if (pourer !== null) opening.push({ kind: 'pourer-named', name: pourer });
  return await beginSession(book, opening, at);
}

/** What is said when these moulds, in this order, are put on the table. */
export async function lineUpOf(
  book: Book,
  mouldIds: readonly MouldId[],
  injectorId: InjectorId | null,
): Promise<SaidOf<'lined-up'>> {
  const history = await allColumns(book);
  const coldLineOf = await coldLineSum();
  const moulds = await Promise.all(mouldIds.map((id) => headOf(book, 'moulds', id)));
  const shop = await headsOf(book, 'moulds');
  const injector = injectorId ? await headOf(book, 'injectors', injectorId) : undefined;
  return {
    kind: 'lined-up',
    moulds: moulds
      .filter((mould) => mould !== undefined)
      .map((mould) => {
        const frozen = frozenMould(mould, history, shop);
        // What never chilled the plastic keeps no line; the others have it from their own shots.
        if (frozen.warmAboveK === null || !coldLineOf) return frozen;
        const { aboveK, from } = coldLineOf(history, mould.id);
        return { ...frozen, warmAboveK: aboveK, warmFrom: from };
      }),
    injector: injector ? frozenInjector(injector) : null,
  };
}

/** What is said when an injector is taken for the rounds to come; null: none is. */
export function takenInjector(injector: Injector | null): SaidOf<'injector-taken'> {
  return { kind: 'injector-taken', injector: injector && frozenInjector(injector) };
}

/** The sum that learns a cold line, which comes after the first paint; null: this device has it not. */
async function coldLineSum() {
  try {
    return (await import('#calc/cold-line.ts')).coldLineOf;
  } catch {
    // A usual line is better than no mould on the table.
    return null;
  }
}

/**
 * What is said when a colourway is mixed fresh: one pot, or A and B for a laminate, of `potMl`
 * each. No colourway: `Pot 1`, `Pot 2`, named later or never.
 */
export function mixOf(
  colourway: Colourway | null,
  potMl: number,
  potNumber: number,
  at: Instant,
): SaidOf<'pot-mixed'> {
  const fresh = { volumeMl: potMl, meanHeats: 0, maxHeats: 0 };
  const sides = colourway?.sides ?? [{ name: `Pot ${potNumber}`, swatch: null }];
  return {
    kind: 'pot-mixed',
    colourwayId: colourway?.id ?? null,
    name: colourway?.name ?? `Pot ${potNumber}`,
    isAlone: true,
    pots: sides.map(({ name, swatch }, slot) => ({
      potId: freshId<PotId>(at),
      slot,
      name,
      swatch,
      ...fresh,
    })),
  };
}

/** What a session was poured with, as far as it still exists: what is carried into the next one. */
export interface PouredWith {
  moulds: Mould[];
  colourway: Colourway | null;
  injectorId: InjectorId | null;
}

/** What the last session was poured with; null: there was none, or none of its moulds is left. */
export async function lastTime(book: Book): Promise<PouredWith | null> {
  const last = await newestColumns(book);
  return last ? await pouredWith(book, last) : null;
}

async function pouredWith(book: Book, last: Columns): Promise<PouredWith | null> {
  const heads = await headsOf(book, 'moulds');
  const moulds = last.moulds
    .map(({ mouldId }) => heads.find((mould) => mould.id === mouldId))
    .filter((mould) => mould !== undefined)
    .slice(0, 3);
  if (moulds.length === 0) return null;
  const lastShot = last.colourway.length - 1;
  const colourwayId = last.colourways[last.colourway[lastShot] ?? -1]?.colourwayId;
  const colourway = colourwayId ? await headOf(book, 'colourways', colourwayId) : undefined;
  const injectorId = last.injectorIds[last.injector[lastShot] ?? -1] ?? null;
  return { moulds, colourway: colourway?.deletedAt === null ? colourway : null, injectorId };
}

/** Adds a mould from its shape alone: the first minutes ask for nothing else. */
export async function addPlainMould(
  book: Book,
  shape: { rows: number; cols: number },
  at: Instant,
): Promise<Mould> {
  const number = (await book.db.count('moulds')) + 1;
  return await addHead(book, 'moulds', { ...plainMould(shape), name: `Mould ${number}` }, at);
}

/** The facts of a mould of which only the shape is known. */
export function plainMould({ rows, cols }: { rows: number; cols: number }): FactsOf<'moulds'> {
  return {
    name: '',
    layout: { kind: 'grid', rows, cols, run: 'down', from: 'top-left' },
    opens: 'same',
    material: 'aluminium',
    massG: null,
    partMl: null,
    sprueMl: null,
    section: null,
    closed: [],
    setSec: null,
    hasNoClock: false,
    heat: null,
  };
}
