import {
  type Columns,
  closedCode,
  coldFlag,
  goodCode,
  noFlag,
  notCheckedCode,
  resultCodes,
} from '#calc/columns.ts';
import { clockText, dayOf } from '#calc/days.ts';
import type { Book } from '#store/book.ts';
import { type Cell, csvText, type Dialect } from '#store/csv/text.ts';
import { headsOf } from '#store/heads.ts';
import { columnsInBatches } from '#store/history.ts';

/** The tables that go out. */
export const outKinds = ['shots', 'sessions', 'mixes', 'stock'] as const;
export type OutKind = (typeof outKinds)[number];

interface Table {
  heads: readonly string[];
  rows: Cell[][];
}

/** One table of the logbook as text for a spreadsheet. */
export async function outText(book: Book, kind: OutKind, dialect: Dialect): Promise<string> {
  const table = await { shots, sessions, mixes, stock }[kind](book);
  return csvText(table.heads, table.rows, dialect);
}

const shotHeads = [
  'Date',
  'Time',
  'Zone',
  'Mould',
  'Colour',
  'Heat',
  'Mould before the shot, °C',
  'Cold',
  'Minutes:seconds shut',
  'Good',
  'Bad',
  'Closed',
  'Not checked',
  'Cavities',
];

/** A line a shot, in the order of filling. */
async function shots(book: Book): Promise<Table> {
  const rows: Cell[][] = [];
  for await (const batch of columnsInBatches(book)) {
    for (const session of batch) {
      for (let shot = 0; shot < session.mould.length; shot += 1) rows.push(shotRow(session, shot));
    }
  }
  return { heads: shotHeads, rows };
}

function shotRow(session: Columns, shot: number): Cell[] {
  const at = session.startedAt + Math.round((session.filledSec[shot] ?? 0) * 1_000);
  const cells = session.cells.slice(session.firstCell[shot], session.firstCell[shot + 1]);
  const cold = session.cold[shot];
  const shutSec = Math.round(session.openSec[shot] ?? 0);
  return [
    dayOf(at, session.zone),
    clockText(at, session.zone),
    session.zone,
    session.moulds[session.mould[shot] ?? 0]?.name ?? '',
    session.colourways[session.colourway[shot] ?? 0]?.name ?? '',
    session.heat[shot] || null,
    Number((session.tempC[shot] ?? 0).toFixed(1)),
    cold === noFlag ? '' : cold === coldFlag ? 'yes' : 'no',
    shutSec > 0 ? `${Math.floor(shutSec / 60)}:${String(shutSec % 60).padStart(2, '0')}` : '',
    ...counted(cells),
    [...cells].map((code) => resultCodes[code]).join(' '),
  ];
}

/** A line a session. Bad: any defect. The share is of what was checked and not closed. */
async function sessions(book: Book): Promise<Table> {
  const rows: Cell[][] = [];
  for await (const batch of columnsInBatches(book)) {
    for (const session of batch) {
      const { startedAt, endedAt, zone } = session;
      const [good, bad, closed, unchecked] = counted(session.cells);
      rows.push([
        dayOf(startedAt, zone),
        clockText(startedAt, zone),
        clockText(endedAt, zone),
        zone,
        session.moulds.map(({ name }) => name).join(' + '),
        session.colourways
          .map(({ name }) => name)
          .filter(Boolean)
          .join(' + '),
        session.mould.length,
        good,
        bad,
        closed,
        unchecked,
        good + bad > 0 ? Number(((100 * good) / (good + bad)).toFixed(1)) : null,
        session.scrap?.weighedG ?? null,
      ]);
    }
  }
  const heads = ['Date', 'Start', 'End', 'Zone', 'Moulds', 'Colours', 'Shots'];
  const counts = ['Good', 'Bad', 'Closed', 'Not checked', 'Good, %'];
  return { heads: [...heads, ...counts, 'Bad baits weighed, g'], rows };
}

/** A line for each thing that goes into a mix. */
async function mixes(book: Book): Promise<Table> {
  const colours = new Map((await headsOf(book, 'colourways')).map(({ id, name }) => [id, name]));
  const materials = new Map((await book.db.getAll('materials')).map(({ id, name }) => [id, name]));
  const rows = (await headsOf(book, 'mixes')).flatMap((mix): Cell[][] =>
    mix.sides.flatMap((side): Cell[][] => {
      const base = side.plastisolId ? (materials.get(side.plastisolId) ?? '') : '';
      const colour = mix.colourwayId ? (colours.get(mix.colourwayId) ?? '') : '';
      const about = [colour, mix.version, side.role, side.name, side.swatch, mix.baseMl, base];
      if (side.doses.length === 0) return [[...about, '', null, '', '']];
      return side.doses.map((dose) => [
        ...about,
        dose.name,
        dose.amount,
        dose.unit,
        dose.isPinned ? 'yes' : 'no',
      ]);
    }),
  );
  const heads = ['Colour', 'Version', 'Side', 'Name', 'Looks like', 'For mL', 'Plastisol'];
  return { heads: [...heads, 'Goes in', 'Amount', 'Unit', 'Same for any volume'], rows };
}

/** A line for each line of the stock journal. What sessions poured is no line of it. */
async function stock(book: Book): Promise<Table> {
  const materials = new Map((await book.db.getAll('materials')).map((one) => [one.id, one]));
  const movements = await book.db.getAll('movements');
  const back = new Set(
    movements.flatMap(({ says }) => (says.kind === 'taken-back' ? [says.target] : [])),
  );
  const rows = movements
    .filter(({ says }) => says.kind !== 'taken-back')
    .sort((a, b) => a.at - b.at || (a.stamp < b.stamp ? -1 : 1))
    .map(({ id, at, materialId, says, note }): Cell[] => {
      const material = materials.get(materialId);
      return [
        new Date(at).toISOString(),
        material?.name ?? '',
        says.kind,
        'qty' in says ? says.qty : 'level' in says ? says.level : null,
        material?.unit ?? '',
        'cents' in says ? says.cents / 100 : null,
        'lot' in says ? says.lot : '',
        note,
        back.has(id) ? 'yes' : 'no',
      ];
    });
  const heads = ['Time, UTC', 'Material', 'What', 'How much', 'Unit', 'Paid', 'Lot', 'Note'];
  return { heads: [...heads, 'Taken back'], rows };
}

/** Good, bad, closed, not checked. */
function counted(cells: Uint8Array): [number, number, number, number] {
  const counts: [number, number, number, number] = [0, 0, 0, 0];
  for (const code of cells) {
    if (code === goodCode) counts[0] += 1;
    else if (code === closedCode) counts[2] += 1;
    else if (code === notCheckedCode) counts[3] += 1;
    else counts[1] += 1;
  }
  return counts;
}
