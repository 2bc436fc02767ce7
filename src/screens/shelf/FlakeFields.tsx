import { mmFromIn } from '#calc/units.ts';
import { numberFrom } from '#screens/number-text.ts';
import { flakeInches, type TypedMaterial } from '#screens/shelf/material-form.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './KindKeys.module.css';

interface Props {
  typed: TypedMaterial;
  error: string | undefined;
  onChange: (part: Partial<TypedMaterial>) => void;
}

/** Width and cut of a flake; the inch is exactly 25.4 mm, and each size shows both. */
export function FlakeFields({ typed, error, onChange }: Props) {
  const now = numberFrom(typed.flakeMm);
  return (
    <>
      <p>
        <b>Flake size</b>
      </p>
      <div class={styles.kinds} role="group" aria-label="Flake size">
        {flakeInches.map((inches) => {
          const mm = Number(mmFromIn(inches).toFixed(4));
          return (
            <ActKey
              key={inches}
              isPressed={now !== null && Math.abs(now - mm) < 0.005}
              onPress={() => onChange({ flakeMm: String(mm) })}
              small={`${mm.toFixed(2)} mm`}
            >
              {inches.toFixed(3)} in
            </ActKey>
          );
        })}
      </div>
      <TextField
        label="Flake size in mm"
        hint="Across two flats of a hexagon, or the side of a square."
        error={error}
        value={typed.flakeMm}
        mode="decimal"
        onText={(flakeMm) => onChange({ flakeMm })}
      />
      <Acts label="Cut">
        {(['hex', 'square'] as const).map((cut) => (
          <ActKey
            key={cut}
            isPressed={typed.flakeCut === cut}
            onPress={() => onChange({ flakeCut: cut })}
          >
            {cut === 'hex' ? 'Hexagon' : 'Square'}
          </ActKey>
        ))}
      </Acts>
    </>
  );
}
