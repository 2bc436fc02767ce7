import { useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { troubleWords } from '#screens/trouble-words.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { type Difference, differenceOf } from '#store/copy/difference.ts';
import type { OpenFile } from '#store/copy/file.ts';
import { limits } from '#store/copy/limits.ts';
import { whyOf } from '#store/copy/refusal.ts';
import {
  type InKind,
  inFields,
  type Matching,
  missingFields,
  suggestedMatching,
} from '#store/csv/fields.ts';
import type { Untaken } from '#store/csv/row.ts';
import { takenIn } from '#store/csv/take-in.ts';
import { type ReadRow, rowsOf, type TableTrouble, tableText } from '#store/csv/text.ts';

/** A table whose columns are being matched. */
export interface Matched {
  name: string;
  rows: readonly ReadRow[];
  matching: Matching;
}

/** What a table would bring, or has brought. */
export interface Told {
  open: OpenFile;
  difference: Difference;
  untaken: readonly Untaken[];
  isIn: boolean;
}

const sentences: Record<TableTrouble, string> = {
  empty: 'There is nothing in it below its first line.',
  'too-big': 'This table is too long. Cut it into parts of 20,000 lines.',
  'too-wide': 'A line of this table has more than 100 columns.',
  'no-text': 'This is no table of text. Save it as CSV first.',
};
const wrote = 'That did not work. Free some space and try again.';

/** Takes a table in, step by step; nothing is written before `bring`. */
export function useTableIn() {
  const shop = useShop();
  const { book, clock, version } = shop;
  const [kind, setKind] = useState<InKind>('moulds');
  const [matched, setMatched] = useState<Matched | null>(null);
  const [told, setTold] = useState<Told | null>(null);
  const [trouble, setTrouble] = useState('');

  const failed = (sentence: string) => {
    setTrouble(sentence);
    refuse(shop);
  };

  async function choose(file: File): Promise<void> {
    setTold(null);
    setTrouble('');
    const text = await tableText(file);
    const rows = isTrouble(text) ? text : rowsOf(text);
    if (!Array.isArray(rows)) {
      setMatched(null);
      return failed(sentences[rows]);
    }
    const matching = suggestedMatching(kind, rows[0]?.cells ?? []);
    setMatched({ name: file.name, rows, matching });
  }

  function change(next: InKind): void {
    setKind(next);
    setTold(null);
    setTrouble('');
    const heads = matched?.rows[0]?.cells ?? [];
    if (matched) setMatched({ ...matched, matching: suggestedMatching(next, heads) });
  }

  function match(key: string, column: number): void {
    setTold(null);
    if (matched) setMatched({ ...matched, matching: { ...matched.matching, [key]: column } });
  }

  async function look(): Promise<void> {
    if (!matched) return;
    const missing = missingFields(kind, matched.matching).map(({ word }) => word);
    if (missing.length > 0) return failed(`Say which column tells: ${missing.join(', ')}.`);
    setTrouble('');
    try {
      const signal = AbortSignal.timeout(limits.readMs);
      const reading = { book, at: clock.now(), zone: clock.zone(), signal };
      const { open, untaken } = await takenIn(kind, matched.rows, matched.matching, reading);
      const difference = await differenceOf(book, open, { signal });
      setTold({ open, untaken, difference, isIn: false });
    } catch (error) {
      failed(whyOf(error) ? troubleWords(error) : wrote);
    }
  }

  async function bring(): Promise<void> {
    if (!told || !matched || told.isIn) return;
    try {
      const about = { name: matched.name, at: clock.now(), version };
      const signal = AbortSignal.timeout(limits.readMs);
      const difference = await broughtIn(book, told.open, about, { signal });
      setTold({ ...told, difference, isIn: true });
      confirm(shop);
    } catch (error) {
      failed(whyOf(error) ? troubleWords(error) : wrote);
    }
  }

  return {
    kind,
    change,
    matched,
    choose,
    match,
    fields: inFields[kind],
    told,
    look,
    bring,
    trouble,
  };
}

function isTrouble(text: string): text is TableTrouble {
  return Object.hasOwn(sentences, text);
}
