import { type AmountUnit, amountUnitWords } from '#screens/amounts.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

interface Props {
  label: string;
  units: readonly AmountUnit[];
  chosen: AmountUnit;
  onChoose: (unit: AmountUnit) => void;
}

/** The unit that an amount is typed in; nothing where there is but one. */
export function UnitKeys({ label, units, chosen, onChoose }: Props) {
  if (units.length < 2) return null;
  return (
    <Acts label={label}>
      {units.map((unit) => (
        <ActKey key={unit} isPressed={unit === chosen} onPress={() => onChoose(unit)}>
          {amountUnitWords[unit]}
        </ActKey>
      ))}
    </Acts>
  );
}
