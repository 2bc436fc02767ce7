import { useShop } from '#live/shop.ts';
import type { Change } from '#model/change.ts';
import { changeLine } from '#screens/moulds/change-words.ts';
import type { ChangeStart } from '#screens/moulds/LogChange.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

interface Props {
  /** The cavity that stands out; null: none. */
  worst: number | null;
  takenBack: readonly Change[];
  onLog: (start: ChangeStart) => void;
}

/** What to do next: log the vent of the cavity that stands out, or any other change. */
export function NextSteps({ worst, takenBack, onLog }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const bringBack = ({ id }: Change) =>
    act(async () => {
      await setDeleted(book, 'changes', id, null, clock.now());
      return null;
    });
  return (
    <>
      <Acts>
        {worst !== null && (
          <ActKey
            label={`Vent opened, cavity ${worst}`}
            onPress={() => onLog({ kind: 'vent-opened', cavities: [worst] })}
          >
            Vent opened
          </ActKey>
        )}
        <ActKey onPress={() => onLog({ kind: 'vents-cleaned', cavities: [] })}>Log a change</ActKey>
      </Acts>
      {takenBack.map((change) => (
        <ActKey key={change.id} onPress={() => void bringBack(change)}>
          Bring back: {changeLine(change)}
        </ActKey>
      ))}
      <Refusal says={trouble} />
    </>
  );
}
