import type { MouldDrift } from '#calc/mould-drift.ts';
import { countWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';

/** A mould whose lately can be held against its normal. */
export type Watch = Extract<MouldDrift, { kind: 'watched' }>;

const rareNamed = 3;

/** Why nothing can be said of lately. */
export function noNormalWords({ baseline }: Extract<MouldDrift, { kind: 'no-normal' }>): string {
  const { kind, shots, failures, needed, goodBeforeFirst } = baseline;
  if (kind === 'too-few-shots') {
    return `Too early to know what is normal: ${shots} of ${needed} warm shots.`;
  }
  if (failures === 0)
    return `Nothing bad in ${goodBeforeFirst} so far: no normal to hold shots against.`;
  return `Too few bad ones to know what is normal: ${failures} of ${needed} in ${shots} shots.`;
}

/** Whether it runs as usual, the claim first. */
export function watchWords(
  found: Watch,
  day: (at: number) => string,
): [lead: string, rest: string] {
  const { normal, watched, passed, drift } = found;
  const usual = `${Math.round(normal.p0 * 100)} of 100`;
  if (drift.kind !== 'as-usual') {
    const at = watched[drift.sinceShot]?.filledAt ?? 0;
    return [
      `Something changed around shot ${drift.sinceShot + 1}, ${day(at)}.`,
      `${hundred(drift.failures, drift.total)} bad since then, ${drift.kind === 'above' ? 'more' : 'fewer'} than the normal ${usual}.`,
    ];
  }
  const counted = watched.slice(passed);
  if (counted.length === 0) return ['Counted anew.', 'No warm shot since then.'];
  const sum = (of: 'bad' | 'of') => counted.reduce((all, shot) => all + shot[of], 0);
  const since = passed > 0 ? `in ${countWords(counted.length, 'shot')} since then` : 'lately';
  return [
    'Running as usual.',
    `${hundred(sum('bad'), sum('of'))} bad ${since}, normally ${usual}.`,
  ];
}

/** Shots that were odd by themselves, which alone is no sign of a change; empty: none was. */
export function rareWords({ watched }: Watch, day: (at: number) => string): string {
  const rare = watched.flatMap((shot, index) => (shot.isRare ? [{ ...shot, index }] : []));
  if (rare.length === 0) return '';
  const named = rare
    .slice(-rareNamed)
    .map(
      ({ index, filledAt, bad, of }) =>
        `shot ${index + 1}, ${day(filledAt)}, ${ofWords(bad, of)} bad`,
    );
  const lead =
    rare.length === 1
      ? 'One shot alone was odd'
      : rare.length > rareNamed
        ? `${rare.length} single shots were odd, the last`
        : `${rare.length} single shots were odd`;
  return `${lead}: ${named.join('; ')}. That alone is no change.`;
}

/** To what a person keeps in mind: two figures. */
export function rounded(shots: number): number {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(shots)) - 1);
  return Math.round(shots / step) * step;
}

/** `11 of 100 (35 of 320)`: what two shares are held against, with the count behind it. */
function hundred(bad: number, of: number): string {
  return `${Math.round((100 * bad) / Math.max(1, of))} of 100 (${ofWords(bad, of)})`;
}
