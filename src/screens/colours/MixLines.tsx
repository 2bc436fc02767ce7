import type { PouredLine } from '#calc/mix.ts';
import { doseG } from '#calc/stock-measure.ts';
import type { Material } from '#model/material.ts';
import { DoseDrawing } from '#screens/DoseDrawing.tsx';
import { doseWords, gramWords, roundedWords } from '#screens/dose-words.ts';
import { FlakeStrip } from '#ui/FlakeStrip.tsx';
import styles from './Mix.module.css';

interface Props {
  lines: readonly PouredLine[];
  materials: ReadonlyMap<string, Material>;
  /** CSS px in a millimetre of this glass. */
  pxPerMm: number;
}

/** Every dose of a side: its name, its amount, and the amount drawn. */
export function MixLines({ lines, materials, pxPerMm }: Props) {
  if (lines.length === 0) return <p>Nothing but plastisol.</p>;
  return (
    <ul class={styles.lines}>
      {lines.map((line, index) => (
        <Line
          key={`${index} ${line.dose.materialId}`}
          line={line}
          material={materials.get(line.dose.materialId)}
          pxPerMm={pxPerMm}
        />
      ))}
    </ul>
  );
}

function Line({
  line,
  material,
  pxPerMm,
}: {
  line: PouredLine;
  material: Material | undefined;
  pxPerMm: number;
}) {
  const { dose, amount, wanted, errorShare } = line;
  const flake = material?.flake ?? null;
  const weighs = material ? doseG({ amount, unit: dose.unit }, material) : null;
  const rounded = roundedWords(amount, wanted, dose.unit, errorShare);
  return (
    <li>
      <h3>
        {dose.name}
        {flake && <small>{flakeWords(flake.acrossMm, flake.cut)}</small>}
      </h3>
      <span class={styles.amount}>
        {doseWords(amount, dose.unit)}
        {weighs && <small>{gramWords(weighs)}</small>}
      </span>
      <div class={styles.drawn}>
        <DoseDrawing
          name={dose.name}
          amount={amount}
          unit={dose.unit}
          swatch={material?.swatch ?? null}
        />
        {flake && (
          <FlakeStrip
            acrossPx={flake.acrossMm * pxPerMm}
            cut={flake.cut}
            swatch={material?.swatch ?? null}
            label={`Flake of ${flakeWords(flake.acrossMm, flake.cut)}`}
          />
        )}
        {dose.isPinned && <p class={styles.quiet}>Pinned: the same in any volume.</p>}
        {rounded && <p class={styles.quiet}>{rounded}</p>}
      </div>
    </li>
  );
}

/** `.035 in, 0.9 mm hex`. */
export function flakeWords(acrossMm: number, cut: string): string {
  const inches = (acrossMm / 25.4).toFixed(3).replace(/^0/, '');
  return `${inches} in, ${Number(acrossMm.toFixed(2))} mm ${cut}`;
}
