import { cavityCount, pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { Layout, Mould } from '#model/mould.ts';
import { FreeSpots } from '#screens/moulds/FreeSpots.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './LayoutFields.module.css';

interface Props {
  layout: Layout;
  opens: Mould['opens'];
  error: string | undefined;
  onChange: (part: { layout?: Layout; opens?: Mould['opens'] }) => void;
}

const most = 48;
const mostAcross = 12;
const firstGrid = { kind: 'grid', rows: 4, cols: 2, run: 'down', from: 'top-left' } as const;
const corners = ['top-left', 'top-right', 'bottom-left', 'bottom-right'] as const;

/** Where the cavities lie and how they are counted, with the picture that comes of it. */
export function LayoutFields({ layout, opens, error, onChange }: Props) {
  const isGrid = layout.kind === 'grid';
  return (
    <>
      <Acts label="Where the cavities lie">
        <ActKey
          isPressed={isGrid}
          onPress={() => onChange({ layout: isGrid ? layout : firstGrid })}
        >
          Rows and columns
        </ActKey>
        <ActKey
          isPressed={!isGrid}
          onPress={() => onChange({ layout: isGrid ? { kind: 'free', spots: [] } : layout })}
        >
          Anywhere
        </ActKey>
      </Acts>
      {isGrid ? (
        <GridFields layout={layout} opens={opens} onChange={onChange} />
      ) : (
        <FreeSpots
          spots={layout.spots}
          onChange={(spots) => onChange({ layout: { kind: 'free', spots } })}
        />
      )}
      {error && (
        <p class={styles.error} role="alert">
          {error}
        </p>
      )}
    </>
  );
}

type Grid = Extract<Layout, { kind: 'grid' }>;

function GridFields(props: { layout: Grid; opens: Mould['opens']; onChange: Props['onChange'] }) {
  const { layout, opens, onChange } = props;
  const set = (part: Partial<Grid>) => onChange({ layout: { ...layout, ...part } });
  const step = (rows: number, cols: number) => {
    const next = { rows: layout.rows + rows, cols: layout.cols + cols };
    if ([next.rows, next.cols].some((side) => side < 1 || side > mostAcross)) return;
    if (next.rows * next.cols <= most) set(next);
  };
  const isAtMost = cavityCount(layout) >= most;
  const small = isAtMost ? { small: `${most} cavities is the most` } : {};
  return (
    <>
      <Stepper
        label="Across"
        value={`${layout.cols} across`}
        lessName="One across less"
        moreName="One across more"
        onLess={() => step(0, -1)}
        onMore={() => step(0, 1)}
      />
      <Stepper
        label="Down"
        value={`${layout.rows} down`}
        {...small}
        lessName="One down less"
        moreName="One down more"
        onLess={() => step(-1, 0)}
        onMore={() => step(1, 0)}
      />
      <p>Look at the mould as it lies open, the side where the plastic goes in on top.</p>
      <Acts label="Counted">
        {(['down', 'across'] as const).map((run) => (
          <ActKey key={run} isPressed={layout.run === run} onPress={() => set({ run })}>
            {run === 'down' ? 'Down first' : 'Across first'}
          </ActKey>
        ))}
      </Acts>
      <div class={styles.corners} role="group" aria-label="Cavity 1 lies">
        {corners.map((from) => (
          <ActKey key={from} isPressed={layout.from === from} onPress={() => set({ from })}>
            1 {from.replace('-', ' ')}
          </ActKey>
        ))}
      </div>
      <Acts label="The baits lie">
        <ActKey isPressed={opens === 'same'} onPress={() => onChange({ opens: 'same' })}>
          In this half
        </ActKey>
        <ActKey isPressed={opens === 'mirrored'} onPress={() => onChange({ opens: 'mirrored' })}>
          In the other half
        </ActKey>
      </Acts>
      <GridPicture
        {...pictureSize(layout)}
        size="large"
        label={`Top left is cavity ${topLeft(layout, opens)}`}
        cells={spotsOf(layout, opens).map(({ cavity, row, col }) => ({
          number: cavity,
          row,
          col,
          share: 0,
        }))}
      />
    </>
  );
}

function topLeft(layout: Layout, opens: Mould['opens']): number {
  return spotsOf(layout, opens).find(({ row, col }) => row === 1 && col === 1)?.cavity ?? 1;
}
