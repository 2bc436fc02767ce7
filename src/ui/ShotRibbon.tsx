import styles from './ShotRibbon.module.css';

export interface RibbonShot {
  number: number;
  bad: number;
  of: number;
  isCold: boolean;
  hasUnchecked: boolean;
  isChosen?: boolean;
}

interface Props {
  shots: readonly RibbonShot[];
  /** The whole picture in words. */
  label: string;
  /** `low`: as one of several on a page. */
  height?: 'low';
  /** Leaves the shot numbers out. */
  isBare?: boolean;
  /** Makes every shot a key. */
  onPress?: (number: number) => void;
  /** How one shot is read out, when shots are keys. */
  nameOf?: (shot: RibbonShot) => string;
}

/** Every shot as an outline: ink from the top is bad, a thick foot is cold, dots are not checked. */
export function ShotRibbon({ shots, label, height, isBare, onPress, nameOf }: Props) {
  return (
    <ol
      class={styles.shots}
      data-height={height}
      data-bare={isBare || undefined}
      aria-label={label}
    >
      {shots.map((shot, index) => (
        <li
          key={shot.number}
          data-cold={shot.isCold || undefined}
          data-unchecked={shot.hasUnchecked || undefined}
          data-chosen={shot.isChosen || undefined}
          style={{ '--bad': shot.bad, '--of': Math.max(1, shot.of) }}
        >
          {onPress ? (
            <button
              type="button"
              aria-pressed={shot.isChosen ?? false}
              aria-label={nameOf?.(shot) ?? `Shot ${shot.number}`}
              onClick={() => onPress(shot.number)}
            >
              <i />
            </button>
          ) : (
            <i />
          )}
          {!isBare && (
            <span aria-hidden="true">
              {index === 0 || shot.number % 5 === 0 ? shot.number : ''}
            </span>
          )}
        </li>
      ))}
    </ol>
  );
}
