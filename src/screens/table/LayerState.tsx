import { lastPouredAt, type Seat, type Shot } from '#calc/table.ts';
import type { Warmth as Facts } from '#calc/warmth.ts';
import type { Instant } from '#model/schemas.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { Warmth } from '#screens/table/Warmth.tsx';
import { clockWords } from '#screens/words.ts';
import styles from './Table.module.css';

interface Props {
  seat: Seat;
  shot: Shot;
  now: Instant;
  warmth: Facts;
  acts: { lastLayer: () => void };
}

/** A hand pour between two layers: how long the last one has had, and how long it had the last time. */
export function LayerState({ seat, shot, now, warmth, acts }: Props) {
  const { layers } = shot;
  const before = layerGapMs(seat.shots.at(-2), layers.length);
  return (
    <>
      <div class={styles.state}>
        <output class={styles.count} role="timer" aria-label={`Since layer ${layers.length}`}>
          <span class={styles.notStand}>+</span>
          {clockWords((now - lastPouredAt(shot)) / 1_000)}
        </output>
        <Warmth warmth={warmth} />
        <p class={styles.since}>
          layer {layers.length}
          {before !== null && <span>, last {clockWords(before / 1_000)}</span>}
        </p>
      </div>
      <div class={styles.keys}>
        <PressKey onPress={acts.lastLayer} label={`Last layer, ${seat.mould.name}`}>
          Last layer
        </PressKey>
      </div>
    </>
  );
}

/** How long an earlier shot waited for the layer on top of its `layer`th; null: it had none. */
function layerGapMs(shot: Shot | undefined, layer: number): number | null {
  const [below, above] = [shot?.layers[layer - 1], shot?.layers[layer]];
  return below && above ? above.at - below.at : null;
}
