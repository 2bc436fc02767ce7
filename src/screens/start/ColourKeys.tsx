import { lightToDark } from '#calc/colour-queue.ts';
import type { Colourway } from '#model/gear.ts';
import { ColourChip } from '#screens/ColourChip.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './ChoiceKeys.module.css';

interface Props {
  choices: readonly Colourway[];
  /** In the order of pouring. */
  chosen: readonly Colourway[];
  /** The one that was poured last; null: none, or it is gone. */
  lastId: string | null;
  onChoose: (chosen: Colourway[]) => void;
}

/** The colours of the evening in their order; the first is in the first pot, the others can wait or change. */
export function ColourKeys({ choices, chosen, lastId, onChoose }: Props) {
  if (choices.length === 0) return null;
  const press = (colourway: Colourway) =>
    onChoose(
      chosen.includes(colourway)
        ? chosen.filter((other) => other !== colourway)
        : [...chosen, colourway],
    );
  const lightFirst = lightToDark(chosen);
  const isInOrder = lightFirst.every((colourway, index) => colourway === chosen[index]);
  return (
    <Sheet title="Which colours?" aside="in their order">
      <div class={styles.keys} role="group" aria-label="Which colours?">
        <ActKey isPressed={chosen.length === 0} onPress={() => onChoose([])}>
          No name yet
        </ActKey>
        {choices.map((colourway) => {
          const place = chosen.indexOf(colourway) + 1;
          const ofPot = place > 0 && chosen.length > 1 ? `pot ${place}` : '';
          const small = ofPot || (colourway.id === lastId ? 'last time' : '');
          return (
            <ActKey
              key={colourway.id}
              isPressed={place > 0}
              onPress={() => press(colourway)}
              {...(small ? { small } : {})}
            >
              <span class={styles.named}>
                <ColourChip swatches={colourway.sides.map(({ swatch }) => swatch)} />
                {colourway.name}
              </span>
            </ActKey>
          );
        })}
      </div>
      {!isInOrder && (
        <>
          <p>
            Light to dark leaves least of one in the next:{' '}
            {lightFirst.map(({ name }) => name).join(', ')}.
          </p>
          <ActKey onPress={() => onChoose(lightFirst)}>Light to dark</ActKey>
        </>
      )}
    </Sheet>
  );
}
