import { type MaterialKind, materialKinds, type StockUnit } from '#model/material.ts';
import type { Units } from '#screens/amounts.ts';
import { type TypedMaterial, usualUnit, withUnit } from '#screens/shelf/material-form.ts';
import { kindWords } from '#screens/shelf/shelf-view.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './KindKeys.module.css';

interface Props {
  typed: TypedMaterial;
  units: Units;
  hasJournal: boolean;
  onChange: (part: Partial<TypedMaterial>) => void;
}

const stockUnits: readonly (readonly [StockUnit, string])[] = [
  ['mL', 'By volume'],
  ['g', 'By weight'],
  ['piece', 'By the piece'],
];

/** What it is, and how it is counted. */
export function KindKeys({ typed, units, hasJournal, onChange }: Props) {
  const chosenWord = stockUnits.find(([unit]) => unit === typed.stockUnit)?.[1] ?? '';
  const choose = (kind: MaterialKind) =>
    onChange({
      kind,
      ...(hasJournal || usualUnit[kind] === typed.stockUnit
        ? {}
        : withUnit(usualUnit[kind], units)),
    });
  return (
    <>
      <p>
        <b>What it is</b>
      </p>
      <div class={styles.kinds} role="group" aria-label="What it is">
        {materialKinds.map((kind) => (
          <ActKey key={kind} isPressed={typed.kind === kind} onPress={() => choose(kind)}>
            {kindWords[kind][0]}
          </ActKey>
        ))}
      </div>
      {hasJournal ? (
        <p>Counted {chosenWord.toLowerCase()}: its journal is written so.</p>
      ) : (
        <Acts label="How it is counted">
          {stockUnits.map(([unit, word]) => (
            <ActKey
              key={unit}
              isPressed={typed.stockUnit === unit}
              onPress={() => onChange(withUnit(unit, units))}
            >
              {word}
            </ActKey>
          ))}
        </Acts>
      )}
    </>
  );
}
