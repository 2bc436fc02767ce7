import { type PartsAt, partsAt, type Trays } from '#calc/parts.ts';
import { roundLoadOf } from '#calc/round-load.ts';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { roundLoadWords } from '#screens/load-words.ts';
import { partsWord, partWords } from '#screens/part-words.ts';
import { headsOf } from '#store/heads.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  /** What the session was begun without, to be asked here. */
  asks: readonly string[];
  /** Null: not known yet. */
  trays: Trays | null;
  settings: SettingsFacts;
}

interface Hint {
  long: string;
  short: string;
  isShort?: boolean;
}

/** One quiet line before the next fill: what is still to choose, the parts in the tray, or how the injector suits the round. */
export function HintLine({ table, asks, trays, settings }: Props) {
  const { book } = useShop();
  const injectors = useLive(() => headsOf(book, 'injectors'), ['injectors'], 'all');
  const { injector } = table;
  const [scarcest] = trays ? partsAt(table.seats, trays) : [];
  const injected = table.seats.filter(({ isSkipped, hand }) => !isSkipped && hand === null);
  const load =
    injector && injectors
      ? roundLoadOf(
          injected.map(({ mould }) => mould),
          injector,
          injectors,
        )
      : null;
  const loaded = load && injector && roundLoadWords(load, injector, settings.volumeUnit);
  const parts = scarcest && partsHint(scarcest);
  const hint = parts?.isShort
    ? parts
    : loaded?.isTooSmall
      ? loaded
      : (askHint(table, asks) ?? parts ?? loaded);
  return (
    <p
      class={styles.hint}
      role="status"
      aria-label={hint?.long}
      data-short={parts?.isShort || undefined}
    >
      <span class={styles.hintLong}>{hint?.long}</span>
      <span class={styles.hintShort}>{hint?.short}</span>
    </p>
  );
}

/** What the person wanted to be asked for, until it is told or the first round is poured. */
function askHint(table: Table, asks: readonly string[]): Hint | null {
  if (table.rounds > 0) return null;
  const open = [
    asks.includes('colours') && table.pots.length === 0 && 'colour',
    asks.includes('injector') && table.injector === null && 'injector',
    asks.includes('pourTemp') && !isAnyRead(table) && 'heat',
    asks.includes('pourer') && table.pourers.length === 0 && 'who pours',
  ].filter((one) => one !== false);
  const [first, ...others] = open;
  if (first === undefined) return null;
  const short = others.length > 0 ? `${open.length} to tell` : first;
  return { long: `Still to tell: ${open.join(', ')}`, short };
}

function isAnyRead(table: Table): boolean {
  return table.pots.some(({ course }) => course.some(({ kind }) => kind === 'read'));
}

function partsHint({ part, has, needs }: PartsAt): Hint {
  const parts = partWords(has, part);
  if (needs === 0) return { long: `${parts} in the tray`, short: parts };
  return {
    long: `${parts}, next round needs ${needs}`,
    short: `${has}/${needs} ${partsWord(part)}`,
    isShort: has < needs,
  };
}
