import { type Columns, goodCode, resultCodes, warmFlag } from '#calc/columns.ts';
import type { SessionId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { seeded } from '../hands/seeded.ts';

const shotsPerSession = 50;
const cavities = 10;
const dayMs = 86_400_000;
const first = Date.UTC(2021, 10, 24, 18);

/** A digest of one made-up session of 50 shots of 10 cavities on one of seven moulds. */
function madeSession(number: number, everyMs: number): Columns {
  const chance = seeded(number);
  const startedAt = first + number * everyMs;
  const short = resultCodes.indexOf('short');
  const mould = number % 7;
  return {
    sessionId: `session-${String(number).padStart(8, '0')}` as SessionId,
    startedAt,
    endedAt: startedAt + 7_200_000,
    zone: 'Europe/Berlin',
    moulds: [{ mouldId: `mould-${mould}` as MouldId, name: `Mould ${mould}`, cavities }],
    colourways: [{ colourwayId: null, name: '', swatches: [] }],
    injectorIds: [null],
    mould: new Uint8Array(shotsPerSession),
    colourway: new Uint8Array(shotsPerSession),
    injector: new Uint8Array(shotsPerSession),
    heat: new Uint8Array(shotsPerSession).fill(1),
    filledSec: Float64Array.from({ length: shotsPerSession }, (_, shot) => shot * 140),
    openSec: new Float32Array(shotsPerSession).fill(180),
    tempC: new Float32Array(shotsPerSession).fill(45),
    cold: new Uint8Array(shotsPerSession).fill(warmFlag),
    firstCell: Uint32Array.from({ length: shotsPerSession + 1 }, (_, shot) => shot * cavities),
    cells: Uint8Array.from({ length: shotsPerSession * cavities }, () =>
      chance() < 0.05 ? short : goodCode,
    ),
  };
}

/** Puts so many shots into a logbook as ended sessions over five years; digests only. */
export async function addShots(book: Book, shots: number): Promise<Columns[]> {
  const count = Math.ceil(shots / shotsPerSession);
  const sessions = Array.from({ length: count }, (_, number) =>
    madeSession(number, (5 * 365 * dayMs) / count),
  );
  for (let from = 0; from < count; from += 500) {
    const tx = book.db.transaction('columns', 'readwrite');
    await Promise.all(sessions.slice(from, from + 500).map((session) => tx.store.put(session)));
    await tx.done;
  }
  return sessions;
}

/** The same shots as one record each, the naive shape they are measured against. */
export function rowsOf(sessions: readonly Columns[]) {
  return sessions.flatMap((session) =>
    Array.from(session.filledSec, (sec, shot) => ({
      id: `${session.sessionId}-${shot}`,
      at: session.startedAt + sec * 1_000,
      mouldId: session.moulds[0]?.mouldId ?? '',
      results: Array.from(
        session.cells.subarray(session.firstCell[shot], session.firstCell[shot + 1]),
        (code) => resultCodes[code],
      ),
    })),
  );
}
