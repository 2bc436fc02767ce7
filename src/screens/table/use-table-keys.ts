import { useLayoutEffect, useRef } from 'preact/hooks';
import { stageAt, type Table, waitingShot } from '#calc/table.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { Said, ShotId } from '#model/entry.ts';
import { allSaid } from '#screens/table/acts.ts';
import type { Marks } from '#screens/table/use-marks.ts';
import type { SteadyMeaning } from '#screens/table/use-steady-meaning.ts';
import type { SettingsFacts } from '#store/settings.ts';

interface Hand {
  table: Table;
  marks: Marks;
  steady: SteadyMeaning;
  undo: () => void;
  say: (said: Said) => void;
  pedal: SettingsFacts['pedal'];
}

/**
 * The whole table by pedal or keyboard, wherever the focus is: the main key as it stands, Undo (Back
 * while a map is open), and All good for one mould by its number.
 */
export function useTableKeys(hand: Hand): void {
  const shop = useShop();
  const { keys, clock } = shop;
  const latest = useRef(hand);
  latest.current = hand;
  const lastShot = useRef<ShotId | null>(null);
  const { pedal } = hand;
  useLayoutEffect(
    () =>
      keys.listen(pedal, (means) => {
        const { steady, marks, undo } = latest.current;
        if (means === 'press') steady.act(steady.read());
        else if (means !== 'undo') allGood(means);
        else if (!marks.open) undo();
        else {
          marks.closeMap();
          confirm(shop);
        }
      }),
    [keys, pedal],
  );

  function allGood(place: number) {
    const { table, marks, say } = latest.current;
    const seat = table.seats[place - 1];
    const shot = seat && waitingShot(seat);
    const isOpen = shot && stageAt(seat, clock.now()) === 'open';
    // Half-made marks on the open map are not thrown away by a number.
    if (!isOpen || shot.id === marks.open?.shot.id || shot.id === lastShot.current) {
      return refuse(shop);
    }
    const said = allSaid([seat], 'good');
    if (!said) return;
    lastShot.current = shot.id;
    say(said);
    marks.drop(shot.id);
  }
}
