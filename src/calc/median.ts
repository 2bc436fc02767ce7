/** The middle of some values: between the two middle ones when they are even in number; NaN of none. */
export function median(values: readonly number[]): number {
  const inOrder = values.toSorted((a, b) => a - b);
  const middle = inOrder.length / 2;
  const upper = inOrder[Math.floor(middle)] ?? Number.NaN;
  return Number.isInteger(middle) ? ((inOrder[middle - 1] ?? upper) + upper) / 2 : upper;
}
