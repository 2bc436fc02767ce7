import type { Shape } from '#screens/shape.ts';
import { Stepper } from '#ui/Stepper.tsx';

interface Props {
  shape: Shape;
  onChange: (shape: Shape) => void;
}

const mostOnSide = 12;
const mostCavities = 48;

/** How many cavities across and down, by steps; an end says that it is one. */
export function ShapeSteppers({ shape, onChange }: Props) {
  const sides = [
    ['across', 'cols', 'rows'],
    ['down', 'rows', 'cols'],
  ] as const;
  return (
    <>
      {sides.map(([word, side, other]) => {
        const now = shape[side];
        const set = (next: number) => {
          if (next < 1 || next > mostOnSide || next * shape[other] > mostCavities) return;
          onChange({ ...shape, [side]: next });
        };
        return (
          <Stepper
            key={word}
            label={word === 'across' ? 'Across' : 'Down'}
            value={`${now} ${word}`}
            lessName={`One ${word} less`}
            moreName={`One ${word} more`}
            onLess={() => set(now - 1)}
            onMore={() => set(now + 1)}
            {...endWords(now, shape[other])}
          />
        );
      })}
    </>
  );
}

function endWords(now: number, other: number): { small?: string } {
  if ((now + 1) * other > mostCavities) return { small: `${mostCavities} cavities is the most` };
  if (now === mostOnSide) return { small: `${mostOnSide} is the most` };
  return now === 1 ? { small: '1 is the least' } : {};
}
