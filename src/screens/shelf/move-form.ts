import * as z from 'zod/mini';
import { farOff } from '#calc/far-off.ts';
import { weighedLevel } from '#calc/stock-measure.ts';
import { Cents, type Material, Qty, QtyAboveZero } from '#model/material.ts';
import {
  type AmountUnit,
  amountFrom,
  amountText,
  centsFrom,
  massWords,
  moneyWords,
  stockWords,
  typedUnits,
  type Units,
  unitFor,
} from '#screens/amounts.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import type { Moves } from '#store/stock.ts';

/** The movements that are typed. */
export type TypedKind = 'bought' | 'counted' | 'lost';

/** What a form of a movement holds while it is typed. */
export interface TypedMove extends Record<string, unknown> {
  amount: string;
  unit: AmountUnit;
  money: string;
  lot: string;
  /** A count by the scale: gross and tare, in the person's unit of mass. */
  isOnScale: boolean;
  gross: string;
  tare: string;
  day: string;
  note: string;
}

/** An empty form; a purchase begins with the usual package. */
export function typedMove(kind: TypedKind, jar: Jar, units: Units, today: string): TypedMove {
  const { material, stock } = jar;
  const own = kind === 'bought' ? material.package : null;
  const unit = unitFor(own?.qty ?? stock.level, material.unit, units);
  return {
    amount: own ? amountText(own.qty, unit) : '',
    unit,
    money: own ? moneyWords(own.cents) : '',
    lot: '',
    isOnScale: kind === 'counted' && material.unit !== 'piece',
    gross: '',
    tare: material.tareG == null ? '' : amountText(material.tareG, units.mass),
    day: today,
    note: '',
  };
}

type ReadMove =
  | { says: Moves; tareG: number | null; refusals: null }
  | { says: null; tareG: null; refusals: Refusals };

const bought = z.object({
  amount: QtyAboveZero,
  money: Cents,
  lot: z.string().check(z.maxLength(60, 'Keep it to 60 letters.')),
});
const lost = z.object({ amount: QtyAboveZero });
const counted = z.object({ amount: Qty });
const weighed = z.object({ tare: Qty, gross: Qty });
const aNumber = 'Write a number, like 12 or 12.5.';

/** The movement that was typed, or a sentence for each field that does not fit. */
export function moveFrom(
  kind: TypedKind,
  typed: TypedMove,
  material: Material,
  units: Units,
): ReadMove {
  if (kind === 'counted' && typed.isOnScale) return weighedFrom(typed, material, units);
  const amount = amountOf(typed, material);
  const unread: Refusals = amount === null ? { amount: aNumber } : {};
  if (kind === 'bought') {
    const money = centsFrom(typed.money);
    if (money === null) unread.money = 'Write what it cost, like 9.80. A gift costs 0.';
    const read = readForm(bought, { amount, money, lot: typed.lot.trim() });
    if (!read.value || Object.keys(unread).length > 0) return no({ ...read.refusals, ...unread });
    const { amount: qty, money: cents, lot } = read.value;
    return { says: { kind, qty, cents, lot }, tareG: null, refusals: null };
  }
  const read = readForm(kind === 'lost' ? lost : counted, { amount });
  if (!read.value || amount === null) return no({ ...read.refusals, ...unread });
  const { amount: qty } = read.value;
  const says = kind === 'lost' ? ({ kind, qty } as const) : ({ kind, level: qty } as const);
  return { says, tareG: null, refusals: null };
}

/** One line for a value that is far from this shop's usual; empty: nothing to say. */
export function oddWords(says: Moves, jar: Jar, units: Units): string {
  const { material, stock, price } = jar;
  const wordsOf = (qty: number) => stockWords(qty, material.unit, units);
  const earlier = (kind: 'bought' | 'lost') =>
    stock.lines.flatMap(({ cause }) => {
      const own = 'movement' in cause ? cause.movement.says : null;
      return own?.kind === kind ? [own.qty] : [];
    });
  switch (says.kind) {
    case 'bought': {
      const known = earlier('bought');
      const sizes = known.length === 0 && material.package ? [material.package.qty] : known;
      const usual = farOff(says.qty, sizes);
      if (usual !== null) return farWords(says.qty > usual, wordsOf(usual));
      const unitCents = price.steps.at(-1)?.unitCents;
      const paid = unitCents === undefined ? null : farOff(says.cents, [unitCents * says.qty]);
      return paid === null ? '' : farWords(says.cents > paid, `${moneyWords(paid)} for that much`);
    }
    case 'counted': {
      const usual = farOff(says.level, [stock.level]);
      return usual === null ? '' : farWords(says.level > usual, wordsOf(usual), 'the journal');
    }
    case 'lost': {
      const usual = farOff(says.qty, earlier('lost'));
      return usual === null ? '' : farWords(says.qty > usual, wordsOf(usual));
    }
    default:
      return '';
  }
}

/** What the shelf will hold then: `makes 218 mL`; empty where the movement says it itself. */
export function afterWords(says: Moves, { material, stock }: Jar, units: Units): string {
  if (says.kind !== 'bought' && says.kind !== 'lost') return '';
  const by = says.kind === 'bought' ? says.qty : -says.qty;
  const level = stock.level - stock.missing + by;
  const words = stockWords(Math.abs(level), material.unit, units);
  if (level < 0) return `then ${words} is missing`;
  return says.kind === 'bought' ? `makes ${words}` : `leaves ${words}`;
}

/** The weight that a level makes, for who weighs; empty for pieces. */
export function tareWords(material: Material, units: Units): string {
  if (material.tareG == null) return 'Weigh the empty jar once: it is kept.';
  return `The last one weighed ${massWords(material.tareG, units.mass)}.`;
}

function weighedFrom(typed: TypedMove, material: Material, units: Units): ReadMove {
  const gross = amountFrom(typed.gross, units.mass);
  const tare = amountFrom(typed.tare, units.mass);
  const unread: Refusals = {};
  if (gross === null) unread.gross = aNumber;
  if (tare === null) unread.tare = 'Write what the empty jar weighs. No jar: 0.';
  const read = readForm(weighed, { gross, tare });
  if (!read.value || gross === null || tare === null) return no({ ...read.refusals, ...unread });
  const level = weighedLevel({ grossG: gross, tareG: tare }, material);
  if (level < 0) return no({ gross: 'That is less than the empty jar. Look at both again.' });
  return { says: { kind: 'counted', level }, tareG: tare, refusals: null };
}

/** The typed amount; text that was not touched keeps the exact package. */
function amountOf({ amount, unit }: TypedMove, material: Material): number | null {
  const own = material.package;
  return own && amount === amountText(own.qty, unit) ? own.qty : amountFrom(amount, unit);
}

function no(refusals: Refusals): ReadMove {
  return { says: null, tareG: null, refusals };
}

function farWords(isMore: boolean, usual: string, whose = 'your usual'): string {
  const than = whose === 'the journal' ? `the ${usual} of the journal` : `your usual ${usual}`;
  return isMore
    ? `That is over 5 times ${than}. Fine if it is so.`
    : `That is under a fifth of ${than}. Fine if it is so.`;
}

/** The units that the amount may be typed in. */
export function unitsToType(material: Material, units: Units): readonly AmountUnit[] {
  return typedUnits(material.unit, units);
}
