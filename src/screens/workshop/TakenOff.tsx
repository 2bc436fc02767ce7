import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { takenOff } from '#screens/workshop/taken-off.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

/** So many are shown at first. */
const most = 6;

/** What was taken off a list, with the way back. */
export function TakenOff() {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const [isWhole, setIsWhole] = useState(false);
  const taken = useLive(
    () => takenOff(book, { now: clock.now(), zone: clock.zone() }),
    ['moulds', 'colourways', 'materials', 'injectors', 'photos', 'mixes', 'remarks', 'ideas'],
    'taken',
  );
  if (!taken || taken.length === 0) return null;
  return (
    <Sheet title="Taken off the list">
      <ul class={styles.rows}>
        {taken.slice(0, isWhole ? undefined : most).map(({ id, name, says, bringBack }) => (
          <Row key={id} title={name} says={says}>
            <ActKey
              label={`Bring back ${name}`}
              onPress={() => void act(() => bringBack(clock.now()).then(() => null), id)}
            >
              Bring back
            </ActKey>
          </Row>
        ))}
      </ul>
      {!isWhole && taken.length > most && (
        <ActKey onPress={() => setIsWhole(true)}>Show all {taken.length}</ActKey>
      )}
      <Refusal says={trouble} />
    </Sheet>
  );
}
