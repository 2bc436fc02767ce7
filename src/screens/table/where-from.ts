import { firstSetSec, type SetClock } from '#calc/set-clock.ts';
import type { Warmth } from '#calc/warmth.ts';
import type { FrozenMould } from '#model/mould.ts';
import type { RoundsLeft } from '#screens/table/rounds-left.ts';
import { exactWords, type VolumeUnit, volumeWords } from '#screens/volumes.ts';
import { clockWords, countWords } from '#screens/words.ts';

/** One sentence for where a set time comes from. */
export function setTimeFrom({ from, opens }: SetClock): string {
  switch (from) {
    case 'no-clock':
      return 'Your choice: you open by eye.';
    case 'chosen':
      return 'Your choice for this mould.';
    case 'own-opens':
      return `Median of your ${opens} opens.`;
    case 'predicted':
      return 'Worked out from its thickest part.';
    case 'too-warm':
      return 'The longest clock: this mould is too warm.';
    default:
      return `Our start value: ${clockWords(firstSetSec)}.`;
  }
}

/** Where a mould's temperature comes from, and where its cold line does. */
export function mouldTempFrom(
  { readings, massFrom }: Warmth,
  { warmAboveK, warmFrom }: Pick<FrozenMould, 'warmAboveK' | 'warmFrom'>,
): string {
  const isOwn = warmFrom === 'temperature' || warmFrom === 'shots';
  const line =
    warmAboveK === null ? '' : ` Cold line: ${isOwn ? 'its own shots' : 'our start value'}.`;
  if (readings > 0) return `From your ${countWords(readings, 'reading')} and its shots.${line}`;
  return massFrom === 'weighed'
    ? `Worked out from its weight and shots.${line}`
    : `Worked out; its weight is our guess.${line}`;
}

/** One sentence for where the temperature of a pot comes from. */
export function potTempFrom(readC: number | null): string {
  return readC === null ? 'From your shop settings.' : 'Your last reading of this pot.';
}

/** One sentence for where a pot's volume comes from, and one for its rounds. */
export function potFrom(
  mixedMl: number,
  unit: VolumeUnit,
  left: RoundsLeft | null | undefined,
): [volume: string, rounds: string] {
  const own = left?.isGuess ? ': our guess' : '';
  return [
    `Your mix of ${volumeWords(mixedMl, unit)}, less what was poured.`,
    left
      ? `Rounds: ${exactWords(left.eachMl, unit)} each, ${exactWords(left.staysMl, unit).split(' ')[0]} stay in${own}.`
      : '',
  ];
}

/** What a volume was preset by: tonight, an earlier session, or nothing of the person's log. */
export type VolumeFrom = 'tonight' | 'earlier' | 'settings';

/** One sentence for where the volume of a fresh mix comes from. */
export function mixVolumeFrom(words: string, isPreset: boolean, from: VolumeFrom): string {
  if (!isPreset) return `You chose ${words}.`;
  if (from === 'settings') return `From your shop settings: ${words}.`;
  return from === 'tonight' ? `Your last mix: ${words}.` : `Last session: ${words}.`;
}
