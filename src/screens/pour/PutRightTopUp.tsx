import { useState } from 'preact/hooks';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { volumeText } from '#screens/number-text.ts';
import { lastTold } from '#screens/pour/last-told.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';
import { typedVolume, VolumeField } from '#screens/pour/VolumeField.tsx';

interface Props {
  open: OpenLine;
  said: SaidOf<'pot-topped-up'>;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** How much was added to a pot, and when. */
export function PutRightTopUp({ open, said, onSave, onLeave }: Props) {
  const unit = open.units.volumeUnit;
  const [text, setText] = useState(() => volumeText(said.volumeMl, unit));
  const [refusal, setRefusal] = useState<string>();

  function read(): Said | null {
    const typed = typedVolume(text, said.volumeMl, unit);
    setRefusal('refusal' in typed ? typed.refusal : undefined);
    return 'volumeMl' in typed ? { ...said, ...typed } : null;
  }

  return (
    <PutRightForm open={open} says={read} onSave={onSave} onLeave={onLeave}>
      <VolumeField
        label="Added"
        unit={unit}
        text={text}
        last={lastTold(open)}
        error={refusal}
        onText={setText}
      />
    </PutRightForm>
  );
}
