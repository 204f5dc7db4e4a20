import type { TermEnd } from "../climb/term.js";

/**
 * Figures of one student by which courses and policies are compared, whole numbers all of them. `days` until the course was finished, or of the whole term for who
 * did not finish: its mean is the mean time restricted to the term (Royston & Parmar 2013; from memory). `unready`: times let on too early; `held`: times held at a gate though able.
 */
export const FIGURES = ["days", "finished", "rungs", "takes", "unready", "held"] as const;
export type Figure = (typeof FIGURES)[number];

/** Sums over students of each figure of two courses, and of their squares: exact, and the same in any order. */
export interface Paired {
  students: number;
  readonly first: number[];
  readonly second: number[];
  readonly squares: { readonly first: number[]; readonly second: number[]; readonly difference: number[] };
}

export function newPaired(): Paired {
  const none = (): number[] => FIGURES.map(() => 0);
  return {
    students: 0,
    first: none(),
    second: none(),
    squares: { first: none(), second: none(), difference: none() },
  };
}

/** Adds one student, who has been through both. */
export function addPair(into: Paired, one: TermEnd, other: TermEnd, days: number): void {
  into.students++;
  const [a, b] = [figuresOf(one, days), figuresOf(other, days)];
  FIGURES.forEach((_, i) => {
    into.first[i]! += a[i]!;
    into.second[i]! += b[i]!;
    into.squares.first[i]! += a[i]! ** 2;
    into.squares.second[i]! += b[i]! ** 2;
    into.squares.difference[i]! += (a[i]! - b[i]!) ** 2;
  });
}

function figuresOf({ finished, passed, takes, unready, held }: TermEnd, days: number): readonly number[] {
  return [finished ?? days, finished === undefined ? 0 : 1, passed, takes, unready, held];
}

/** A mean difference with its interval, by student. */
export interface Difference {
  readonly figure: Figure;
  /** Means of the two, and of second less first. */
  readonly first: number;
  readonly second: number;
  readonly difference: number;
  /** Interval of 95 % of the difference. */
  readonly low: number;
  readonly high: number;
  /** Variance of the difference were the two on different students, over that on the same. */
  readonly gain: number;
}

/** Quantile of the normal distribution for an interval of 95 %. */
const TWO_SIDED = 1.959963984540054;

/**
 * Differences, second less first, with their intervals: normal, by student and not by take. Fewer than two students: intervals without bounds.
 *
 * Variance of a mean: Σ(d - mean)² / (n (n - 1)).
 */
export function differencesOf({ students: n, first, second, squares }: Paired): readonly Difference[] {
  return FIGURES.map((figure, i) => {
    const variance = (sum: number, square: number): number =>
      n < 2 ? Number.POSITIVE_INFINITY : Math.max(0, square - sum ** 2 / n) / (n - 1);
    const [a, b] = [first[i]!, second[i]!];
    const paired = variance(a - b, squares.difference[i]!);
    const apart = variance(a, squares.first[i]!) + variance(b, squares.second[i]!);
    const difference = n === 0 ? 0 : (b - a) / n;
    const half = TWO_SIDED * Math.sqrt(paired / Math.max(1, n));
    return {
      figure,
      first: n === 0 ? 0 : a / n,
      second: n === 0 ? 0 : b / n,
      difference,
      low: difference - half,
      high: difference + half,
      gain: paired === 0 ? 1 : apart / paired,
    };
  });
}
