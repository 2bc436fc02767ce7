import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightMix } from '#screens/pour/PutRightMix.tsx';
import { PutRightNote } from '#screens/pour/PutRightNote.tsx';
import { PutRightReading } from '#screens/pour/PutRightReading.tsx';
import { PutRightScrap } from '#screens/pour/PutRightScrap.tsx';
import { PutRightTopUp } from '#screens/pour/PutRightTopUp.tsx';

interface Props {
  open: OpenLine;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** The form for what a reading, a mix, a top-up, a weighing or a note says. */
export function PutRightValue(props: Props) {
  const { said } = props.open.line;
  switch (said.kind) {
    case 'pot-mixed':
      return <PutRightMix {...props} said={said} />;
    case 'pot-topped-up':
      return <PutRightTopUp {...props} said={said} />;
    case 'noted':
      return <PutRightNote {...props} said={said} />;
    case 'scrap-weighed':
      return <PutRightScrap {...props} said={said} />;
    case 'ambient-read':
      return (
        <PutRightReading
          {...props}
          label="Shop"
          tempC={said.ambientC}
          says={(ambientC) => ({ ...said, ambientC })}
        />
      );
    case 'pot-read':
    case 'mould-read':
      return (
        <PutRightReading
          {...props}
          label={said.kind === 'pot-read' ? 'Pot' : 'Mould'}
          tempC={said.tempC}
          says={(tempC) => ({ ...said, tempC })}
        />
      );
    default:
      return null;
  }
}
