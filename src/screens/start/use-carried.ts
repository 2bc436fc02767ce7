import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Carry } from '#model/settings.ts';
import {
  type CarriedRow,
  carriedRows,
  carryOf,
  type Field,
  type Then,
} from '#screens/start/carried.ts';
import { changeSettings, type SettingsFacts, settingsOf } from '#store/settings.ts';
import type { Beginning } from '#store/start.ts';

/**
 * What is taken over from an old evening, thing by thing. The person's choice is kept for the next
 * time; a thing that is chosen by hand below stands in no row and changes nothing of that.
 */
export function useCarried(then: Then | null, settings: SettingsFacts) {
  const { book, clock } = useShop();
  const [carries, setCarries] = useState(settings.carries ?? {});
  const [byHand, setByHand] = useState<readonly Field[]>([]);
  const all = then ? carriedRows(then, settings) : [];
  const carryNow = (row: CarriedRow): Carry | null =>
    byHand.includes(row.field) ? null : carryOf(row, carries);
  const carried = (field: Field): Carry | null => {
    const row = all.find((one) => one.field === field);
    return row ? carryNow(row) : null;
  };
  const hasNoPot = carried('colours') === 'asked';

  function choose(field: Field, carry: Carry) {
    setByHand(byHand.filter((other) => other !== field));
    setCarries({ ...carries, [field]: carry });
    // The session does not wait for it, and begins without it too.
    void (async () => {
      const { carries: kept } = await settingsOf(book);
      await changeSettings(book, { carries: { ...kept, [field]: carry } }, clock.now());
    })().catch(() => {});
  }

  /** What the old evening adds to how a session begins. */
  function beginning(): Partial<Beginning> {
    if (!then) return {};
    const { evening, setTimes, pourer } = then;
    const isAsThen = (field: Field) => carried(field) === 'as-then';
    return {
      hasNoPot,
      ...(isAsThen('pot') && evening.potMl !== null ? { potMl: evening.potMl } : {}),
      ...(isAsThen('pourTemp') ? { pourC: evening.pourC } : {}),
      ...(isAsThen('setTimes') ? { setTimes } : {}),
      ...(isAsThen('pourer') ? { pourer } : carried('pourer') === 'asked' ? { pourer: null } : {}),
    };
  }

  return {
    // Without a pot, nothing can be said of what it holds.
    rows: all.filter(({ field }) => !(hasNoPot && field === 'pot')),
    carryNow,
    carried,
    choose,
    chosenByHand: (field: Field) => setByHand([...byHand, field]),
    beginning,
    asks: all.map(({ field }) => field).filter((field) => carried(field) === 'asked'),
  };
}
