import type { ChangeStart } from '#screens/moulds/LogChange.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

interface Props {
  /** The cavity that stands out; null: none. */
  worst: number | null;
  onLog: (start: ChangeStart) => void;
}

/** What to do next: log the vent of the cavity that stands out, or any other change. */
export function NextSteps({ worst, onLog }: Props) {
  return (
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
  );
}
