import { beforeEach, expect, test } from 'vitest';
import { tableOf } from '#calc/table.ts';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn, undoBroughtIn } from '#store/copy/bring.ts';
import { countOf, differenceOf } from '#store/copy/difference.ts';
import { type InKind, suggestedMatching } from '#store/csv/fields.ts';
import { outText } from '#store/csv/out.ts';
import { takenIn } from '#store/csv/take-in.ts';
import { type ReadRow, rowsOf } from '#store/csv/text.ts';
import { logEntry } from '#store/entries.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { endSession, entriesOf, sealedSessions } from '#store/sessions.ts';
import { aMould, morning, pourEvening, results } from '../hands/evening.ts';
import { dumpOf, fillShop } from '../hands/full-shop.ts';

const dialect = { separator: ';', decimal: ',' } as const;
const about = { name: 'table.csv', at: morning, version: '1' };
let book: Book;

beforeEach(async () => {
  book = await openBook(`csv-${crypto.randomUUID()}`);
});

function rowsIn(text: string): ReadRow[] {
  const rows = rowsOf(text);
  if (!Array.isArray(rows)) throw new Error(rows);
  return rows;
}

/** Reads a table into the book by its own heads. */
async function look(kind: InKind, text: string, into = book) {
  const rows = rowsIn(text);
  const matching = suggestedMatching(kind, rows[0]?.cells ?? []);
  const reading = { book: into, at: morning, zone: 'Europe/Berlin' };
  return await takenIn(kind, rows, matching, reading);
}

async function bring(kind: InKind, text: string, into = book) {
  const { open, untaken } = await look(kind, text, into);
  return { difference: await broughtIn(into, open, about), untaken };
}

/** Rows of a table that went out, by its heads. */
async function out(kind: Parameters<typeof outText>[1], from = book) {
  const [heads, ...rows] = rowsIn(await outText(from, kind, dialect)).map(({ cells }) => cells);
  return rows.map((row) => Object.fromEntries((heads ?? []).map((head, at) => [head, row[at]])));
}

test('every shot goes out with what each cavity gave', async () => {
  await fillShop(book, false);
  const shots = await out('shots');
  expect(shots).toHaveLength(5);
  expect(shots[0]).toMatchObject({
    Date: '2026-11-24',
    Time: '19:07',
    Zone: 'Europe/Berlin',
    Mould: 'Grub 50',
    Colour: 'Ink/rust',
    Heat: '1',
    Good: '3',
    Bad: '1',
    Closed: '0',
    'Not checked': '0',
    Cavities: 'good good short good',
    'Minutes:seconds shut': '3:00',
  });
});

test('sessions, mixes and stock go out, and a name that looks like a formula is none', async () => {
  await fillShop(book, false);
  const [session] = await out('sessions');
  expect(session).toMatchObject({ Moulds: 'Grub 50', Shots: '3', Good: '9', Bad: '3' });
  expect(session?.['Good, %']).toBe('75');
  expect(await out('mixes')).toMatchObject([
    { Colour: 'Ink/rust', Version: '1', Side: 'only', Name: 'Ink', 'For mL': '473' },
  ]);
  const stock = await out('stock');
  expect(stock.map((line) => line.What)).toEqual(['bought', 'lost']);
  expect(stock[0]).toMatchObject({ 'How much': '3785', Unit: 'mL', Paid: '42', Lot: 'L1' });
  expect(stock[0]?.Material).toBe('Soft base, =SUM(A1) “4 L”');
});

test('shots that went out of one logbook come into another with the same results and times', async () => {
  await fillShop(book, false);
  const text = await outText(book, 'shots', dialect);
  const other = await openBook(`csv-${crypto.randomUUID()}`);
  await aMould(other, 'grub 50', { rows: 2, cols: 2 });
  const { difference, untaken } = await bring('sessions', text, other);
  expect(untaken).toEqual([]);
  // Two sessions of one evening and one mould are one in a table of shots.
  expect(countOf(difference, 'sealed', 'brings')).toBe(1);
  const again = (await out('shots', other)).map(({ Date: day, Time, Cavities }) => [
    day,
    Time,
    Cavities,
  ]);
  expect(again).toEqual(
    (await out('shots')).map(({ Date: day, Time, Cavities }) => [day, Time, Cavities]),
  );
  // Nothing is made up: no clock ran, nothing was cold.
  const [columns] = await allColumns(other);
  expect([...(columns?.openSec ?? [1])].every((sec) => sec === 0)).toBe(true);
  expect([...(columns?.cold ?? [0])].every((flag) => flag === 2)).toBe(true);
  // The same table once more brings nothing.
  expect((await bring('sessions', text, other)).untaken).toHaveLength(5);
});

