/** A second-order filter: y = b0 x + b1 x[-1] + b2 x[-2] - a1 y[-1] - a2 y[-2]. */
export interface Biquad {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
}

/** Second-order Butterworth low or high pass at `hertz` by the bilinear transform (R. Bristow-Johnson, Audio EQ Cookbook, Q = 1/sqrt 2). */
export function passFilter(kind: "low" | "high", hertz: number, rate: number): Biquad {
  const angle = (2 * Math.PI * hertz) / rate;
  const alpha = Math.sin(angle) * Math.SQRT1_2;
  const cos = Math.cos(angle);
  const a0 = 1 + alpha;
  const edge = (kind === "low" ? 1 - cos : 1 + cos) / a0;
  return {
    b: [edge / 2, kind === "low" ? edge : -edge, edge / 2],
    a: [(-2 * cos) / a0, (1 - alpha) / a0],
  };
}

/** Filters samples in place. */
export function filterThrough({ b, a }: Biquad, samples: Float32Array | Float64Array): void {
  let s1 = 0;
  let s2 = 0;
  for (let i = 0; i < samples.length; i++) {
    const x = samples[i]!;
    const y = b[0] * x + s1;
    s1 = b[1] * x - a[0] * y + s2;
    s2 = b[2] * x - a[1] * y;
    samples[i] = y;
  }
}
