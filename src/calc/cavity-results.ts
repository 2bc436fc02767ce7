/** Shots by cavities: 1 has the defect, 0 has not, null was not recorded. */
export type CavityResults = readonly (readonly (0 | 1 | null)[])[];

/** How many cavities of one shot had the defect, of how many recorded. */
export interface Counted {
  failed: number;
  recorded: number;
}

/** Per telling shot the chance q of an ordinary cavity, and how often this one failed. */
export interface Told {
  q: number[];
  seen: number;
}

/**
 * How many cavities the mould has, by its shots. Throws a RangeError for rows of unequal length or
 * a result other than 0, 1 and null.
 */
export function cavitiesOf(matrix: CavityResults): number {
  const cavities = matrix[0]?.length ?? 0;
  for (const shot of matrix) {
    if (shot.length !== cavities)
      throw new RangeError('The shots differ in how many cavities they list.');
    for (const result of shot) {
      if (result !== 0 && result !== 1 && result !== null) {
        throw new RangeError(`A cavity result is 0, 1 or null, not ${result}.`);
      }
    }
  }
  return cavities;
}

/** The defects of one shot, unrecorded cavities left out. */
export function failedIn(shot: readonly (0 | 1 | null)[]): Counted {
  let failed = 0;
  let recorded = 0;
  for (const result of shot) {
    if (result === null) continue;
    recorded += 1;
    failed += result;
  }
  return { failed, recorded };
}

/** True for a shot with some but not all cavities defective: only such shots tell them apart. */
export function isTelling({ failed, recorded }: Counted): boolean {
  return failed > 0 && failed < recorded;
}

/** Per cavity, what the telling shots say of it. Errors as `cavitiesOf`. */
export function tellings(matrix: CavityResults): Told[] {
  const told = Array.from({ length: cavitiesOf(matrix) }, (): Told => ({ q: [], seen: 0 }));
  for (const shot of matrix) {
    const counted = failedIn(shot);
    if (!isTelling(counted)) continue;
    for (const [at, cavity] of told.entries()) {
      const result = shot[at] ?? null;
      if (result === null) continue;
      cavity.q.push(counted.failed / counted.recorded);
      cavity.seen += result;
    }
  }
  return told;
}
