/** Highest order of the fixed predictors, which are differences (RFC 9639, section 9.2.5). */
const MOST_FIXED = 4;

/** The fixed predictor that leaves the least: its order and the mean size of a difference. */
export function bestDifference(x: Float64Array): { readonly order: number; readonly mean: number } {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let e0 = 0;
  let e1 = 0;
  let e2 = 0;
  let e3 = 0;
  for (let i = 0; i < x.length; i++) {
    const d0 = x[i]!;
    const d1 = d0 - e0;
    const d2 = d1 - e1;
    const d3 = d2 - e2;
    const d4 = d3 - e3;
    // The first differences lack a predecessor; they are written as they are.
    if (i >= MOST_FIXED) {
      s0 += Math.abs(d0);
      s1 += Math.abs(d1);
      s2 += Math.abs(d2);
      s3 += Math.abs(d3);
      s4 += Math.abs(d4);
    }
    e0 = d0;
    e1 = d1;
    e2 = d2;
    e3 = d3;
  }
  if (x.length <= MOST_FIXED) return { order: 0, mean: Number.POSITIVE_INFINITY };
  const sums = [s0, s1, s2, s3, s4];
  const least = Math.min(...sums);
  return { order: sums.indexOf(least), mean: least / (x.length - MOST_FIXED) };
}

/** The differences of an order from sample `order` on, into `residual`. They fit into 32 bits: 25 and 4. */
export function differences(x: Float64Array, order: number, residual: Int32Array): void {
  residual.set(x);
  let length = x.length;
  for (let k = 0; k < order; k++) {
    length--;
    for (let i = 0; i < length; i++) residual[i] = residual[i + 1]! - residual[i]!;
  }
}
