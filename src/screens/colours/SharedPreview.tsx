import type { Material } from '#model/material.ts';
import type { SharedMix } from '#model/shared-mix.ts';
import { headWords } from '#screens/colours/side-words.ts';
import { doseWords } from '#screens/dose-words.ts';
import { volumeWords } from '#screens/volumes.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Mix.module.css';

/** A mix from elsewhere, before it is taken in. */
export function SharedPreview({
  mix,
  known,
  unit,
}: {
  mix: SharedMix;
  /** The own material for each of the mix's; null: it would be new. */
  known: readonly (Material | null)[];
  unit: SettingsFacts['volumeUnit'];
}) {
  const glowing = mix.materials.filter((one) => one.glowsOrChanges).map(({ name }) => name);
  const fresh = mix.materials.filter((_, place) => !known[place]).map(({ name }) => name);
  return (
    <Sheet title={mix.name} aside={`for ${volumeWords(mix.baseMl, unit)}`}>
      <div class={styles.hero} aria-hidden="true">
        {mix.sides.map(({ role, swatch }) => (
          <i key={role} style={{ '--swatch': swatch }} />
        ))}
      </div>
      {mix.sides.map(({ role, name, hasRemelt, doses }) => (
        <section key={role} class={styles.plain}>
          <h3>{headWords({ role, name })}</h3>
          <ul class={styles.notes}>
            {doses.map(({ material, amount, unit: of, isPinned }) => (
              <li key={material}>
                {mix.materials[material]?.name}: {doseWords(amount, of)}
                {isPinned && ', pinned'}
              </li>
            ))}
          </ul>
          {hasRemelt && <p>Old plastic goes in.</p>}
        </section>
      ))}
      {glowing.length > 0 && <p>Glows, or changes with heat or light: {glowing.join(', ')}.</p>}
      {fresh.length > 0 && <p>New on your shelf: {fresh.join(', ')}.</p>}
    </Sheet>
  );
}
