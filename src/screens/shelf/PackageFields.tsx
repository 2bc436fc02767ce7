import { amountUnitWords, typedUnits, type Units } from '#screens/amounts.ts';
import type { Refusals } from '#screens/form.ts';
import type { TypedMaterial } from '#screens/shelf/material-form.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { UnitKeys } from '#screens/shelf/UnitKeys.tsx';

interface Props {
  typed: TypedMaterial;
  units: Units;
  refusals: Refusals;
  onChange: (part: Partial<TypedMaterial>) => void;
}

/** How it is bought, and when it goes on the list. */
export function PackageFields({ typed, units, refusals, onChange }: Props) {
  const choices = typedUnits(typed.stockUnit, units);
  return (
    <>
      <TextField
        label={`A package holds, in ${amountUnitWords[typed.packageUnit]}`}
        hint="As it is usually bought. Leave it empty if that changes."
        error={refusals.packageQty}
        value={typed.packageQty}
        mode="decimal"
        onText={(packageQty) => onChange({ packageQty })}
      />
      <UnitKeys
        label="Unit of the package"
        units={choices}
        chosen={typed.packageUnit}
        onChoose={(packageUnit) => onChange({ packageUnit })}
      />
      <TextField
        label="A package costs"
        error={refusals.packageMoney}
        value={typed.packageMoney}
        mode="decimal"
        onText={(packageMoney) => onChange({ packageMoney })}
      />
      <TextField
        label={`To buy at or below, in ${amountUnitWords[typed.reorderUnit]}`}
        hint="Then it is on the list. Empty: only when it runs out."
        error={refusals.reorder}
        value={typed.reorder}
        mode="decimal"
        onText={(reorder) => onChange({ reorder })}
      />
      <UnitKeys
        label="Unit of what is left"
        units={choices}
        chosen={typed.reorderUnit}
        onChoose={(reorderUnit) => onChange({ reorderUnit })}
      />
    </>
  );
}
