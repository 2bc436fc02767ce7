import { lengthStepped, lengthUnitOf, lengthWords, stepWords } from '#screens/lengths.ts';
import { useSettings } from '#screens/use-settings.ts';
import { Stepper } from '#ui/Stepper.tsx';

/** A middling bait, mm; where the person has not said. */
export const usualThicknessMm = 10;

interface Props {
  label: string;
  thicknessMm: number;
  onChange: (thicknessMm: number) => void;
}

/** How thick a bait is, in steps of the person's unit. */
export function ThicknessStepper({ label, thicknessMm, onChange }: Props) {
  const { settings } = useSettings();
  const unit = lengthUnitOf(settings ?? {});
  const step = (by: 1 | -1) => onChange(lengthStepped(thicknessMm, by, unit));
  return (
    <div>
      <h3>{label}</h3>
      <Stepper
        label={label}
        value={lengthWords(thicknessMm, unit)}
        lessName={`${label}: ${stepWords(unit)} less`}
        moreName={`${label}: ${stepWords(unit)} more`}
        onLess={() => step(-1)}
        onMore={() => step(1)}
      />
    </div>
  );
}
