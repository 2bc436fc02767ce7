/** A lower triangle L with L L' equal to a symmetric matrix, row by row. */
export type Triangle = readonly (readonly number[])[];

/**
 * The Cholesky factor of a symmetric matrix, of which only the lower half is read; null unless it
 * is clearly positive definite.
 */
export function cholesky(matrix: readonly (readonly number[])[]): Triangle | null {
  const factor: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const own: number[] = [];
    for (let j = 0; j <= i; j++) {
      const other = j === i ? own : (factor[j] ?? []);
      let sum = row[j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (own[k] ?? 0) * (other[k] ?? 0);
      if (j < i) {
        own.push(sum / (other[j] ?? 1));
        continue;
      }
      // What is left of a column after the others is rounding when the columns are tangled.
      if (!(sum > 1e-12 * (row[i] ?? 0))) return null;
      own.push(Math.sqrt(sum));
    }
    factor.push(own);
  }
  return factor;
}

/** The vector y with L y = v. */
export function forwardSolved(factor: Triangle, v: readonly number[]): number[] {
  const y: number[] = [];
  for (const [i, row] of factor.entries()) {
    let sum = v[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (row[k] ?? 0) * (y[k] ?? 0);
    y.push(sum / (row[i] ?? 1));
  }
  return y;
}

/** The vector u with L L' u = v. */
export function solved(factor: Triangle, v: readonly number[]): number[] {
  const u = forwardSolved(factor, v);
  for (let i = u.length - 1; i >= 0; i--) {
    let sum = u[i] ?? 0;
    for (let k = i + 1; k < u.length; k++) sum -= (factor[k]?.[i] ?? 0) * (u[k] ?? 0);
    u[i] = sum / (factor[i]?.[i] ?? 1);
  }
  return u;
}

/** Natural logarithm of the determinant of the matrix behind the factor. */
export function logDeterminant(factor: Triangle): number {
  let sum = 0;
  for (const [i, row] of factor.entries()) sum += 2 * Math.log(row[i] ?? 1);
  return sum;
}
