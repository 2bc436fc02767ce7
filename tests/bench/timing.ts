/** Milliseconds that an act takes. */
export async function msOf(act: () => Promise<unknown> | unknown): Promise<number> {
  const from = performance.now();
  await act();
  return performance.now() - from;
}

/** The value that a share of all values lies at or below. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Times two ways in turn, so that a machine that slows down slows both. */
export async function sideBySide(
  rounds: number,
  ours: () => Promise<unknown> | unknown,
  other: () => Promise<unknown> | unknown,
): Promise<{ ours: number[]; other: number[] }> {
  const times = { ours: [] as number[], other: [] as number[] };
  for (let round = 0; round < rounds; round += 1) {
    times.ours.push(await msOf(ours));
    times.other.push(await msOf(other));
  }
  return times;
}

/** One line of the printed table: a ratio beside its goal. Never a pass or a fail. */
export function report(what: string, ratio: number, goal: string): void {
  console.log(`${what.padEnd(58)} ${ratio.toFixed(2).padStart(7)}   goal ${goal}`);
}
