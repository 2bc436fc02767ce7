import { wholeFrom } from '#calc/counts.ts';
import { largestRemainder } from '#calc/dose.ts';
import { finite, notNegative, positive, zeroToOne } from '#calc/range.ts';

/** What went into a batch of baits and what it cost, in cents. */
export interface Batch {
  /** Baits that can be sold. */
  good: number;
  partMl: number;
  pouredMl: number;
  /** Sprues and bad baits that go back to the remelt jar. */
  remeltBackMl: number;
  plastisolCentsPerMl: number;
  colourCentsPerMl: number;
  /** What remelt is worth by the side of new plastisol, 0..1 (a working value). */
  remeltValueShare?: number;
  /** Bag and label, for each bait. */
  bagCents?: number;
  timeMin?: number;
  timeCentsPerMin?: number;
}

/** Cents of a good bait by what they went into, and of the batch; the five add up to `perBait`. */
export interface BaitCost {
  plastic: number;
  colour: number;
  lost: number;
  bag: number;
  time: number;
  perBait: number;
  total: number;
}

/**
 * Cost of one good bait: all that was poured, less the worth of the remelt, plus bags and time.
 * RangeError without a good bait, for negative figures, or when less was poured than came out.
 */
export function baitCost(batch: Batch): BaitCost {
  const good = wholeFrom(1, 'good', batch.good);
  const partMl = positive('partMl', batch.partMl);
  const price = {
    plastic: notNegative('plastisolCentsPerMl', batch.plastisolCentsPerMl),
    colour: notNegative('colourCentsPerMl', batch.colourCentsPerMl),
  };
  const bag = notNegative('bagCents', batch.bagCents ?? 0);
  const minutes = notNegative('timeMin', batch.timeMin ?? 0);
  const time = (minutes * notNegative('timeCentsPerMin', batch.timeCentsPerMin ?? 0)) / good;
  const plastic = partMl * price.plastic;
  const colour = partMl * price.colour;
  const lost = (lostMl(batch) * (price.plastic + price.colour)) / good;
  const perBait = finite('perBait', plastic + colour + lost + bag + time);
  return { plastic, colour, lost, bag, time, perBait, total: finite('total', perBait * good) };
}

/**
 * Parts of a cost in whole cents that add up to the total as shown, itself rounded.
 * RangeError for a negative part, or a total with no parts.
 */
export function shownCents(parts: readonly number[], total: number): number[] {
  return largestRemainder(parts, Math.round(notNegative('total', total)));
}

/** What was poured and is in no bait; what goes back as remelt is lost only in part. */
function lostMl(batch: Batch): number {
  const poured = positive('pouredMl', batch.pouredMl);
  const back = notNegative('remeltBackMl', batch.remeltBackMl);
  const inBaits = batch.good * batch.partMl;
  const left = poured - inBaits - back;
  if (left < -1e-9 * poured) {
    throw new RangeError(
      `${inBaits} mL of baits and ${back} mL of remelt came out of ${poured} mL.`,
    );
  }
  const worth = zeroToOne('remeltValueShare', batch.remeltValueShare ?? 0.5);
  return Math.max(poured - inBaits, 0) - back * worth;
}
