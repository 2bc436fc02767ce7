import { dayOf } from '#calc/days.ts';
import { useShop } from '#live/shop.ts';
import type { Colourway } from '#model/gear.ts';
import type { Remark } from '#model/photo.ts';
import { remarkWords } from '#screens/remark-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './WaterNotes.module.css';

/** A note that names a mould, with its colour; null: the colour is not in the logbook any more. */
export interface MouldNote {
  remark: Remark;
  colourway: Colourway | null;
}

/** How the baits of one mould did, as its notes say; the newest first. */
export function WaterNotes({ notes }: { notes: readonly MouldNote[] }) {
  const { clock } = useShop();
  if (notes.length === 0) return null;
  const [zone, today] = [clock.zone(), dayOf(clock.now(), clock.zone())];
  return (
    <Sheet title="Notes on its baits">
      <ul class={styles.notes}>
        {notes.map(({ remark: { id, kind, text, createdAt }, colourway }) => (
          <li key={id}>
            <b>
              {remarkWords[kind]}, {dateWords(dayOf(createdAt, zone), today)}
            </b>
            <span>{text}</span>
            {colourway && (
              <ActKey href={hrefTo({ at: 'colour', colourwayId: colourway.id })}>
                {colourway.name}
              </ActKey>
            )}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
