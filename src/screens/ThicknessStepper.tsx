import { Stepper } from '#ui/Stepper.tsx';

/** A middling bait, mm; where the person has not said. */
export const usualThicknessMm = 10;

const least = 1;
const most = 40;

interface Props {
  label: string;
  thicknessMm: number;
  onChange: (thicknessMm: number) => void;
}

/** How thick a bait is, in whole millimetres. */
export function ThicknessStepper({ label, thicknessMm, onChange }: Props) {
  const step = (by: number) =>
    onChange(Math.min(Math.max(Math.round(thicknessMm) + by, least), most));
  return (
    <div>
      <h3>{label}</h3>
      <Stepper
        label={label}
        value={`${thicknessMm} mm`}
        lessName={`${label}: 1 mm less`}
        moreName={`${label}: 1 mm more`}
        onLess={() => step(-1)}
        onMore={() => step(1)}
      />
    </div>
  );
}
