/**
 * Solves T x = right for a symmetric positive definite Toeplitz matrix given by its first row, by Levinson's recursion
 * (Levinson 1946; Golub & Van Loan, Matrix Computations, algorithm 4.7.2). Stops early, with zeros behind, where rounding makes T singular.
 */
export function solveToeplitz(row: Float64Array, right: Float64Array): Float64Array {
  const count = right.length;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
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
    let [sumX, sumY] = [0, 0];
    for (let i = 0, j = k; i < k; i++, j--) {
      sumX += r[j]! * x[i]!;
      sumY += r[j]! * y[i]!;
    }
    const mu = (right[k]! / scale - sumX) / beta;
    const last = k === count - 1;
    alpha = last ? 0 : (-r[k + 1]! - sumY) / beta;
    // Both ends towards the middle, so that each number is fetched once.
    for (let i = 0, j = k - 1; i <= j; i++, j--) {
      const low = y[i]!;
      const high = y[j]!;
      x[i]! += mu * high;
      y[i] = low + alpha * high;
      if (i === j) break;
      x[j]! += mu * low;
      y[j] = high + alpha * low;
    }
    x[k] = mu;
    y[k] = alpha;
  }
  return x;
}
