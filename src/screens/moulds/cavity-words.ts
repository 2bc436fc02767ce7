import { type CavityVerdicts, cavityVerdicts } from '#calc/cavities.ts';
import { moreShotsToTell } from '#calc/cavity-outlook.ts';
import { cavityMatrix, type LoggedShot } from '#calc/mould-shots.ts';
import type { Instant } from '#model/schemas.ts';
import { countWords } from '#screens/words.ts';

/** What may be said of the cavities of a mould, in words. */
export interface CavitySaid {
  /** The cavity that fails most beyond its neighbours; null: none stands out. */
  worst: number | null;
  /** True once shots enough told the cavities apart, so that the bare counts are no hint any more. */
  isJudged: boolean;
  /** The claim, or that there is none; null: a mould of one cavity is not asked. */
  lead: string | null;
  rest: string;
}

/** What the shots say of the cavities: bad ones of any kind, each held against its neighbours. */
export function cavitySaid(
  shots: readonly LoggedShot[],
  since: ReadonlyMap<number, Instant>,
): CavitySaid {
  const matrix = cavityMatrix(shots, 'bad', since);
  const verdicts = cavityVerdicts(matrix);
  const nothing = { worst: null, isJudged: false, lead: null, rest: '' };
  if (shots.length === 0 || verdicts.kind === 'one-cavity') return nothing;
  if (verdicts.kind === 'nothing-telling') {
    return { ...nothing, lead: 'No shot so far tells the cavities apart.' };
  }
  const telling = countWords(verdicts.tellingShots, 'shot');
  const out = standingOut(verdicts);
  const [first] = out;
  if (first) {
    const also = out.slice(1).map(({ number }) => number);
    return {
      worst: first.number,
      isJudged: true,
      lead: `Cavity ${first.number} fails more than its neighbours.`,
      rest: `Bad in ${first.seen} of the ${countWords(first.telling, 'shot')} that tell cavities apart. By luck alone we'd expect ${wholeWords(first.expected)}.${also.length > 0 ? ` So ${also.length === 1 ? 'does cavity' : 'do cavities'} ${also.join(' and ')}.` : ''}`,
    };
  }
  if (verdicts.cavities.every(({ verdict }) => verdict === 'too-early')) {
    const more = moreShotsToTell(matrix);
    return {
      ...nothing,
      lead: 'Too early to tell the cavities apart.',
      rest: more === null || more === 0 ? '' : `About ${countWords(more, 'more shot')}.`,
    };
  }
  return verdicts.isAlike
    ? {
        ...nothing,
        isJudged: true,
        lead: 'All cavities look alike so far.',
        rest: 'One that fails 30 points more often would probably have shown by now.',
      }
    : {
        ...nothing,
        isJudged: true,
        lead: `No cavity stands out in the ${telling} that tell them apart.`,
      };
}

/** The cavities that stand out, the clearest first. `kinds`: how many defects are looked at. */
export function standingOut(
  verdicts: Extract<CavityVerdicts, { kind: 'judged' }>,
  kinds = 1,
): { number: number; seen: number; telling: number; expected: number }[] {
  return verdicts.cavities
    .map((cavity, index) => ({ ...cavity, number: index + 1 }))
    .filter(({ verdict, holmP }) => verdict === 'stands-out' && holmP * kinds <= 0.05)
    .sort((a, b) => a.holmP - b.holmP);
}

function wholeWords(expected: number): string {
  if (expected < 1) return 'fewer than 1';
  const [low, high] = [Math.floor(expected), Math.ceil(expected)];
  const near = Math.abs(expected - Math.round(expected)) < 0.25;
  return near ? String(Math.round(expected)) : `${low} or ${high}`;
}
