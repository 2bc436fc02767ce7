import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inFields, missingFields, suggestedMatching } from '#store/csv/fields.ts';
import { csvText, type Dialect, rowsOf, tableText } from '#store/csv/text.ts';

const dialects: Dialect[] = [
  { separator: ',', decimal: '.' },
  { separator: ';', decimal: ',' },
];

/** The cells of a table that can be read. */
function cellsOf(text: string): (readonly string[])[] {
  const rows = rowsOf(text);
  if (!Array.isArray(rows)) throw new Error(rows);
  return rows.map(({ cells }) => cells);
}

/** Cells as a spreadsheet sees them: quotes taken away as RFC 4180, section 2, rules 5 to 7 say. */
function rawCells(text: string): string[] {
  const inQuotes = /"((?:[^"]|"")*)"(?:[,;]|\r\n|$)/y;
  const cells: string[] = [];
  inQuotes.lastIndex = 1;
  for (let found = inQuotes.exec(text); found; found = inQuotes.exec(text)) {
    cells.push((found[1] ?? '').replaceAll('""', '"'));
    if (inQuotes.lastIndex >= text.length) break;
  }
  return cells;
}

describe('a table that goes out', () => {
  test('is written as RFC 4180 says, with the mark of UTF-8 before it', () => {
    expect(
      csvText(
        ['a', 'b "c"'],
        [
          ['x\r\ny', 1.5],
          [null, '1,5'],
        ],
        dialects[0] as Dialect,
      ),
    ).toBe('\ufeff"a","b ""c"""\r\n"x\r\ny","1.5"\r\n"","1,5"');
    expect(csvText(['a'], [[1.5]], dialects[1] as Dialect)).toBe('\ufeff"a"\r\n"1,5"');
  });

  const hostile = fc.oneof(
    fc.string(),
    fc
      .tuple(
        fc.constantFrom(
          '=',
          '+',
          '-',
          '@',
          '\t',
          '\r',
          '\n',
          '＝',
          '＋',
          '－',
          '＠',
          "'",
          "''",
          '"',
        ),
        fc.string(),
      )
      .map(([first, rest]) => first + rest),
    fc.constantFrom(
      '=cmd|" /C calc"!A0',
      '=HYPERLINK("http://x","y")',
      "'=1+1",
      '=1+1\nnote',
      '@SUM(1)',
      '\ufeff=1',
    ),
  );
  const aTable = fc.integer({ min: 1, max: 5 }).chain((width) =>
    fc.array(fc.array(hostile, { minLength: width, maxLength: width }), {
      minLength: 1,
      maxLength: 6,
    }),
  );

  test('starts no formula, and reads again as it was, whatever stands in it (OWASP, CSV Injection)', () => {
    fc.assert(
      fc.property(aTable, fc.constantFrom(...dialects), (rows, dialect) => {
        const heads = rows[0]?.map((_, column) => `h${column}`) ?? [];
        const text = csvText(heads, rows, dialect);
        const cells = rawCells(text);
        expect(cells).toHaveLength(heads.length * (rows.length + 1));
        for (const cell of cells) expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/);
        const full = rows.filter((row) => row.some((cell) => cell.trim() !== ''));
        if (full.length > 0) expect(cellsOf(text)).toEqual([heads, ...full]);
      }),
      { numRuns: 500 },
    );
  }, 30_000);

  test('a figure below zero stays a figure', () => {
    expect(csvText(['°C'], [[-5.25]], dialects[0] as Dialect)).toContain('"-5.25"');
  });
});

describe('a table that comes in', () => {
  test('is read as the examples of RFC 4180, section 2, are', () => {
    expect(cellsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(cellsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(cellsOf('h,i,j\r\n"aaa","b""bb","ccc"')[1]).toEqual(['aaa', 'b"bb', 'ccc']);
  });

  test('knows on which line of the file each row begins', () => {
    const rows = rowsOf('name;note\n"Grub";"two\nlines"\n\n\nShad;x\nCraw;y');
    expect(rows).toMatchObject([
      { line: 1, cells: ['name', 'note'] },
      { line: 2, cells: ['Grub', 'two\nlines'] },
      { line: 6, cells: ['Shad', 'x'] },
      { line: 7, cells: ['Craw', 'y'] },
    ]);
  });

  test.each([
    ['UTF-8 with its mark', new TextEncoder().encode('\ufeffname\nGrün')],
    ['UTF-16', Uint8Array.from(Buffer.from('\ufeffname\nGrün', 'utf16le'))],
    ['the code page of old spreadsheets', Uint8Array.from(Buffer.from('name\nGrün', 'latin1'))],
  ])('may be written in %s', async (_, bytes) => {
    const text = await tableText(new Blob([bytes]));
    expect(cellsOf(text)).toEqual([['name'], ['Grün']]);
  });

  test.each([
    ['nothing', '', 'empty'],
    ['heads alone', 'name;rows\n', 'empty'],
    ['a million columns', `a${','.repeat(1_000_000)}\nb`, 'too-wide'],
    ['a cell of 50,000 letters', `a\n"${'x'.repeat(50_000)}"`, 'too-big'],
    ['30,000 lines', `a\n${'b\n'.repeat(30_000)}`, 'too-big'],
  ])('%s is refused', (_, text, trouble) => {
    expect(rowsOf(text)).toBe(trouble);
  });

  test('a picture is no table', async () => {
    expect(await tableText(new Blob([Uint8Array.of(0x89, 0x50, 0, 0, 0xff)]))).toBe('no-text');
  });

  test('columns are known by their heads, in any spelling, each used once', () => {
    const matching = suggestedMatching('moulds', ['MOLD', 'Rows', 'cols ', 'Weight (g)', 'Colour']);
    expect(matching).toMatchObject({ name: 0, down: 1, across: 2, massG: 3, setTime: -1 });
    const materials = suggestedMatching('materials', ['Product', 'Price', 'Size']);
    expect(materials).toMatchObject({ name: 0, packagePrice: 1, packageQty: 2, kind: -1 });
    const used = Object.values(matching).filter((column) => column >= 0);
    expect(new Set(used).size).toBe(used.length);
    expect(
      missingFields('sessions', suggestedMatching('sessions', ['Tag'])).map(({ key }) => key),
    ).toEqual(inFields.sessions.filter(({ isNeeded }) => isNeeded).map(({ key }) => key));
  });
});
