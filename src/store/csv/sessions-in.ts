import { cavityCount } from '#calc/cavity-layout.ts';
import { resultCodes } from '#calc/columns.ts';
import { instantOf } from '#calc/days.ts';
import { frozenMould } from '#calc/line-up.ts';
import { shotMl } from '#calc/mould-size.ts';
import type { Entry, PotId, Result, SessionId, ShotId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import { freshId, stampOf } from '#store/book.ts';
import { reasonOf } from '#store/copy/fit.ts';
import { numberFrom } from '#store/csv/heads-in.ts';
import { type InRow, inTime, type Reading, type TakenIn } from '#store/csv/row.ts';
import { openDoor } from '#store/door.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { settingsOf } from '#store/settings.ts';

const mostShots = 100;
const mostMoulds = 3;
const apartMs = 5 * 60_000;
/** A table without times: sessions begin in the evening, common practice and no source. */
const usualStart = '18:00';

/** One line of a table of past shots, understood. */
interface PastShots {
  line: number;
  day: string;
  at: number;
  mould: Mould;
  colour: string;
  shots: number;
  /** Null: the line does not tell, so no cavity was checked. */
  results: Result[] | null;
  note: string;
}

/**
 * Past sessions of lines of shots: one session a day, a further one where a fourth mould comes. What
 * the lines do not tell stays unknown: no clock ran, no cavity was checked, no shot was cold.
 */
export async function sessionsFrom(rows: readonly InRow[], reading: Reading): Promise<TakenIn> {
  const moulds = await headsOf(reading.book, 'moulds');
  const colours = await headsOf(reading.book, 'colourways');
  const here = new Set((await allColumns(reading.book)).map(({ startedAt }) => startedAt));
  const taken: TakenIn = { records: [], untaken: [] };
  const past: PastShots[] = [];
  for await (const row of inTime(rows, reading.signal)) {
    const read = pastShots(row, moulds, reading);
    if (typeof read === 'string') taken.untaken.push({ line: row.line, reason: read });
    else past.push(read);
  }
  const door = await openDoor();
  for await (const lines of inTime(sessionsOf(past), reading.signal)) {
    try {
      const [first] = lines;
      if (first && here.has(first.at))
        throw new Error('A session that began then is here already.');
      const record = await sealedFrom(lines, colours, reading);
      taken.records.push({ table: 'sealed', record: door.checkedBy('sealed', record) });
    } catch (error) {
      const reason =
        error instanceof Error && !('issues' in error) ? error.message : reasonOf(error);
      taken.untaken.push(...lines.map(({ line }) => ({ line, reason })));
    }
  }
  return taken;
}

function pastShots(
  row: InRow,
  moulds: readonly Mould[],
  { at: now, zone }: Reading,
): PastShots | string {
  const { date = '', time, mould: name = '', colour = '', note = '' } = row.said;
  const day = dayFrom(date);
  if (!day) return 'Date: write it like 2026-03-12.';
  const at = instantOf(day, time || usualStart, zone);
  if (at === null) return 'Time: write it like 19:05.';
  if (at > now) return 'This is still to come.';
  const mould = moulds.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (!mould) return `No mould here is called “${name.slice(0, 60)}”. Bring in the moulds first.`;
  const shots = row.said.shots ? numberFrom(row.said.shots, row.hasDecimalComma) : 1;
  if (shots === null || !Number.isInteger(shots) || shots < 1 || shots > mostShots) {
    return `Shots: a whole number up to ${mostShots}.`;
  }
  const results = row.said.results
    ? resultsFrom(row.said.results, cavityCount(mould.layout))
    : null;
  if (typeof results === 'string') return results;
  if (note.length > 1_000) return 'The note is longer than 1,000 letters.';
  return { line: row.line, day, at, mould, colour, shots, results, note };
}

/** What each cavity gave, in counting order: our own words with a space between. */
function resultsFrom(text: string, cavities: number): Result[] | string {
  const words = text
    .toLowerCase()
    .split(/[\s;,]+/)
    .filter(Boolean);
  const results = words.map((word) => resultCodes.find((code) => code === word));
  if (words.length !== cavities) {
    return `It tells of ${words.length} cavities, the mould has ${cavities}.`;
  }
  const wrong = results.indexOf(undefined);
  return wrong === -1 ? (results as Result[]) : `“${words[wrong]?.slice(0, 30)}” is no result.`;
}

/** `2026-03-12`, `12.3.2026` or `2026/3/12`; American dates cannot be told from others. */
function dayFrom(text: string): string | null {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text);
  const dotted = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(text);
  const [year, month, date] = iso ? iso.slice(1) : (dotted?.slice(1).toReversed() ?? []);
  if (!year || !month || !date) return null;
  const day = `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;
  const there = new Date(`${day}T00:00:00Z`);
  return Number.isNaN(there.getTime()) || there.toISOString().slice(0, 10) !== day ? null : day;
}

/** Lines of one day, in the order of their times, at most three moulds together. */
function sessionsOf(past: readonly PastShots[]): PastShots[][] {
  const sessions: PastShots[][] = [];
  for (const line of past.toSorted((a, b) => a.at - b.at || a.line - b.line)) {
    const last = sessions.at(-1);
    const names = new Set(last?.map(({ mould }) => mould.id));
    const fits =
      last?.[0]?.day === line.day && (names.has(line.mould.id) || names.size < mostMoulds);
    if (last && fits) last.push(line);
    else sessions.push([line]);
  }
  return sessions;
}

async function sealedFrom(
  lines: readonly PastShots[],
  colours: readonly Colourway[],
  { book, at: now, zone }: Reading,
): Promise<object> {
  const [first] = lines as [PastShots];
  const { ambientC, pourC, potMl } = await settingsOf(book);
  const sessionId = freshId<SessionId>(first.at);
  const entries: object[] = [];
  const write = (said: Entry['said'], at: number) =>
    entries.push({
      id: freshId(now),
      sessionId,
      at,
      writtenAt: now,
      stamp: stampOf(book, now),
      device: book.device,
      said,
    });
  const moulds = [...new Map(lines.map(({ mould }) => [mould.id, mould])).values()];
  write({ kind: 'session-begun', zone, ambientC, pourC }, first.at);
  const frozen = moulds.map((mould) => ({
    ...frozenMould(mould, []),
    closed: [],
    warmAboveK: null,
  }));
  write({ kind: 'lined-up', moulds: frozen, injector: null }, first.at);
  let pot = null as { name: string; id: PotId } | null;
  let at = first.at;
  for (const line of lines) {
    at = Math.max(at, line.at);
    if (line.colour && line.colour !== pot?.name) {
      pot = { name: line.colour.slice(0, 60), id: freshId<PotId>(now) };
      const known = colours.find(({ name }) => name.toLowerCase() === line.colour.toLowerCase());
      const swatch = known?.sides[0]?.swatch ?? null;
      const filled = { potId: pot.id, slot: 0, name: pot.name, swatch, volumeMl: potMl };
      const pots = [{ ...filled, meanHeats: 0, maxHeats: 0 }];
      const about = { colourwayId: known?.id ?? null, name: pot.name, isAlone: true };
      write({ kind: 'pot-mixed', ...about, pots }, at);
    }
    for (let shot = 0; shot < line.shots; shot += 1) {
      const shotId = freshId<ShotId>(now);
      const { id: mouldId, layout } = line.mould;
      const cavities = cavityCount(layout);
      const volumeMl = Math.max(0.1, shotMl({ ...line.mould, closed: [] }));
      const shots = [{ shotId, mouldId, volumeMl, closed: [], setSec: null }];
      write({ kind: 'filled', shots, potIds: pot ? [pot.id] : [], injectorId: null }, at);
      const results = line.results ?? Array<Result>(cavities).fill('not-checked');
      write({ kind: 'opened', shots: [{ shotId, results }] }, at);
      at += apartMs;
    }
    if (line.note) write({ kind: 'noted', text: line.note }, at);
  }
  write({ kind: 'session-ended' }, at);
  return { id: sessionId, startedAt: first.at, endedAt: at, zone, entries };
}
