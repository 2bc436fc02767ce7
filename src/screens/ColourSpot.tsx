import { type Lab, rgb255FromLab } from '#calc/colour.ts';
import styles from './ColourSpot.module.css';

interface Props {
  lab: Readonly<Lab>;
  words: string;
  small?: string;
  /** A guess has a soft edge: where it ends is not known. */
  isGuess?: boolean;
}

/** A colour beside its words; the words say all that the colour says. */
export function ColourSpot({ lab, words, small, isGuess }: Props) {
  return (
    <p class={styles.spot} data-guess={isGuess || undefined}>
      <i aria-hidden="true" style={{ '--swatch': cssColour(lab) }} />
      <span>
        {words}
        {small && <small>{small}</small>}
      </span>
    </p>
  );
}

/** A colour as a screen takes it. The style sheets' own Lab has another white: never that. */
export function cssColour(lab: Readonly<Lab>): string {
  const [r, g, b] = rgb255FromLab(lab).map(Math.round);
  return `rgb(${r} ${g} ${b})`;
}
