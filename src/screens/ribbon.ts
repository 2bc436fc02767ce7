import type { MouldYield, ShotCount } from '#calc/yields.ts';
import { countWords } from '#screens/words.ts';
import type { RibbonShot } from '#ui/ShotRibbon.tsx';

/** The shots of a mould in one row; those of several sessions are counted on. */
export function ribbonOf(own: MouldYield, chosen: number | null = null): RibbonShot[] {
  return shotsOf(own).map((shot, index) => ({
    number: index + 1,
    bad: shot.checked - shot.good,
    of: shot.checked + shot.notChecked,
    isCold: shot.isCold,
    hasUnchecked: shot.notChecked > 0,
    isChosen: chosen === index + 1,
  }));
}

/** The whole ribbon in words. */
export function ribbonWords(own: MouldYield): string {
  const { shots, coldShots, checked, good, notChecked } = own.tally;
  const parts = [`${own.name}, ${countWords(shots, 'shot')}`, `${checked - good} bad`];
  if (coldShots > 0) parts.push(`${coldShots} cold`);
  if (notChecked > 0) parts.push(`${notChecked} not checked`);
  return parts.join(', ');
}

/** One shot of it in words. */
export function shotWords(name: string, shot: RibbonShot): string {
  const parts = [`${name}, shot ${shot.number}: ${shot.bad} bad of ${shot.of}`];
  if (shot.isCold) parts.push('cold');
  if (shot.hasUnchecked) parts.push('not all checked');
  return parts.join(', ');
}

function shotsOf(own: MouldYield): ShotCount[] {
  return own.sessions.flatMap(({ shots }) => shots);
}
