import { cavityCount, pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { Mould } from '#model/mould.ts';
import { countWords } from '#screens/words.ts';
import { GridPicture } from '#ui/GridPicture.tsx';
import styles from './MouldKey.module.css';

interface Props {
  mould: Mould;
  /** Its place among the chosen ones, from 1; 0: not chosen. */
  place: number;
  onPress: () => void;
}

/** A mould to choose; a chosen one carries its number. */
export function MouldKey({ mould, place, onPress }: Props) {
  const { name, layout, opens, closed } = mould;
  const cells = spotsOf(layout, opens).map((spot) => ({
    ...spot,
    number: spot.cavity,
    share: 0,
    isClosed: closed.includes(spot.cavity),
  }));
  return (
    <button type="button" class={styles.mould} aria-pressed={place > 0} onClick={onPress}>
      <GridPicture {...pictureSize(layout)} size="small" cells={cells} />
      <b>{name}</b>
      <span class="said"> {countWords(cavityCount(layout), 'cavity', 'cavities')}</span>
      {place > 0 && (
        <>
          <span class="said"> mould </span>
          <i>{place}</i>
        </>
      )}
    </button>
  );
}
