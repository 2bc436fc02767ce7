import Papa from 'papaparse';

/** A cell that is written: text of the person, or a figure of ours. */
export type Cell = string | number | null;

/** How a spreadsheet of the person's country reads a table: what parts cells, and figures. */
export interface Dialect {
  separator: ',' | ';';
  decimal: '.' | ',';
}

/**
 * What a spreadsheet takes for the beginning of a formula (OWASP, CSV Injection), full-width signs
 * too. Quotes that a person wrote before it are counted, so that reading gives back what was written.
 */
const formulaStart = /^'*[=+\-@\t\r\n＝＋－＠]/;
const guarded = /^'+[=+\-@\t\r\n＝＋－＠]/;
const mark = '\ufeff';

/**
 * A table as RFC 4180 has it: every cell in quotes, CR LF, and a byte order mark so that
 * spreadsheets know it is UTF-8. Text that would be a formula begins with an apostrophe.
 */
export function csvText(
  heads: readonly string[],
  rows: readonly (readonly Cell[])[],
  { separator, decimal }: Dialect,
): string {
  const written = (cell: Cell): string => {
    if (cell === null) return '';
    if (typeof cell === 'number') return String(cell).replace('.', decimal);
    return formulaStart.test(cell) ? `'${cell}` : cell;
  };
  const all = [heads, ...rows].map((row) => row.map(written));
  return mark + Papa.unparse(all, { delimiter: separator, quotes: true, newline: '\r\n' });
}

/** A line of a table that was read, with the line of the file it begins on. */
export interface ReadRow {
  line: number;
  cells: readonly string[];
  separator: string;
}

/** What can be wrong with a whole table. */
export type TableTrouble = 'empty' | 'too-big' | 'too-wide' | 'no-text';

const most = { bytes: 8_000_000, rows: 20_000, columns: 100, cell: 10_000 } as const;

/** The text of a table's file: UTF-8, UTF-16 with its mark, or what old spreadsheets write. */
export async function tableText(file: Blob): Promise<string | TableTrouble> {
  if (file.size > most.bytes) return 'too-big';
  const bytes = new Uint8Array(await file.arrayBuffer());
  const [first, second] = bytes;
  const wide = first === 0xff && second === 0xfe ? 'utf-16le' : 'utf-16be';
  const isWide = wide === 'utf-16le' || (first === 0xfe && second === 0xff);
  const text = isWide ? new TextDecoder(wide).decode(bytes) : narrowText(bytes);
  if (text.includes('\u0000')) return 'no-text';
  return text;
}

function narrowText(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

/** The rows of a table, the first one its heads; empty lines are passed over. */
export function rowsOf(text: string): ReadRow[] | TableTrouble {
  const plain = text.startsWith(mark) ? text.slice(1) : text;
  const rows: ReadRow[] = [];
  let trouble: TableTrouble | null = null;
  let [line, from] = [1, 0];
  const separator = separatorOf(plain);
  Papa.parse<string[]>(plain, {
    delimiter: separator,
    step({ data, meta }, parser) {
      const isTooLong = data.some((cell) => cell.length > most.cell);
      if (data.length > most.columns) trouble = 'too-wide';
      else if (isTooLong || rows.length > most.rows) trouble = 'too-big';
      if (trouble) return parser.abort();
      const cells = data.map(unguarded);
      if (cells.some((cell) => cell.trim() !== '')) rows.push({ line, cells, separator });
      line += lineEnds(plain, from, meta.cursor);
      from = meta.cursor;
    },
  });
  if (trouble) return trouble;
  return rows.length < 2 ? 'empty' : rows;
}

function unguarded(cell: string): string {
  return guarded.test(cell) ? cell.slice(1) : cell;
}

/** The sign that parts the cells of the first line: the commonest outside of quotes. */
function separatorOf(text: string): string {
  const counts = new Map([',', ';', '\t'].map((sign) => [sign, 0]));
  let isQuoted = false;
  for (const sign of text.slice(0, 20_000)) {
    if (sign === '"') isQuoted = !isQuoted;
    else if (!isQuoted && (sign === '\n' || sign === '\r')) break;
    else if (!isQuoted && counts.has(sign)) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  }
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? ',';
}

function lineEnds(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = from; at < to; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) count += 1;
  }
  return count;
}
