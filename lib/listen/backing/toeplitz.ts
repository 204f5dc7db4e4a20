/**
 * Solves T x = right for a symmetric positive definite Toeplitz matrix given by its first row, by Levinson's recursion
 * (Levinson 1946; Golub & Van Loan, Matrix Computations, algorithm 4.7.2). Stops early, with zeros behind, where rounding makes T singular.
 */
export function solveToeplitz(row: Float64Array, right: Float64Array): Float64Array {
  const count = right.length;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const before = new Float64Array(count);
  const scale = row[0]!;
  if (!(scale > 0)) return x;
  const r = row.map((value) => value / scale);
  x[0] = right[0]! / scale;
  y[0] = -(r[1] ?? 0);
  let beta = 1;
  let alpha = -(r[1] ?? 0);
  for (let k = 1; k < count; k++) {
    beta *= 1 - alpha * alpha;
    if (!(beta > 1e-14)) break;
    let sum = right[k]! / scale;
    for (let i = 0; i < k; i++) sum -= r[k - i]! * x[i]!;
    const mu = sum / beta;
    for (let i = 0; i < k; i++) x[i]! += mu * y[k - 1 - i]!;
    x[k] = mu;
    if (k === count - 1) break;
    sum = -r[k + 1]!;
    for (let i = 0; i < k; i++) sum -= r[k - i]! * y[i]!;
    alpha = sum / beta;
    before.set(y);
    for (let i = 0; i < k; i++) y[i]! += alpha * before[k - 1 - i]!;
    y[k] = alpha;
  }
  return x;
}
