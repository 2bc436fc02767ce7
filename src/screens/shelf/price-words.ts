import { unitCentsAt } from '#calc/stock-price.ts';
import { gFrom, toMl } from '#calc/units.ts';
import { moneyWords, type Units } from '#screens/amounts.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';

/** What a natural measure of a material costs by now: `1 cup costs 2.36, on average.`; empty: not told. */
export function priceWords({ material, price }: Jar, units: Units, now: number): string {
  const unitCents = unitCentsAt(price, material, now);
  if (unitCents === null) return '';
  const [name, qty] = measureOf(material, units);
  const from = price.steps.length === 0 ? 'as its package says' : 'on average';
  return `${name} costs ${centsWords(unitCents * qty)}, ${from}.`;
}

/** Money that may be less than a cent. */
export function centsWords(cents: number): string {
  return cents < 10 ? `${Number((cents / 100).toFixed(4))}` : moneyWords(cents);
}

function measureOf({ unit, kind }: Jar['material'], units: Units): [name: string, qty: number] {
  if (unit === 'piece') return ['One', 1];
  if (unit === 'g') return units.mass === 'g' ? ['1 g', 1] : ['1 oz', gFrom(1, 'oz')];
  if (units.volume === 'mL') return kind === 'plastisol' ? ['1 L', 1_000] : ['10 mL', 10];
  return units.volume === 'cup' && kind === 'plastisol'
    ? ['1 cup', toMl(1, 'cup')]
    : ['1 fl oz', toMl(1, 'floz')];
}
