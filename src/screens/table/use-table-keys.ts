import { useLayoutEffect, useRef } from 'preact/hooks';
import { stageAt, type Table, waitingShot } from '#calc/table.ts';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import type { Said, ShotId } from '#model/entry.ts';
import { allSaid } from '#screens/table/acts.ts';
import type { KeyWalk } from '#screens/table/use-key-walk.ts';
import type { Marks } from '#screens/table/use-marks.ts';
import type { SteadyMeaning } from '#screens/table/use-steady-meaning.ts';
import type { Walk } from '#screens/table/use-walk.ts';
import type { SettingsFacts } from '#store/settings.ts';

interface Hand {
  table: Table;
  marks: Marks;
  steady: SteadyMeaning;
  walk: Walk;
  keyWalk: KeyWalk;
  undo: () => void;
  bringBack: () => void;
  say: (said: Said) => void;
  pedal: SettingsFacts['pedal'];
}

/**
 * The whole table by pedal or keyboard, wherever the focus is: the main key as it stands, Undo (Back
 * while a map is open), and All good for one mould by its number. A pedal that stays down on All good
 * takes that back and walks the map instead; one that stays down on Undo brings back what it took and
 * walks all keys of the table.
 */
export function useTableKeys(hand: Hand): void {
  const shop = useShop();
  const { keys, clock } = shop;
  const latest = useRef(hand);
  latest.current = hand;
  const lastShot = useRef<ShotId | null>(null);
  /** The first shot that the last press called all good; null: it did something else. */
  const pressedGood = useRef<ShotId | null>(null);
  /** Whether the press that is still heard took a line back. */
  const pressedUndo = useRef(false);
  const { pedal } = hand;
  useLayoutEffect(
    () =>
      keys.listen(pedal, (heard) => {
        const { walk, keyWalk, marks, undo } = latest.current;
        if (heard !== 'undo-held') pressedUndo.current = false;
        if (heard === 'press') press();
        else if (heard === 'held') hold();
        else if (heard === 'undo-held') holdUndo();
        else if (heard !== 'undo') allGood(heard);
        else if (keyWalk.isOn) keyWalk.back();
        else if (!marks.open) {
          pressedUndo.current = true;
          undo();
        } else if (!walk.back()) {
          marks.closeMap();
          confirm(shop);
        }
      }),
    [keys, pedal],
  );

  function press() {
    const { table, walk, keyWalk, marks, steady } = latest.current;
    pressedGood.current = null;
    if (keyWalk.isOn) return keyWalk.next();
    if (walk.cavity !== null) return walk.next();
    const painted = steady.read();
    const isGood = painted.meaning.means === 'good' && !marks.open;
    const open = table.seats.find((seat) => stageAt(seat, clock.now()) === 'open');
    if (isGood) pressedGood.current = (open && waitingShot(open)?.id) ?? null;
    steady.act(painted);
  }

  /** The press of a foot that is still down was heard a second ago: it is taken back, or marks what it passed. */
  function hold() {
    const { table, walk, keyWalk, marks, undo } = latest.current;
    if (keyWalk.isOn) return keyWalk.pressLast();
    if (marks.open) return walk.markLast();
    const shotId = pressedGood.current;
    const said = table.undoes?.said;
    const isLast = said?.kind === 'opened' && said.shots.some((shot) => shot.shotId === shotId);
    if (!shotId || !isLast) return;
    undo();
    marks.openMap(shotId);
    walk.begin(shotId);
  }

  /** Undo was heard a second ago: what it took comes again. In the walk it had gone one key back. */
  function holdUndo() {
    const { keyWalk, bringBack } = latest.current;
    if (keyWalk.isOn) return keyWalk.end();
    if (pressedUndo.current) bringBack();
    keyWalk.begin();
  }

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
