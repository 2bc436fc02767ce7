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
  /** Null: not known yet. */
  trays: Trays | null;
  settings: SettingsFacts;
}

interface Hint {
  long: string;
  short: string;
  isShort?: boolean;
}

/** One quiet line before the next fill: the parts in the tray, or how the injector suits the round. */
export function HintLine({ table, trays, settings }: Props) {
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
  const hint = parts?.isShort ? parts : loaded?.isTooSmall ? loaded : (parts ?? loaded);
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

function partsHint({ part, has, needs }: PartsAt): Hint {
  const parts = partWords(has, part);
  if (needs === 0) return { long: `${parts} in the tray`, short: parts };
  return {
    long: `${parts}, next round needs ${needs}`,
    short: `${has}/${needs} ${partsWord(part)}`,
    isShort: has < needs,
  };
}
