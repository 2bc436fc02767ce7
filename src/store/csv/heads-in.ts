import { type MaterialKind, materialKinds, StockUnit } from '#model/material.ts';
import { type Layout, Material as MouldMaterial } from '#model/mould.ts';
import { type Book, freshId, stampOf } from '#store/book.ts';
import { reasonOf } from '#store/copy/fit.ts';
import type { InRow, Reading } from '#store/csv/row.ts';
import { openDoor } from '#store/door.ts';
import type { FactsOf } from '#store/heads.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { plainMould } from '#store/start.ts';

/** The mould that a line tells of, or why there is none. */
export async function mouldFrom(row: InRow, reading: Reading): Promise<object | string> {
  const { said } = row;
  const layout = layoutFrom(said);
  if (typeof layout === 'string') return layout;
  const material = said.material ? MouldMaterial.safeParse(said.material.toLowerCase()) : null;
  if (material && !material.success) return 'Made of: aluminium, silicone or stone.';
  const setSec = said.setTime ? secondsFrom(said.setTime) : null;
  if (setSec === undefined) return 'Set time: minutes and seconds, like 3:15.';
  const numbers = numbersFrom(row, ['massG', 'partMl', 'sprueMl']);
  if (typeof numbers === 'string') return numbers;
  const facts: FactsOf<'moulds'> = {
    ...plainMould({ rows: 1, cols: 1 }),
    ...(numbers as Pick<FactsOf<'moulds'>, 'massG' | 'partMl' | 'sprueMl'>),
    name: said.name ?? '',
    layout,
    setSec,
    ...(material ? { material: material.data } : {}),
  };
  return await head(reading.book, 'moulds', facts, reading.at);
}

/** The material that a line tells of, or why there is none. */
export async function materialFrom(row: InRow, reading: Reading): Promise<object | string> {
  const { said } = row;
  const kind = said.kind ? kindFrom(said.kind) : 'other';
  if (!kind) return `Kind: one of ${materialKinds.join(', ')}.`;
  const usual = kind === 'flake' || kind === 'salt' ? 'g' : usualUnit(kind);
  const unit = said.unit ? unitFrom(said.unit) : usual;
  if (!unit) return 'Unit: mL, g or piece.';
  const numbers = numbersFrom(row, ['packageQty', 'packagePrice', 'reorderAt']);
  if (typeof numbers === 'string') return numbers;
  const { packageQty: qty, packagePrice: price } = numbers;
  if (qty === 0) return 'In a package: above 0.';
  const facts: FactsOf<'materials'> = {
    ...plainMaterial(kind),
    name: said.name ?? '',
    unit,
    package:
      qty && price !== null && price !== undefined ? { qty, cents: Math.round(price * 100) } : null,
    reorderAt: numbers.reorderAt ?? null,
  };
  return await head(reading.book, 'materials', facts, reading.at);
}

/** A head of its own that has passed the door, or the door's reason. */
export async function head<K extends 'moulds' | 'materials' | 'colourways'>(
  book: Book,
  table: K,
  facts: FactsOf<K>,
  at: number,
): Promise<object | string> {
  const stamp = stampOf(book, at);
  const fields = [...Object.keys(facts), 'deletedAt'];
  try {
    return (await openDoor()).checkedBy(table, {
      ...facts,
      id: freshId(at),
      device: book.device,
      stamps: Object.fromEntries(fields.map((field) => [field, stamp])),
      createdAt: at,
      deletedAt: null,
    });
  } catch (error) {
    return reasonOf(error);
  }
}

/** Where the cavities lie: rows and columns, or a count in one or two columns. */
function layoutFrom(said: InRow['said']): Layout | string {
  const [down, across, all] = [said.down, said.across, said.cavities].map((text) => {
    if (!text) return null;
    const number = numberFrom(text);
    return number !== null && Number.isInteger(number) && number > 0 ? number : Number.NaN;
  });
  if ([down, across, all].some(Number.isNaN)) return 'Cavities: a whole number, like 8.';
  const run = { kind: 'grid', run: 'down', from: 'top-left' } as const;
  if (down || across) return { ...run, rows: down ?? 1, cols: across ?? 1 };
  if (!all) return 'It does not say how many cavities it has.';
  if (all <= 12) return { ...run, rows: all, cols: 1 };
  const cols = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].find(
    (one) => all % one === 0 && all / one <= 12,
  );
  return cols ? { ...run, rows: all / cols, cols } : 'Say how many cavities down and across.';
}

type Numbers = Record<string, number | null>;

/** Figures of a line; empty ones are null. A sentence when one is no figure. */
function numbersFrom({ said, hasDecimalComma }: InRow, keys: readonly string[]): Numbers | string {
  const numbers: Numbers = {};
  for (const key of keys) {
    const text = said[key] ?? '';
    const number = text === '' ? null : numberFrom(text, hasDecimalComma);
    if (text !== '' && number === null) return `“${text.slice(0, 40)}” is no number.`;
    numbers[key] = number;
  }
  return numbers;
}

/**
 * A figure with point or comma; a sign for money or a unit beside it is passed over. A comma before three
 * digits parts thousands, but not where the table itself has decimal commas.
 */
export function numberFrom(text: string, hasDecimalComma = false): number | null {
  const plain = text.replace(/^[^\d.,-]+|[^\d.,]+$/g, '').replace(/\s/g, '');
  const isGrouped = !hasDecimalComma && /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain);
  const even = isGrouped ? plain.replaceAll(',', '') : plain.replace(',', '.');
  const number = /^(\d+\.?\d*|\.\d+)$/.test(even) ? Number(even) : Number.NaN;
  return Number.isFinite(number) ? number : null;
}

/** Seconds of `3:15` or `195`; undefined: neither. */
function secondsFrom(text: string): number | undefined {
  const parts = /^(\d{1,2}):([0-5]\d)$/.exec(text);
  if (parts) return Number(parts[1]) * 60 + Number(parts[2]);
  return /^\d{1,4}$/.test(text) ? Number(text) : undefined;
}

function kindFrom(text: string): MaterialKind | null {
  const plain = text.toLowerCase().replace(/s$/, '');
  return materialKinds.find((kind) => kind === plain || kind === text.toLowerCase()) ?? null;
}

function unitFrom(text: string): FactsOf<'materials'>['unit'] | null {
  const plain = text.toLowerCase();
  const units = {
    ml: 'mL',
    g: 'g',
    gram: 'g',
    grams: 'g',
    piece: 'piece',
    pieces: 'piece',
    pcs: 'piece',
  };
  const found = Object.hasOwn(units, plain) ? units[plain as keyof typeof units] : null;
  return found === null ? null : StockUnit.parse(found);
}

function usualUnit(kind: MaterialKind): FactsOf<'materials'>['unit'] {
  return kind === 'hook' || kind === 'bag' || kind === 'other' ? 'piece' : 'mL';
}
