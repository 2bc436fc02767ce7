import { useState } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Said } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Instant } from '#model/schemas.ts';
import { useIsLarge } from '#screens/table/key-size.ts';
import { mixFor, type Place } from '#screens/table/mix.ts';
import { shortened } from '#screens/table/PotKeys.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { headsOf } from '#store/heads.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { mixOf } from '#store/start.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  pot: Pot | null;
  settings: SettingsFacts;
  now: Instant;
  onSaid: (said: Said) => void;
}

/** A fresh mix: which colour, how much, and whether it is the only one or a side of a laminate. */
export function MixPanel({ table, pot, settings, now, onSaid }: Props) {
  const { book } = useShop();
  const colourways = useLive(() => headsOf(book, 'colourways'), ['colourways'], 'all');
  const isPair = table.potsInUse.length > 1;
  const [place, setPlace] = useState<Place>(isPair && pot ? (pot.slot === 0 ? 'A' : 'B') : 'only');
  const [page, setPage] = useState(0);
  const perPage = useIsLarge() ? 2 : 5;
  const lastMl = lastMixMl(table) ?? settings.potMl;
  const [volumeMl, setVolumeMl] = useState(lastMl);
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const byUse = lastUsedFirst(colourways ?? [], table);
  const shown = byUse.slice(page * perPage, (page + 1) * perPage);

  function mix(colourway: Colourway | null) {
    onSaid(mixFor(mixOf(colourway, volumeMl, table.pots.length + 1, now), place));
  }

  return (
    <section class={styles.panel} aria-label="New mix">
      <StepKeys
        label="How much"
        value={volumeWords(volumeMl, unit)}
        small={volumeMl === lastMl ? 'as last time' : 'each pot'}
        lessName={`${volumeWords(stepMl, unit)} less`}
        moreName={`${volumeWords(stepMl, unit)} more`}
        onLess={() => setVolumeMl(Math.max(stepMl, volumeMl - stepMl))}
        onMore={() => setVolumeMl(Math.min(20_000, volumeMl + stepMl))}
      />
      <div class={styles.keyRow} role="group" aria-label="Which pot">
        {(['only', 'A', 'B'] as const).map((one) => (
          <PressKey key={one} isPressed={place === one} onPress={() => setPlace(one)}>
            {one === 'only' ? 'Only pot' : `Side ${one}`}
          </PressKey>
        ))}
      </div>
      <div class={styles.keyGrid} role="group" aria-label="Colour">
        {shown.map((colourway) => (
          <PressKey
            key={colourway.id}
            label={`Mix ${colourway.name}`}
            onPress={() => mix(colourway)}
          >
            <Swatches colourway={colourway} />
            {shortened(colourway.name, 13)}
          </PressKey>
        ))}
        <PressKey onPress={() => mix(null)}>New colour</PressKey>
        {byUse.length > perPage && (
          <PressKey onPress={() => setPage((page + 1) % Math.ceil(byUse.length / perPage))}>
            More
          </PressKey>
        )}
      </div>
    </section>
  );
}

function Swatches({ colourway }: { colourway: Colourway }) {
  return (
    <span class={styles.swatches} aria-hidden="true">
      {colourway.sides.map((side) => (
        <i key={side.name} style={{ '--swatch': side.swatch }} />
      ))}
    </span>
  );
}

function lastMixMl(table: Table): number | null {
  const first = table.pots.at(-1)?.course.find((event) => event.kind === 'filled');
  return first?.kind === 'filled' ? first.volumeMl : null;
}

/** Tonight's colours first, the newest before the others; the rest newest first. */
function lastUsedFirst(colourways: readonly Colourway[], table: Table): Colourway[] {
  const use = (one: Colourway) => table.pots.findLastIndex((pot) => pot.colourwayId === one.id);
  return colourways.toReversed().sort((a, b) => use(b) - use(a));
}
