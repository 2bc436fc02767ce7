import { type Chance, shotChance } from './seeded.ts';

/** Results of shots by cavities: 1 where the cavity failed; cavity 0 may be worse than the rest. */
export function mouldResults(
  chance: Chance,
  { shots, cavities, bad, rho, firstBad = bad }: MouldCourse,
): (0 | 1)[][] {
  return Array.from({ length: shots }, () => {
    const of = shotChance(chance, bad, rho);
    return Array.from({ length: cavities }, (_, cavity): 0 | 1 => {
      const own = cavity === 0 ? of + ((firstBad - bad) * (1 - of)) / (1 - bad) : of;
      return chance() < own ? 1 : 0;
    });
  });
}

/** How a mould runs: chance of a defect, and how alike the cavities of a shot are. */
export interface MouldCourse {
  shots: number;
  cavities: number;
  bad: number;
  rho: number;
  firstBad?: number;
}
