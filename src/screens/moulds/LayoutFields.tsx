import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { topLeftCavity, topLeftChoices } from '#calc/top-left.ts';
import { FreeSpots } from '#screens/moulds/FreeSpots.tsx';
import type { Grid, TypedMould } from '#screens/moulds/mould-form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { ShapeSteppers } from '#screens/ShapeSteppers.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';

interface Props {
  typed: TypedMould;
  error: string | undefined;
  onChange: (part: Partial<TypedMould>) => void;
}

/** Where the cavities lie and how they are counted, with the picture that comes of it. */
export function LayoutFields({ typed, error, onChange }: Props) {
  const { isFree, spots } = typed;
  return (
    <>
      <Acts label="Where the cavities lie">
        <ActKey isPressed={!isFree} onPress={() => onChange({ isFree: false })}>
          Rows and columns
        </ActKey>
        <ActKey isPressed={isFree} onPress={() => onChange({ isFree: true })}>
          Anywhere
        </ActKey>
      </Acts>
      {isFree ? (
        <FreeSpots spots={spots} onChange={(next) => onChange({ spots: next })} />
      ) : (
        <GridFields typed={typed} onChange={onChange} />
      )}
      <Refusal says={error} />
    </>
  );
}

function GridFields({ typed: { grid, opens }, onChange }: Omit<Props, 'error'>) {
  const set = (part: Partial<Grid>) => onChange({ grid: { ...grid, ...part } });
  const choices = topLeftChoices(grid);
  const topLeft = topLeftCavity(grid, opens);
  return (
    <>
      <ShapeSteppers shape={grid} onChange={set} />
      <p>
        <b>Your numbers run</b>
      </p>
      <Acts label="Your numbers run">
        {(['down', 'across'] as const).map((run) => (
          <ActKey key={run} isPressed={grid.run === run} onPress={() => set({ run })}>
            {run === 'down' ? 'Down first' : 'Across first'}
          </ActKey>
        ))}
      </Acts>
      <p>
        <b>Open it, the pouring side up. Which cavity is top left?</b>
      </p>
      <Acts label="Open it, the pouring side up. Which cavity is top left?">
        {choices.map(({ cavity, from }) => (
          <ActKey
            key={cavity}
            isPressed={cavity === topLeft}
            onPress={() => onChange({ grid: { ...grid, from }, opens: 'same' })}
          >
            {cavity}
          </ActKey>
        ))}
      </Acts>
      <GridPicture
        {...pictureSize(grid)}
        size="large"
        label={`Top left is cavity ${topLeft}`}
        cells={spotsOf(grid, opens).map(({ cavity, row, col }) => ({
          number: cavity,
          row,
          col,
          share: 0,
        }))}
      />
    </>
  );
}