test('moulds come in, and every line that does not is told with its number and why', async () => {
  await aMould(book, 'Grub 50');
  const text = [
    'Mold;Rows;Columns;Count;Weight (g);Set time;Made of',
    'Shad 7;4;2;;2500;3:15;silicone',
    'Craw;;;6;1.250,5;;',
    'grub 50;2;2;;;;',
    'Frog;;;;;;',
    'Worm;13;1;;;;',
    'Tube;;;8;-5;;',
    'Fluke;;;17;;;',
    ';2;2;;;;',
    'Eel;2;2;;;;wood',
    'Bug;2;2;;;soon;',
    'Minnow;;;16;;195;Aluminium',
  ].join('\r\n');
  const { difference, untaken } = await bring('moulds', text);
  expect(countOf(difference, 'moulds', 'brings')).toBe(2);
  expect(untaken.map(({ line }) => line)).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 11]);
  expect(untaken.map(({ reason }) => reason)).toEqual([
    '“1.250,5” is no number.',
    'One of this name is here already, or on a line before.',
    'It does not say how many cavities it has.',
    'layout.rows: At most 12.',
    '“-5” is no number.',
    'Say how many cavities down and across.',
    'name: Give it a name.',
    'Made of: aluminium, silicone or stone.',
    'Set time: minutes and seconds, like 3:15.',
  ]);
  const moulds = await headsOf(book, 'moulds');
  expect(moulds.map(({ name }) => name).sort()).toEqual(['Grub 50', 'Minnow', 'Shad 7']);
  expect(moulds.find(({ name }) => name === 'Shad 7')).toMatchObject({
    layout: { rows: 4, cols: 2 },
    massG: 2_500,
    setSec: 195,
    material: 'silicone',
  });
  expect(moulds.find(({ name }) => name === 'Minnow')?.layout).toMatchObject({ rows: 8, cols: 2 });
  expect(await undoBroughtIn(book)).toBe('undone');
  expect(await headsOf(book, 'moulds')).toHaveLength(1);
});

test('a comma before three digits is a decimal sign in a table of semicolons, and parts thousands in one of commas', async () => {
  await bring('moulds', 'Name;Cavities;One bait, mL\nEel;1;"3,125"\nGrub;1;2,5');
  await bring('moulds', 'Name,Cavities,Weight (g)\nShad,1,"2,500"');
  const moulds = await headsOf(book, 'moulds');
  const figures = moulds.map(({ name, partMl, massG }) => [name, partMl, massG]);
  expect(figures.toSorted()).toEqual([
    ['Eel', 3.125, null],
    ['Grub', 2.5, null],
    ['Shad', null, 2_500],
  ]);
});

test('a mould that was shut for all but a whole minute says so in minutes', async () => {
  const mould = await aMould(book, 'Grub 50');
  const sessionId = await pourEvening(book, { fills: [{ mould, gave: null }], endMin: null });
  const [shot] = tableOf(await entriesOf(book, sessionId)).shots;
  if (!shot) throw new Error('There is no shot.');
  const shots = [{ shotId: shot.id, results: results('gggg') }];
  await logEntry(book, sessionId, { kind: 'opened', shots }, shot.filledAt + 119_600);
  await endSession(book, sessionId, shot.filledAt + 200_000);
  expect((await out('shots'))[0]).toMatchObject({ 'Minutes:seconds shut': '2:00' });
});

test('materials come in with their kind, unit and price', async () => {
  const text = [
    'product,type,unit,size,price,reorder',
    'Soft base,plastisol,,"3,785","$42.00",1000',
    'Gold flake,flake,,100,6.5,',
    'Hooks,hooks,pcs,50,"7,90",20',
    'Mystery,potion,,,,',
    'Salt,salt,litre,,,',
  ].join('\n');
  const { untaken } = await bring('materials', text);
  expect(untaken.map(({ line }) => line)).toEqual([5, 6]);
  const found = (await headsOf(book, 'materials')).toSorted((a, b) => (a.name > b.name ? -1 : 1));
  const materials = found.map((one) => [one.name, one.kind, one.unit, one.package, one.reorderAt]);
  expect(materials).toEqual([
    ['Soft base', 'plastisol', 'mL', { qty: 3_785, cents: 4_200 }, 1_000],
    ['Hooks', 'hook', 'piece', { qty: 50, cents: 790 }, 20],
    ['Gold flake', 'flake', 'g', { qty: 100, cents: 650 }, null],
  ]);
});

test('past sessions come in a day at a time, three moulds together at most', async () => {
  for (const name of ['A', 'B', 'C', 'D']) await aMould(book, name, { rows: 2, cols: 1 });
  const text = [
    'date,mould,colour,shots,cavities,note',
    '2026-03-12,A,Moss,3,,first day',
    '2026-03-12,B,Moss,,good short,',
    '2026-03-12,C,,2,,',
    '2026-03-12,D,,1,,',
    '12.3.2025,A,,1,,',
    '2026-02-30,A,,1,,',
    '03/12/2026,A,,1,,',
    '2026-03-13,E,,1,,',
    '2026-03-13,A,,1,good,',
    '2026-03-13,A,,1,good fine,',
    '2026-03-13,A,,101,,',
    '2027-03-13,A,,1,,',
  ].join('\n');
  const before = await dumpOf(book);
  const { open, untaken } = await look('sessions', text);
  const told = await differenceOf(book, open);
  expect(await dumpOf(book)).toEqual(before);
  expect(untaken.map(({ line }) => line)).toEqual([7, 8, 9, 10, 11, 12, 13]);
  expect(untaken[2]?.reason).toBe('No mould here is called “E”. Bring in the moulds first.');
  expect(await broughtIn(book, open, about)).toEqual(told);
  const tables = (await sealedSessions(book)).map(({ entries }) => tableOf(entries));
  const of = tables.find(({ shots }) => shots.length === 6);
  const counts = tables.map((table) => [table.allSeats.length, table.shots.length]);
  expect(counts.sort()).toEqual([
    [1, 1],
    [1, 1],
    [3, 6],
  ]);
  expect(
    of?.shots
      .map(({ results }) => results.join(' '))
      .filter((text) => text !== 'not-checked not-checked'),
  ).toEqual(['good short']);
  expect(of?.notes.map(({ text }) => text)).toEqual(['first day']);
  expect(of?.pots.map(({ name }) => name)).toEqual(['Moss']);
});
