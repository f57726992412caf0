/** Small symmetric matrices: solving and determinants by Cholesky's method (textbook, from memory). */

/** L with A = L L'; null unless A is positive definite. */
function cholesky(a: readonly (readonly number[])[]): number[][] | null {
  const root = a.map(() => new Array<number>(a.length).fill(0));
  for (let i = 0; i < a.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= root[i]![k]! * root[j]![k]!;
      if (i > j) root[i]![j] = sum / root[j]![j]!;
      else if (sum > 1e-12 * Math.abs(a[i]![i]!)) root[i]![i] = Math.sqrt(sum);
      else return null;
    }
  }
  return root;
}

/** x with A x = b; null unless A is positive definite. */
export function solve(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const root = cholesky(a);
  if (root === null) return null;
  const x = [...b];
  for (let i = 0; i < x.length; i++) {
    for (let k = 0; k < i; k++) x[i]! -= root[i]![k]! * x[k]!;
    x[i]! /= root[i]![i]!;
  }
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i]! -= root[k]![i]! * x[k]!;
    x[i]! /= root[i]![i]!;
  }
  return x;
}

/** ln of the determinant of A; null unless A is positive definite. */
export function logDeterminant(a: readonly (readonly number[])[]): number | null {
  const root = cholesky(a);
  return root === null ? null : root.reduce((sum, row, i) => sum + 2 * Math.log(row[i]!), 0);
}

/** -A */
export function negated(a: readonly (readonly number[])[]): number[][] {
  return a.map((row) => row.map((value) => -value));
}
