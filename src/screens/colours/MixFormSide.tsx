import type { Material } from '#model/material.ts';
import type { MixSide } from '#model/mix.ts';
import { AddDose } from '#screens/colours/AddDose.tsx';
import { DoseFields } from '#screens/colours/DoseFields.tsx';
import { firstDose, type TypedDose, type TypedSide } from '#screens/colours/mix-form.ts';
import { sideWords } from '#screens/colours/side-words.ts';
import { doseWords } from '#screens/dose-words.ts';
import type { Refusals } from '#screens/form.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './Mix.module.css';

interface Props {
  side: TypedSide;
  at: number;
  isOne: boolean;
  /** The same side in the version before; undefined: it is new. */
  was: MixSide | undefined;
  /** The weight of its plastisol, g. */
  basisG: number;
  materials: readonly Material[];
  refusals: Refusals;
  /** Null takes the part out. */
  onChange: (side: TypedSide | null) => void;
}

/** The doses of one side. */
export function MixFormSide(props: Props) {
  const { side, at, isOne, was, basisG, materials, refusals, onChange } = props;
  const isPart = side.role === 'core' || side.role === 'tail';
  // Once, where a side is called what it is.
  const called = [...new Set([isPart ? '' : sideWords[side.role], side.name])]
    .filter(Boolean)
    .join(', ');
  const setDose = (row: number, dose: TypedDose | null) =>
    onChange({
      ...side,
      doses: dose ? side.doses.with(row, dose) : side.doses.filter((_, index) => index !== row),
    });
  const bases = materials.filter(({ kind, isAside }) => kind === 'plastisol' && !isAside);
  return (
    <section class={styles.plain} aria-label={called}>
      {!isOne && <h2>{called}</h2>}
      {bases.length > 0 && (
        <Field label={isOne ? 'Plastisol' : `Plastisol of ${called}`}>
          {(attributes) => (
            <select
              {...attributes}
              value={side.plastisolId ?? ''}
              onChange={({ currentTarget }) => {
                const base = bases.find(({ id }) => id === currentTarget.value);
                onChange({ ...side, plastisolId: base?.id ?? null });
              }}
            >
              <option value="">Not told</option>
              {bases.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
      <ActKey
        isPressed={side.hasRemelt === true}
        label={isOne ? 'Old plastic goes in' : `Old plastic goes in, ${called}`}
        onPress={() => onChange({ ...side, hasRemelt: !side.hasRemelt })}
      >
        Old plastic goes in
      </ActKey>
      {side.hasRemelt && (
        <p class={styles.quiet}>
          Its colour is not known here, so there is no colour guess for this side. Remelt with a
          card of its own belongs on the shelf as a plastisol.
        </p>
      )}
      {side.doses.map((dose, row) => (
        <DoseFields
          key={dose.key}
          dose={dose}
          basisG={basisG}
          last={lastDose(was, dose)}
          error={refusals[`sides.${at}.doses.${row}`]}
          onChange={(next) => setDose(row, next)}
        />
      ))}
      {side.doses.length < 20 && (
        <AddDose
          called={isOne ? '' : called}
          materials={materials}
          onAdd={(material) => onChange({ ...side, doses: [...side.doses, firstDose(material)] })}
        />
      )}
      {isPart && <ActKey onPress={() => onChange(null)}>Take out the {side.role}</ActKey>}
    </section>
  );
}

/** The dose of the same material in the version before, in words. */
function lastDose(was: MixSide | undefined, { materialId }: TypedDose): string | undefined {
  const dose = was?.doses.find((one) => one.materialId === materialId);
  return dose && doseWords(dose.amount, dose.unit);
}
