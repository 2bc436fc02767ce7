import { useState } from 'preact/hooks';
import { Cautions } from '#screens/Cautions.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Icon } from '#ui/Icon.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './ShapeChoice.module.css';

interface Shape {
  rows: number;
  cols: number;
}

/** Across by down, as people say it. Common practice, no source. */
const usual: readonly Shape[] = [
  { rows: 4, cols: 1 },
  { rows: 4, cols: 2 },
  { rows: 6, cols: 2 },
  { rows: 4, cols: 3 },
  { rows: 8, cols: 1 },
];
const mostCavities = 48;
const mostAcross = 12;

/** Which of these looks like the mould in the hand: the one thing asked before the first shot. */
export function ShapeChoice(props: { onBack: () => void; onChosen: (shape: Shape) => void }) {
  const [shape, setShape] = useState<Shape | null>(null);
  const [isOther, setIsOther] = useState(false);
  return (
    <>
      <DeskPage
        title="Which looks like your mould?"
        small="The notch is where the plastic goes in."
        shape="wall"
        tool={<ActKey onPress={props.onBack}>Back</ActKey>}
      >
        <div class={styles.shapes} role="group" aria-label="Shape of the mould">
          {usual.map((one) => (
            <ShapeKey
              key={shapeWords(one)}
              shape={one}
              isChosen={!isOther && shape?.rows === one.rows && shape.cols === one.cols}
              onPress={() => {
                setIsOther(false);
                setShape(one);
              }}
            />
          ))}
          <button
            type="button"
            class={styles.shape}
            aria-pressed={isOther}
            onClick={() => {
              setIsOther(true);
              setShape(shape ?? { rows: 5, cols: 2 });
            }}
          >
            <span class={styles.other}>
              <Icon of="other" />
            </span>
            Other
          </button>
        </div>
        {isOther && shape && <OtherShape shape={shape} onChange={setShape} />}
        <Cautions />
      </DeskPage>
      <footer class={styles.foot}>
        {shape ? (
          <ActKey
            size="main"
            small={`Mould 1, ${shapeWords(shape)}`}
            onPress={() => props.onChosen(shape)}
          >
            Start pouring
          </ActKey>
        ) : (
          <p>Choose a shape to start.</p>
        )}
      </footer>
    </>
  );
}

function ShapeKey(props: { shape: Shape; isChosen: boolean; onPress: () => void }) {
  const { rows, cols } = props.shape;
  return (
    <button
      type="button"
      class={styles.shape}
      aria-pressed={props.isChosen}
      onClick={props.onPress}
    >
      <GridPicture rows={rows} cols={cols} size="small" cells={cellsOf(props.shape)} />
      {shapeWords(props.shape)}
    </button>
  );
}

function OtherShape({ shape, onChange }: { shape: Shape; onChange: (shape: Shape) => void }) {
  const isAtMost = shape.rows * shape.cols >= mostCavities;
  const step = (rows: number, cols: number) => {
    const next = { rows: shape.rows + rows, cols: shape.cols + cols };
    const sides = [next.rows, next.cols];
    if (sides.some((side) => side < 1 || side > mostAcross)) return;
    if (next.rows * next.cols <= mostCavities) onChange(next);
  };
  return (
    <Sheet title="How many cavities?">
      <Stepper
        label="Across"
        value={`${shape.cols} across`}
        lessName="One across less"
        moreName="One across more"
        onLess={() => step(0, -1)}
        onMore={() => step(0, 1)}
      />
      <Stepper
        label="Down"
        value={`${shape.rows} down`}
        {...(isAtMost ? { small: `${mostCavities} cavities is the most` } : {})}
        lessName="One down less"
        moreName="One down more"
        onLess={() => step(-1, 0)}
        onMore={() => step(1, 0)}
      />
    </Sheet>
  );
}

function shapeWords({ rows, cols }: Shape): string {
  return `${cols} × ${rows}`;
}

function cellsOf({ rows, cols }: Shape) {
  return Array.from({ length: rows * cols }, (_, index) => ({
    number: index + 1,
    row: (index % rows) + 1,
    col: Math.floor(index / rows) + 1,
    share: 0,
  }));
}
