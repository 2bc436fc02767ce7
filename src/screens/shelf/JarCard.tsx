import type { Units } from '#screens/amounts.ts';
import { hrefTo } from '#screens/routes.ts';
import { JarPicture } from '#screens/shelf/JarPicture.tsx';
import { type Jar, leftWords, reasonWords } from '#screens/shelf/shelf-view.ts';
import styles from './JarCard.module.css';

/** One material on the shelf: its jar to the level, its name and what is left. */
export function JarCard({ jar, units }: { jar: Jar; units: Units }) {
  const { material, share, reason } = jar;
  return (
    <a class={styles.card} href={hrefTo({ at: 'material', materialId: material.id })}>
      <JarPicture share={share} swatch={material.swatch} />
      <b class={styles.name}>{material.name}</b>
      <span class={styles.left}>
        {leftWords(jar, units)}
        {material.isAside && ', set aside'}
      </span>
      {reason && <em class={styles.low}>{reasonWords[reason]}</em>}
    </a>
  );
}
