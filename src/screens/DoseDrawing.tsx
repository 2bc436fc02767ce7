import { inFives, spoonsFor } from '#calc/spoons.ts';
import type { DoseUnit } from '#model/mix.ts';
import { doseWords } from '#screens/dose-words.ts';
import { Drops } from '#ui/Drops.tsx';
import { Spoons } from '#ui/Spoons.tsx';

interface Props {
  name: string;
  amount: number;
  unit: DoseUnit;
  swatch: string | null;
  /** `row`: in one row, however many there are. */
  shape?: 'row';
}

/** More than this is read as a number; nobody counts that many dots. */
const mostDrawn = 60;

/** A dose as a hand gives it: dots in fives, or spoons. Nothing for what is weighed. */
export function DoseDrawing({ name, amount, unit, swatch, shape }: Props) {
  const label = `${doseWords(amount, unit)} of ${name}`;
  if (unit === 'drop' && amount <= mostDrawn) {
    const groups = inFives(Math.round(amount));
    const perRow = shape === 'row' ? Math.max(3, groups.length) : 3;
    return <Drops groups={groups} swatch={swatch} perRow={perRow} label={label} />;
  }
  const spoons = unit === 'tsp' ? spoonsFor(Math.round(amount * 8)) : [];
  return spoons.length > 0 && spoons.length <= 8 ? <Spoons spoons={spoons} label={label} /> : null;
}
