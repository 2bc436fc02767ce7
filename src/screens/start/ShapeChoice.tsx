import { useState } from 'preact/hooks';
import { spotsOf } from '#calc/cavity-layout.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { ShapeSteppers } from '#screens/ShapeSteppers.tsx';
import { type Shape, shapeWords } from '#screens/shape.ts';
import { StartFoot } from '#screens/start/StartFoot.tsx';
import { plainMould } from '#store/start.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Icon } from '#ui/Icon.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ShapeChoice.module.css';

/** Across by down, as people say it. Common practice, no source. */
const usual: readonly Shape[] = [
  { rows: 4, cols: 1 },
  { rows: 4, cols: 2 },
  { rows: 6, cols: 2 },
  { rows: 4, cols: 3 },
  { rows: 8, cols: 1 },
];
const firstOther: Shape = { rows: 5, cols: 2 };

interface Props {
  /** What did not work, at the last press; empty: nothing. */
  refusal: string;
  onBack: () => void;
  onChosen: (shape: Shape) => void;
}

/** Which of these looks like the mould in the hand: the one thing asked before the first shot. */
export function ShapeChoice({ refusal, onBack, onChosen }: Props) {
  const [shape, setShape] = useState<Shape | null>(null);
  const [isOther, setIsOther] = useState(false);
  const choose = (next: Shape, other: boolean) => {
    setShape(next);
    setIsOther(other);
  };
  return (
    <>
      <DeskPage
        title="Which looks like your mould?"
        small="The notch is where the plastic goes in."
        shape="wall"
        tool={<ActKey onPress={onBack}>Back</ActKey>}
      >
        <div class={styles.shapes} role="group" aria-label="Shape of the mould">
          {usual.map((one) => (
            <ShapeKey
              key={shapeWords(one)}
              shape={one}
              isChosen={!isOther && shape === one}
              onPress={() => choose(one, false)}
            />
          ))}
          <button
            type="button"
            class={styles.shape}
            aria-pressed={isOther}
            onClick={() => choose(shape ?? firstOther, true)}
          >
            <span class={styles.other}>
              <Icon of="other" />
            </span>
            Other
          </button>
        </div>
        {isOther && shape && (
          <Sheet title="How many cavities?">
            <ShapeSteppers shape={shape} onChange={setShape} />
          </Sheet>
        )}
        <Cautions />
      </DeskPage>
      <StartFoot
        small={shape && `Mould 1, ${shapeWords(shape)}`}
        first="Choose a shape to start."
        refusal={refusal}
        onStart={() => shape && onChosen(shape)}
      />
    </>
  );
}

function ShapeKey(props: { shape: Shape; isChosen: boolean; onPress: () => void }) {
  const { layout, opens } = plainMould(props.shape);
  const cells = spotsOf(layout, opens).map((spot) => ({ ...spot, number: spot.cavity, share: 0 }));
  return (
    <button
      type="button"
      class={styles.shape}
      aria-pressed={props.isChosen}
      onClick={props.onPress}
    >
      <GridPicture {...props.shape} size="small" cells={cells} />
      {shapeWords(props.shape)}
    </button>
  );
}
