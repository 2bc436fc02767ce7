import { patchPx, type Raster } from '#calc/patch.ts';
import { usePicture } from '#live/use-picture.ts';
import type { PhotoId } from '#model/photo.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';
import styles from './PatchPicker.module.css';

/** A point of the picture. */
export interface Place {
  x: number;
  y: number;
}

interface Props {
  photoId: PhotoId;
  raster: Raster;
  /** What is to be tapped, in order. */
  patches: readonly { key: string; word: string }[];
  places: Readonly<Record<string, Place>>;
  chosen: string;
  onChoose: (key: string) => void;
  onPlace: (key: string, place: Place) => void;
}

/** How many screen points a point of the picture takes in the magnified look. */
const zoom = 3;
const lookPx = 140;

const steps: Record<string, Place> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};
const nudges = [
  ['Left', 'ArrowLeft'],
  ['Up', 'ArrowUp'],
  ['Down', 'ArrowDown'],
  ['Right', 'ArrowRight'],
] as const;

/** The picture to tap on, patch by patch; keys and arrows move the chosen patch, a look shows it large. */
export function PatchPicker(props: Props) {
  const { photoId, raster, patches, places, chosen, onChoose, onPlace } = props;
  const url = usePicture(photoId);
  const { widthPx, heightPx } = raster;
  const word = patches.find(({ key }) => key === chosen)?.word ?? '';
  const at = places[chosen] ?? { x: widthPx / 2, y: heightPx / 2 };

  const put = (x: number, y: number) =>
    onPlace(chosen, { x: within(x, widthPx), y: within(y, heightPx) });
  function nudge(key: string): boolean {
    const step = steps[key];
    if (step) put(at.x + step.x * (patchPx / 2), at.y + step.y * (patchPx / 2));
    return step !== undefined;
  }

  return (
    <>
      <Choices label="What to tap">
        {patches.map((patch) => (
          <ActKey
            key={patch.key}
            isPressed={patch.key === chosen}
            small={places[patch.key] ? 'tapped' : 'not yet'}
            onPress={() => onChoose(patch.key)}
          >
            {patch.word}
          </ActKey>
        ))}
      </Choices>
      <p role="status">Now tap: {word}.</p>
      <div
        class={styles.picture}
        role="group"
        aria-label={`Picture to tap on. Arrow keys move the patch: ${word}`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys move the patch
        tabIndex={0}
        onClick={({ currentTarget, clientX, clientY }) => {
          const box = currentTarget.getBoundingClientRect();
          put(
            ((clientX - box.left) / box.width) * widthPx,
            ((clientY - box.top) / box.height) * heightPx,
          );
        }}
        onKeyDown={(event) => {
          if (nudge(event.key)) event.preventDefault();
        }}
      >
        {url && <img src={url} alt="" draggable={false} />}
        {patches.map(({ key }, index) => {
          const place = places[key];
          if (!place) return null;
          const style = {
            left: `${(100 * place.x) / widthPx}%`,
            top: `${(100 * place.y) / heightPx}%`,
          };
          return (
            <b key={key} style={style} data-chosen={key === chosen || undefined}>
              {index + 1}
            </b>
          );
        })}
      </div>
      <div class={styles.near}>
        {url && (
          <i
            aria-hidden="true"
            style={{
              'background-image': `url("${url}")`,
              'background-size': `${widthPx * zoom}px ${heightPx * zoom}px`,
              'background-position': `${lookPx / 2 - at.x * zoom}px ${lookPx / 2 - at.y * zoom}px`,
            }}
          />
        )}
        <Choices label="Move the patch">
          {nudges.map(([name, key]) => (
            <ActKey key={key} onPress={() => nudge(key)}>
              {name}
            </ActKey>
          ))}
        </Choices>
      </div>
    </>
  );
}

function within(value: number, most: number): number {
  return Math.min(Math.max(value, 0), most - 1);
}
