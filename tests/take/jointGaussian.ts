/**
 * Jointly normal quantities as weighted sums of independent standard normals, and what is left of one when others are observed:
 * mean + C V^-1 (y - E y), variance - C V^-1 C', log-density of y, by Cholesky factorisation (any text on multivariate normals).
 */
export interface Form {
  readonly mean: number;
  /** Weights of the independent standard normals, by number. */
  readonly weights: ReadonlyMap<number, number>;
}

export function sourceOf(): (sd: number) => Form {
  let count = 0;
  return (sd) => ({ mean: 0, weights: new Map([[count++, sd]]) });
}

export const fixed = (mean: number): Form => ({ mean, weights: new Map() });

/** The sum of forms times factors. */
export function combine(...terms: readonly (readonly [factor: number, form: Form])[]): Form {
  const weights = new Map<number, number>();
  let mean = 0;
  for (const [factor, form] of terms) {
    mean += factor * form.mean;
    for (const [number, weight] of form.weights) weights.set(number, (weights.get(number) ?? 0) + factor * weight);
  }
  return { mean, weights };
}

export interface Observation {
  readonly form: Form;
  readonly value: number;
}

export interface Conditioned {
  readonly mean: number;
  readonly variance: number;
}

function covariance(a: Form, b: Form): number {
  let sum = 0;
  for (const [number, weight] of a.weights) sum += weight * (b.weights.get(number) ?? 0);
  return sum;
}

function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const lower: number[][] = matrix.map(() => []);
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      lower[i]!.push(i === j ? Math.sqrt(sum) : sum / lower[j]![j]!);
    }
  }
  return lower;
}

/** Solves lower x = right. */
function forward(lower: readonly (readonly number[])[], right: readonly number[]): number[] {
  const x: number[] = [];
  for (let i = 0; i < right.length; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i]![k]! * x[k]!;
    x.push(sum / lower[i]![i]!);
  }
  return x;
}

function whitened(observed: readonly Observation[]): { lower: number[][]; residual: number[] } {
  const lower = cholesky(observed.map((a) => observed.map((b) => covariance(a.form, b.form))));
  return {
    lower,
    residual: forward(
      lower,
      observed.map(({ form, value }) => value - form.mean),
    ),
  };
}

/** What is known of a form once the observations are made. */
export function given(form: Form, observed: readonly Observation[]): Conditioned {
  const { lower, residual } = whitened(observed);
  const share = forward(
    lower,
    observed.map((each) => covariance(form, each.form)),
  );
  return {
    mean: form.mean + share.reduce((sum, weight, i) => sum + weight * residual[i]!, 0),
    variance: covariance(form, form) - share.reduce((sum, weight) => sum + weight ** 2, 0),
  };
}

/** Logarithm of the joint density of the observations. */
export function logDensity(observed: readonly Observation[]): number {
  const { lower, residual } = whitened(observed);
  return residual.reduce(
    (sum, value, i) => sum - 0.5 * value ** 2 - Math.log(lower[i]![i]!) - 0.5 * Math.log(2 * Math.PI),
    0,
  );
}
