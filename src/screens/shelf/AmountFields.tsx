import type { Material } from '#model/material.ts';
import { amountUnitWords, type Units } from '#screens/amounts.ts';
import type { Refusals } from '#screens/form.ts';
import {
  type TypedKind,
  type TypedMove,
  tareWords,
  unitsToType,
} from '#screens/shelf/move-form.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { UnitKeys } from '#screens/shelf/UnitKeys.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

interface Props {
  kind: TypedKind;
  typed: TypedMove;
  material: Material;
  units: Units;
  refusals: Refusals;
  /** How much the last such movement was; undefined: there was none. */
  last: string | undefined;
  onChange: (part: Partial<TypedMove>) => void;
}

/** How much: by a measure, or for a count by the scale as gross and tare. */
export function AmountFields({ kind, typed, material, units, refusals, last, onChange }: Props) {
  const canWeigh = kind === 'counted' && material.unit !== 'piece';
  const mass = amountUnitWords[units.mass];
  return (
    <>
      {canWeigh && (
        <Acts label="How it was measured">
          <ActKey isPressed={typed.isOnScale} onPress={() => onChange({ isOnScale: true })}>
            On the scale
          </ActKey>
          <ActKey isPressed={!typed.isOnScale} onPress={() => onChange({ isOnScale: false })}>
            By measure
          </ActKey>
        </Acts>
      )}
      {canWeigh && typed.isOnScale ? (
        <>
          <TextField
            label={`Jar and all, in ${mass}`}
            last={last}
            error={refusals.gross}
            value={typed.gross}
            mode="decimal"
            onText={(gross) => onChange({ gross })}
          />
          <TextField
            label={`The empty jar, in ${mass}`}
            hint={tareWords(material, units)}
            error={refusals.tare}
            value={typed.tare}
            mode="decimal"
            onText={(tare) => onChange({ tare })}
          />
        </>
      ) : (
        <>
          <TextField
            label={`${kind === 'counted' ? 'There is' : 'How much'}, in ${amountUnitWords[typed.unit]}`}
            last={last}
            error={refusals.amount}
            value={typed.amount}
            mode="decimal"
            onText={(amount) => onChange({ amount })}
          />
          <UnitKeys
            label="Unit"
            units={unitsToType(material, units)}
            chosen={typed.unit}
            onChoose={(unit) => onChange({ unit })}
          />
        </>
      )}
    </>
  );
}
