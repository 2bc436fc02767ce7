import {
  isBetweenLayers,
  opensAt,
  type Seat,
  type Stage,
  stageAt,
  type Table,
  waitingShot,
} from '#calc/table.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { clockWords } from '#screens/words.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  now: Instant;
  front: Seat | undefined;
  onPress: (mouldId: MouldId) => void;
}

/** The moulds of the round by number, where the glass has room for one card only. */
export function NumberKeys({ table, now, front, onPress }: Props) {
  return (
    <div class={styles.numbers} role="group" aria-label="Moulds">
      {table.seats.map((seat, index) => {
        const stage = stageAt(seat, now);
        const word = stageWord(seat, stage, now);
        return (
          <PressKey
            key={seat.mould.mouldId}
            stage={stage}
            isPressed={seat === front}
            onPress={() => onPress(seat.mould.mouldId)}
          >
            {index + 1}{' '}
            <span>
              {word}
              <span class="said">, {seat.mould.name}</span>
            </span>
          </PressKey>
        );
      })}
    </div>
  );
}

function stageWord(seat: Seat, stage: Stage, now: Instant): string {
  const shot = waitingShot(seat);
  if (shot && isBetweenLayers(seat)) return `layer ${shot.layers.length + 1}`;
  if (stage === 'setting' && shot) return clockWords(Math.ceil((opensAt(shot) - now) / 1_000));
  if (stage === 'open') return 'OPEN';
  return stage === 'skipped' ? 'out' : 'ready';
}
