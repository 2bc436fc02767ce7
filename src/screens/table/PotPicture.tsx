import { toMl } from '#calc/units.ts';
import { type VolumeUnit, volumeWords } from '#screens/volumes.ts';

const topY = 10;
const bottomY = 180;

/** The pot drawn to its level, with a mark for every cup, four ounces or 100 mL. */
export function PotPicture({ volumeMl, unit }: { volumeMl: number; unit: VolumeUnit }) {
  const markMl = unit === 'mL' ? 100 : unit === 'floz' ? toMl(4, 'floz') : toMl(1, 'cup');
  const marks = Math.max(2, Math.ceil(volumeMl / markMl + 0.25));
  const yOf = (ml: number) => bottomY - (ml / (markMl * (marks + 0.2))) * (bottomY - topY);
  const level = Math.min(bottomY, Math.max(topY, yOf(volumeMl)));
  const every = Math.ceil(marks / 5);
  return (
    <svg
      viewBox="0 0 120 190"
      role="img"
      aria-label={`Pot filled to ${volumeWords(volumeMl, unit)}`}
    >
      <path
        d={`M12 ${level}h96V${bottomY - 8}a8 8 0 0 1-8 8H20a8 8 0 0 1-8-8z`}
        fill="currentColor"
        stroke="none"
      />
      <path
        d={`M4 ${topY}h112M12 ${topY}v${bottomY - topY - 8}a8 8 0 0 0 8 8h80a8 8 0 0 0 8-8V${topY}`}
        stroke-width="4"
      />
      {Array.from({ length: marks }, (_, index) => index + 1)
        .filter((mark) => mark % every === 0)
        .map((mark) => {
          const y = yOf(mark * markMl);
          const paint = y > level ? 'var(--paper)' : 'currentColor';
          const word = unit === 'floz' ? mark * 4 : unit === 'mL' ? mark * 100 : mark;
          return (
            <g key={mark}>
              <path d={`M14 ${y}h24`} stroke={paint} stroke-width="3" />
              <text x="46" y={y + 8} font-size="22" font-weight="700" fill={paint} stroke="none">
                {word}
              </text>
            </g>
          );
        })}
    </svg>
  );
}
