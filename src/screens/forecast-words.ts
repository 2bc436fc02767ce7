import { relativeStrength, type Verdict } from '#calc/balance.ts';
import type { FlakeLook } from '#calc/flake-look.ts';
import type { ColourShop } from '#calc/shop-colours.ts';
import type { ShopGuess } from '#calc/shop-forecast.ts';
import type { Mix } from '#model/mix.ts';
import { type LengthUnit, rangeWords } from '#screens/lengths.ts';
import { countWords, joined } from '#screens/words.ts';

/** What a typical miss looks like. */
const missWords = {
  close: 'Usually close.',
  near: 'Usually near.',
  rough: 'Usually off by a clearly visible step.',
} as const;

/** A guess in words, or why there is none. `nameOf` gives the name of a colourant. */
export function guessWords(
  guess: ShopGuess,
  nameOf: (id: string) => string,
  unit: LengthUnit = 'mm',
): string {
  if (guess.kind === 'guess') {
    const from = guess.photos > 0 ? ` from ${countWords(guess.photos, 'photo')} of yours` : '';
    return `Guess${from}. ${missWords[guess.word]}`;
  }
  const names = 'colourantIds' in guess ? joined(guess.colourantIds.map(nameOf)) : '';
  return `No guess: ${whyWords(guess, names, unit)}`;
}

function whyWords(
  guess: Exclude<ShopGuess, { kind: 'guess' }>,
  names: string,
  unit: LengthUnit,
): string {
  const isOne = 'colourantIds' in guess && guess.colourantIds.length === 1;
  switch (guess.why) {
    case 'no swatch':
      return `${names} ${isOne ? 'has' : 'have'} no swatch yet. Photograph a bait with it alone on the card.`;
    case 'glows or changes':
      return `${names} ${isOne ? 'glows or changes' : 'glow or change'} with light or heat. No forecast covers that.`;
    case 'remelt without a swatch':
      return 'old plastic goes in that has no swatch of its own.';
    case 'far from the swatch':
      return isOne
        ? `the dose of ${names} is far from the one on its card. Photograph a bait nearer to it.`
        : `the doses of ${names} are far from those on their cards. Photograph baits nearer to them.`;
    case 'not weighed':
      return isOne
        ? `the dose of ${names} is in a unit its card was not read in. Dose it in drops or spoons.`
        : `the doses of ${names} are in units their cards were not read in. Dose them in drops or spoons.`;
    case 'unusual body':
      return `the method was tried on baits of ${rangeWords(5, 15, unit)} only.`;
    case 'too unsure':
      return 'forecasts of mixes like this were too far from your photos.';
  }
}

/** What the evenings say of a laminate's balance, and what to do about it. */
export function balanceWords(
  verdicts: readonly Verdict[],
  [a, b]: readonly [string, string],
): string {
  if (verdicts.length === 0) return 'Which side wins is not known yet: say it after a pour.';
  const won = (verdict: Verdict) => verdicts.filter((one) => one === verdict).length;
  const pours = countWords(verdicts.length, 'pour');
  const strength = relativeStrength(verdicts);
  if (strength === 1) return `Even so far, in ${pours}.`;
  const [stronger, weaker, wins] = strength > 1 ? [a, b, won('a-won')] : [b, a, won('b-won')];
  const times = wins === 0 ? '' : ` It won in ${wins} of ${pours}.`;
  return `${stronger} is the stronger side.${times} A little more in ${weaker} evens it out.`;
}

/** How much of a bait its flake covers, in words. */
export function flakeWords(look: FlakeLook | null): string {
  if (!look) return '';
  const left = look.isPartial ? 'Flake without a size or look is left out.' : '';
  if (look.cover === 0) return left;
  const how = look.hidesBody ? 'Flake hides the bait: this is the flake.' : coverWords(look.cover);
  return [how, left].filter(Boolean).join(' ');
}

function coverWords(cover: number): string {
  if (cover < 0.1) return 'A little flake shows.';
  if (cover < 0.29) return 'Flake covers about a fifth of it.';
  return `Flake covers about ${cover < 0.42 ? 'a third' : 'half'} of it.`;
}

/** What else a guess leaves out. */
export function leftOutWords({ materials }: ColourShop, mix: Mix): string[] {
  const kinds = mix.sides.flatMap(({ doses }) =>
    doses.flatMap((dose) => materials.find(({ id }) => id === dose.materialId)?.kind ?? []),
  );
  return kinds.includes('salt') ? ['Salt clouds a bait. It is left out here.'] : [];
}
