/** A straight line: `start` at 0, and `slope` more for each step. */
interface Line {
  readonly start: number;
  readonly slope: number;
}

/** The straight line through points, by least squares. */
export function lineThrough(x: readonly number[], y: readonly number[]): Line {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  const squares = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const together = x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0);
  const slope = together / squares;
  return { start: my - slope * mx, slope };
}
