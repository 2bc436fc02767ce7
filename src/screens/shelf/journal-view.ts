import { dayOf } from '#calc/days.ts';
import { firstUnitOf, usualDropMl } from '#calc/dose-steps.ts';
import { joinedLines, type StockLine, takersOf } from '#calc/stock-level.ts';
import type { Movement } from '#model/movement.ts';
import { moneyWords, stockWords, type Units } from '#screens/amounts.ts';
import { tidy } from '#screens/dose-words.ts';
import { hrefTo } from '#screens/routes.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import { countWords, dateWords } from '#screens/words.ts';

/** One line of the journal as it is shown. */
export interface JournalRow {
  key: string;
  at: number;
  date: string;
  title: string;
  /** What else is known: price, lot, what a count found. */
  detail: string;
  /** The reason, as the person wrote it. */
  note: string;
  /** `after 1.2 L`; empty where it moved nothing because it was taken back. */
  after: string;
  /** The movement that its key takes back, or the taking back that its key takes back. */
  target: Movement | null;
  isTakenBack: boolean;
  /** The session that took it. */
  href: string | null;
}

/** The journal of a material, newest first, with what was taken back in its place. */
export function journalRows(
  jar: Jar,
  movements: readonly Movement[],
  units: Units,
  { now, zone }: { now: number; zone: string },
): JournalRow[] {
  const { material, stock } = jar;
  const qtyWords = (qty: number) => stockWords(qty, material.unit, units);
  const dated = (at: number) => ({ at, date: dateWords(dayOf(at, zone), dayOf(now, zone)) });
  const takers = takersOf(movements);
  const lines = joinedLines(stock.lines);
  const toldAt = lines.findIndex(({ cause }) => 'movement' in cause);
  // What went before anybody told what is there says nothing of a level.
  const toldFrom = toldAt === -1 ? lines.length : toldAt;
  const standing = lines.map((line, index): JournalRow => {
    const after =
      index < toldFrom
        ? ''
        : line.level < 0
          ? `${qtyWords(-line.level)} missing`
          : `then ${qtyWords(line.level)}`;
    const base = { ...dated(line.at), after, isTakenBack: false };
    if ('sessionId' in line.cause) {
      const { sessionId } = line.cause;
      const href = hrefTo({ at: 'session', sessionId });
      const [drops, ml] = [dropWords(-line.change, material), tidy(-line.change)];
      return {
        ...base,
        key: `${sessionId} ${index}`,
        // A few drops are nothing of what a jar is measured in.
        title: `Used ${drops ? `${drops}, ${ml} mL` : qtyWords(-line.change)}`,
        detail: '',
        note: '',
        target: null,
        href,
      };
    }
    const { movement } = line.cause;
    const detail = detailWords(movement, line, qtyWords);
    const title = titleWords(movement, qtyWords);
    const { id: key, note } = movement;
    return { ...base, key, title, detail, note, target: movement, href: null };
  });
  const gone = movements
    .filter(({ id, says }) => says.kind !== 'taken-back' && takers.has(id))
    .map((movement): JournalRow => {
      const title = titleWords(movement, qtyWords);
      const target = takers.get(movement.id) ?? null;
      const base = { ...dated(movement.at), key: movement.id, title, target };
      return {
        ...base,
        detail: detailWords(movement, null, qtyWords),
        note: movement.note,
        after: '',
        isTakenBack: true,
        href: null,
      };
    });
  return [...standing, ...gone]
    .map((row, index) => ({ row, index }))
    .sort((a, b) => b.row.at - a.row.at || b.index - a.index)
    .map(({ row }) => row);
}

/** An amount of a colourant that is dosed in drops, in whole ones; empty: it is not, or they are not whole. */
export function dropWords(qtyMl: number, material: Jar['material']): string {
  if (firstUnitOf(material) !== 'drop') return '';
  const drops = qtyMl / (material.dropMl ?? usualDropMl);
  // Doses by the mL or the spoon are of no whole number of them.
  if (Math.abs(drops - Math.round(drops)) > 0.01) return '';
  return countWords(Math.round(drops), 'drop');
}

function titleWords({ says }: Movement, qtyWords: (qty: number) => string): string {
  switch (says.kind) {
    case 'bought':
      return `Bought ${qtyWords(says.qty)}`;
    case 'lost':
      return `Lost ${qtyWords(says.qty)}`;
    case 'counted':
      return `Counted ${qtyWords(says.level)}`;
    case 'opened':
      return 'Opened a container';
    default:
      return 'Looked at, still right';
  }
}

function detailWords(
  { says }: Movement,
  line: StockLine | null,
  qtyWords: (qty: number) => string,
): string {
  const parts: string[] = [];
  if (says.kind === 'bought') {
    parts.push(`for ${moneyWords(says.cents)}`);
    if (says.lot) parts.push(`lot ${says.lot}`);
  }
  if (says.kind === 'opened' && says.lot) parts.push(`lot ${says.lot}`);
  if (says.kind === 'counted' && line && line.change !== 0) {
    const more = line.change > 0 ? 'more' : 'less';
    parts.push(`${qtyWords(Math.abs(line.change))} ${more} than the journal said`);
  }
  return parts.join(', ');
}
