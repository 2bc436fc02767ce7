import { dayOf } from '#calc/days.ts';
import type { Units } from '#screens/entry-words.ts';
import { clockWords, dateWords, tempWords } from '#screens/words.ts';
import type { ChangedField } from '#store/copy/difference.ts';

/** How the person reads figures and days. */
export interface Reader extends Units {
  zone: string;
  today: string;
}

/** Facts whose name in the record is not what a person calls them. */
const labels: Readonly<Record<string, string>> = {
  deletedAt: 'On its list',
  massG: 'Weight',
  partMl: 'One bait',
  sprueMl: 'Sprue',
  setSec: 'Set time',
  hasNoClock: 'Poured without a clock',
  section: 'Thickest part',
  closed: 'Closed cavities',
  layout: 'Cavities',
  heat: 'What its readings taught',
  opens: 'Opens',
  fill: 'Filled',
  makes: 'Makes',
  needs: 'Takes parts',
  boreMm: 'Bore',
  isTwin: 'Twin',
  sides: 'Colours',
  package: 'How it is bought',
  reorderAt: 'Buy again at',
  isAside: 'Set aside',
  ambientC: 'Shop temperature',
  pourC: 'Pour temperature',
  cautionsReadAt: 'Cautions read',
};

/** Units that a record's field carries in its name. */
const units: readonly [RegExp, string][] = [
  [/Ml$/, 'mL'],
  [/G$/, 'g'],
  [/Mm$/, 'mm'],
  [/Min$/, 'min'],
];

const anId = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-/;
const longest = 80;

/** What a fact was and what it is now: `Name: was Grub 50, now Grub 60`. */
export function fieldWords({ field, before, after }: ChangedField, reader: Reader): string {
  const label = labels[field] ?? plainName(field);
  const [was, now] = [valueWords(field, before, reader), valueWords(field, after, reader)];
  return was === now ? `${label}: changed` : `${label}: was ${was}, now ${now}`;
}

function valueWords(field: string, value: unknown, reader: Reader): string {
  if (field === 'deletedAt') return value === null ? 'yes' : 'no';
  if (value === null || value === undefined || value === '') return 'not set';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return figureWords(field, value, reader);
  if (typeof value === 'string') return anId.test(value) ? 'another one' : cut(value);
  if (Array.isArray(value)) {
    if (value.length === 0) return 'none';
    return cut(value.map((one) => valueWords('', one, reader)).join('; '));
  }
  const parts = Object.entries(value).filter(([, part]) => !anId.test(String(part)));
  return cut(
    parts
      .map(([key, part]) => `${plainName(key).toLowerCase()} ${valueWords(key, part, reader)}`)
      .join(', '),
  );
}

function figureWords(field: string, value: number, { tempUnit, zone, today }: Reader): string {
  if (/Sec$/.test(field)) return clockWords(value);
  if (/C$/.test(field)) return tempWords(value, tempUnit);
  if (/At$/.test(field) && field !== 'reorderAt') return dateWords(dayOf(value, zone), today);
  if (/[cC]ents$/.test(field)) return (value / 100).toFixed(2);
  const unit = units.find(([ending]) => ending.test(field))?.[1];
  const figure = String(Number(value.toPrecision(6)));
  return unit ? `${figure} ${unit}` : figure;
}

/** `reorderAt` as `Reorder at`; a unit at its end is left to the figure. */
function plainName(field: string): string {
  const bare = field.replace(/(Ml|Sec|Mm|Min|Cents|G|C)$/, '') || field;
  const words = bare.replace(/([A-Z])/g, ' $1').toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function cut(text: string): string {
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
}
