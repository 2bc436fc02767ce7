import { dayOf } from '#calc/days.ts';
import type { Evening } from '#calc/evening.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import type { Carries, Carry } from '#model/settings.ts';
import { volumeWords } from '#screens/volumes.ts';
import { clockWords, dateWords, joined, tempWords } from '#screens/words.ts';
import { pourerOf, type SettingsFacts } from '#store/settings.ts';

export type Field = keyof Carries;

/** An old evening as far as it still exists, beside the shop of now. */
export interface Then {
  evening: Evening;
  moulds: readonly Mould[];
  colours: readonly Colourway[];
  injector: Injector | null;
  /** Set times that their moulds no longer have. */
  setTimes: Evening['setTimes'];
  pourer: string | null;
}

/** One thing that the evening can bring along. */
export interface CarriedRow {
  field: Field;
  name: string;
  /** How it was that evening. */
  was: string;
  /** How the session begins when it is left out, and when the table is to ask. */
  without: string;
  /** Null: the table has no way to ask for it. */
  asks: string | null;
}

interface Shop {
  moulds: readonly Mould[];
  colourways: readonly Colourway[];
  injectors: readonly Injector[];
  settings: SettingsFacts;
}

/** What of the evening is still in the shop; a mould, colour or injector that was taken off is not. */
export function thenOf(evening: Evening, shop: Shop): Then {
  const moulds = found(evening.mouldIds, shop.moulds);
  const setTimes = evening.setTimes.filter(({ mouldId, setSec, hasNoClock }) => {
    const mould = moulds.find(({ id }) => id === mouldId);
    return mould && (mould.setSec !== setSec || mould.hasNoClock !== hasNoClock);
  });
  const { people = [] } = shop.settings;
  const isStillHere = people.length > 1 && people.some((name) => name === evening.pourer);
  return {
    evening,
    moulds,
    colours: found(evening.colourwayIds, shop.colourways),
    injector: shop.injectors.find(({ id }) => id === evening.injectorId) ?? null,
    setTimes,
    pourer: isStillHere ? evening.pourer : null,
  };
}

/** What the evening can bring along, in the order of the table. What it had not makes no row. */
export function carriedRows(then: Then, settings: SettingsFacts): CarriedRow[] {
  const { evening, moulds, colours, injector, setTimes, pourer } = then;
  const { volumeUnit, tempUnit } = settings;
  const row = (
    field: Field,
    name: string,
    [was, without, asks]: [was: string, without: string, asks?: string],
  ): CarriedRow => ({ field, name, was, without, asks: asks ?? null });
  const rows: (CarriedRow | false)[] = [
    moulds.length > 0 &&
      row('moulds', 'Moulds', [joined(moulds.map(({ name }) => name)), 'Choose them below.']),
    colours.length > 0 &&
      row('colours', 'Colours', [
        colours.map(({ name }) => name).join(', then '),
        'One pot without a name.',
        'No pot yet: you mix it at the table.',
      ]),
    evening.potMl !== null &&
      row('pot', 'First pot', [
        volumeWords(evening.potMl, volumeUnit),
        `Your usual ${volumeWords(settings.potMl, volumeUnit)}.`,
      ]),
    injector !== null &&
      row('injector', 'Injector', [injector.name, 'None.', 'None yet: you take one at the table.']),
    setTimes.length > 0 &&
      row('setTimes', 'Set times', [setTimeWords(then), 'As the moulds have them now.']),
    row('pourTemp', 'Poured at', [
      tempWords(evening.pourC, tempUnit),
      `Your usual ${tempWords(settings.pourC, tempUnit)}.`,
      `Your usual ${tempWords(settings.pourC, tempUnit)} until you read the pot.`,
    ]),
    pourer !== null &&
      row('pourer', 'Who pours', [
        pourer,
        `${pourerOf(settings) ?? 'Nobody'}, as always.`,
        'Nobody yet: you tell it at the table.',
      ]),
  ];
  return rows.filter((one) => one !== false);
}

/** What becomes of a row, by the last choice of the person and what is possible. */
export function carryOf({ field, asks }: CarriedRow, carries: Carries): Carry {
  const carry = carries[field] ?? 'as-then';
  return carry === 'asked' && asks === null ? 'as-then' : carry;
}

/** `From Tue 24 Nov`. */
export function fromWords({ at, zone }: Evening, now: number): string {
  return `From ${dateWords(dayOf(at, zone), dayOf(now, zone))}`;
}

function setTimeWords({ setTimes, moulds }: Then): string {
  return setTimes
    .map(({ mouldId, setSec, hasNoClock }) => {
      const name = moulds.find(({ id }) => id === mouldId)?.name ?? '';
      return `${name} ${hasNoClock || setSec === null ? 'by eye' : clockWords(setSec)}`;
    })
    .join(', ');
}

function found<Id extends string, T extends { id: Id }>(
  ids: readonly Id[],
  heads: readonly T[],
): T[] {
  return ids.flatMap((id) => heads.find((head) => head.id === id) ?? []);
}
