/** A case of a regression: its features, and which of the classes it fell in. */
export interface Case {
  readonly features: Float64Array;
  readonly outcome: number;
}

/** Normal prior of the coefficients of each class but the reference: their means, and one standard deviation for each feature. */
export interface Prior {
  readonly means: readonly Float64Array[];
  readonly sds: Float64Array;
}

/** Newton steps at most, and the change below which no further one is made. Our choice: far below what a chance is told to. */
const STEPS = 40;
const SETTLED = 1e-6;

/**
 * Multinomial logistic regression, the largest of the posterior density: coefficients of each class against class 0, by Newton's method with steps halved until the
 * density rises (McCullagh & Nelder 1989, chapters 2 and 5; from memory). Without cases: the means of the prior.
 *
 * @param cases outcomes are 0 (the reference) to the number of means in the prior
 */
export function fitOutcomes(cases: readonly Case[], { means, sds }: Prior): readonly Float64Array[] {
  const classes = means.length;
  const features = sds.length;
  const size = classes * features;
  const flat = (each: readonly Float64Array[]): Float64Array => Float64Array.from(each.flatMap((row) => [...row]));
  const centre = flat(means);
  let weights = centre.slice();
  let best = density(cases, weights, { centre, sds, classes });
  for (let step = 0; step < STEPS; step++) {
    const gradient = new Float64Array(size);
    const curvature = new Float64Array(size * size);
    for (let i = 0; i < size; i++) {
      const precision = 1 / sds[i % features]! ** 2;
      gradient[i] = (centre[i]! - weights[i]!) * precision;
      curvature[i * size + i] = precision;
    }
    for (const { features: x, outcome } of cases) {
      const chances = softmax(weights, x, classes);
      for (let k = 0; k < classes; k++) {
        const off = (outcome === k + 1 ? 1 : 0) - chances[k + 1]!;
        for (let f = 0; f < features; f++) gradient[k * features + f]! += off * x[f]!;
        for (let l = 0; l <= k; l++) {
          const weight = chances[k + 1]! * ((k === l ? 1 : 0) - chances[l + 1]!);
          if (Math.abs(weight) < 1e-9) continue;
          for (let f = 0; f < features; f++) {
            const row = (k * features + f) * size + l * features;
            const scaled = weight * x[f]!;
            for (let g = 0; g < features; g++) curvature[row + g]! += scaled * x[g]!;
          }
        }
      }
    }
    const move = solvePositive(curvature, gradient, size);
    let share = 1;
    let next = weights;
    let found = best;
    for (let halving = 0; halving < 30; halving++, share /= 2) {
      next = weights.map((weight, i) => weight + share * move[i]!);
      found = density(cases, next, { centre, sds, classes });
      if (found >= best) break;
    }
    const gained = found - best;
    if (!(gained >= 0)) break;
    weights = next;
    best = found;
    if (gained < SETTLED) break;
  }
  return means.map((_, k) => weights.slice(k * features, (k + 1) * features));
}

/** Chances of the classes, the reference first. */
export function softmax(weights: Float64Array, x: Float64Array, classes: number): Float64Array {
  const logits = new Float64Array(classes + 1);
  let most = 0;
  for (let k = 0; k < classes; k++) {
    let sum = 0;
    for (let f = 0; f < x.length; f++) sum += weights[k * x.length + f]! * x[f]!;
    logits[k + 1] = sum;
    if (sum > most) most = sum;
  }
  let total = 0;
  for (let k = 0; k <= classes; k++) {
    logits[k] = Math.exp(logits[k]! - most);
    total += logits[k]!;
  }
  return logits.map((each) => each / total);
}

function density(
  cases: readonly Case[],
  weights: Float64Array,
  { centre, sds, classes }: { readonly centre: Float64Array; readonly sds: Float64Array; readonly classes: number },
): number {
  let sum = 0;
  weights.forEach((weight, i) => {
    sum -= 0.5 * ((weight - centre[i]!) / sds[i % sds.length]!) ** 2;
  });
  for (const { features, outcome } of cases)
    sum += Math.log(Math.max(Number.MIN_VALUE, softmax(weights, features, classes)[outcome]!));
  return sum;
}

/** Solution of a symmetric positive definite system, of whose matrix the lower half is given row by row, by Cholesky's method. Both arguments are written over. */
function solvePositive(matrix: Float64Array, right: Float64Array, size: number): Float64Array {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * size + k]! * matrix[j * size + k]!;
      matrix[i * size + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / matrix[j * size + j]!;
    }
  }
  for (let i = 0; i < size; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= matrix[i * size + k]! * right[k]!;
    right[i] = sum / matrix[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let k = i + 1; k < size; k++) sum -= matrix[k * size + i]! * right[k]!;
    right[i] = sum / matrix[i * size + i]!;
  }
  return right;
}
