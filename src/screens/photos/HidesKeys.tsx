import type { Hides } from '#calc/swatch.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Choices } from '#ui/Choices.tsx';

const choices: readonly [Hides | null, string][] = [
  [null, 'It lies half on black'],
  ['see-through', 'No black, see-through'],
  ['cloudy', 'No black, cloudy'],
  ['solid', 'No black, solid'],
];

/** How much a bait hides: read off its black half, or said in a word where there is none. */
export function HidesKeys({
  hides,
  onChange,
}: {
  hides: Hides | null;
  onChange: (hides: Hides | null) => void;
}) {
  return (
    <Choices label="How much it hides">
      {choices.map(([value, word]) => (
        <ActKey key={word} isPressed={hides === value} onPress={() => onChange(value)}>
          {word}
        </ActKey>
      ))}
    </Choices>
  );
}
