import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { csvText, type Dialect, rowsOf } from '#store/csv/text.ts';
import { figure } from '../hands/figure.ts';

// A real spreadsheet program, Gnumeric, by its converter: it reads our table as it reads any that is
// opened by hand.
const converter = '/usr/bin/ssconvert';

/** Beginnings that spreadsheets take for a formula (OWASP, CSV Injection), and what may follow. */
const starts = ['=', '+', '-', '@', '＝', '＋', '－', '＠', "'=", '\t=', '\r=', '\n='];
const rests = ['1+1', 'SUM(1,2)', 'cmd|" /C calc"!A0', 'HYPERLINK("http://x","y")', '1+1\nnote'];
const payloads = starts.flatMap((start) => rests.map((rest) => start + rest));
const dialect: Dialect = { separator: ',', decimal: '.' };

/** What the spreadsheet makes of a table: its formulas, and the texts it shows. */
function opened(csv: string): { formulas: number; shown: (string | undefined)[] } {
  const folder = mkdtempSync(join(tmpdir(), 'warmshot-sheet-'));
  const at = (name: string) => join(folder, name);
  writeFileSync(at('in.csv'), csv);
  const turn = (...args: string[]) => execFileSync(converter, args, { stdio: 'pipe' });
  turn('-T', 'Gnumeric_XmlIO:sax:0', at('in.csv'), at('sheet.xml'));
  turn('-T', 'Gnumeric_stf:stf_csv', at('sheet.xml'), at('out.csv'));
  const sheet = readFileSync(at('sheet.xml'), 'utf8');
  const { data } = Papa.parse<string[]>(readFileSync(at('out.csv'), 'utf8').trimEnd());
  rmSync(folder, { recursive: true, force: true });
  // A cell of a fixed value names the kind of its value; one that is computed has none.
  const cells = [...sheet.matchAll(/<gnm:Cell ([^>]*)>/g)].map(([, facts]) => facts ?? '');
  return {
    formulas: cells.filter((facts) => !facts.includes('ValueType')).length,
    shown: data.slice(1).map((row) => row[1]),
  };
}

/** A spreadsheet knows one kind of line end. */
const asShown = (text: string) => text.replaceAll(/\r\n?/g, '\n');

test('a spreadsheet opens our table with no formula in it and shows every text as it was written', () => {
  expect(payloads).toHaveLength(60);
  const rows = payloads.map((payload, index) => [`n${index}`, payload]);
  const csv = csvText(['line', 'text'], rows, dialect);
  const { formulas, shown } = opened(csv);
  const read = rowsOf(csv);
  const back = Array.isArray(read) ? read.slice(1).map(({ cells }) => cells[1]) : [];
  const isShown = payloads.filter((text, index) => shown[index] === asShown(text)).length;
  const isBack = payloads.filter((text, index) => back[index] === text).length;
  figure({
    drill: 'Hostile texts in a table, opened by a real spreadsheet (Gnumeric)',
    required: '60 texts: 0 formula cells; 60/60 shown and read back as written',
    reached: `60 texts: ${formulas} formula cells; ${isShown}/60 shown and ${isBack}/60 read back as written`,
    isMet: formulas === 0 && isShown === 60 && isBack === 60,
  });
  expect(formulas).toBe(0);
  expect(shown).toEqual(payloads.map(asShown));
  expect(back).toEqual(payloads);
  // The same texts without our guard do become formulas there: the check can fail.
  const bare = rows.map(([name, text]) => `"${name}","${text?.replaceAll('"', '""')}"`);
  expect(opened(['"line","text"', ...bare].join('\r\n')).formulas).toBeGreaterThan(2);
});
