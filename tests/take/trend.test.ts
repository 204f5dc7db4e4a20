import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import type { Finding } from "../../lib/schema/index.js";
import { assess, driftTrends } from "../../lib/take/index.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

const score = plainScore();
const whole = assess(score, takeOf(score));
const [dropout] = whole.dropouts;

interface Drift {
  /** Per cent of tempo, and its standard error. */
  readonly percent: number;
  readonly error: number;
  /** Seconds of silence; 2 when left out. */
  readonly silence?: number;
}

const findingOf = (...drifts: readonly Drift[]): Finding => ({
  ...whole,
  dropouts: drifts.map(({ percent, error, silence = 2 }) => ({
    ...dropout!,
    from: 0,
    to: silence,
    driftPercent: percent,
    driftMs: percent * 10 * silence,
    standardErrorMs: error * 10 * silence,
  })),
});

/** Student's t: the point below which 95 % lie, by Simpson's rule on the density and bisection. */
function ninetyFivePercentPoint(freedom: number): number {
  const density = (t: number): number => (1 + t ** 2 / freedom) ** (-(freedom + 1) / 2);
  const simpson = (from: number, to: number, steps: number): number => {
    const h = (to - from) / steps;
    let sum = density(from) + density(to);
    for (let k = 1; k < steps; k++) sum += (k % 2 === 1 ? 4 : 2) * density(from + k * h);
    return (sum * h) / 3;
  };
  // t = tan(angle) brings the whole half-line into reach: its integral of cos(angle)^(freedom - 1) has no tail.
  const half = Array.from({ length: 20_000 }, (_, k) => ((k + 0.5) * Math.PI) / 2 / 20_000).reduce((sum, angle) => {
    return (
      sum +
      density(Math.sqrt(freedom) * Math.tan(angle)) * (Math.sqrt(freedom) / Math.cos(angle) ** 2) * (Math.PI / 40_000)
    );
  }, 0);
  let [low, high] = [0, 10];
  for (let round = 0; round < 50; round++) {
    const middle = (low + high) / 2;
    if (simpson(0, middle, 400) / half < 0.9) low = middle;
    else high = middle;
  }
  return low;
}

/** Weighted regression on takes 0, 1, 2, ... by matrices, with the variance between takes for which the residual sum has its expectation. */
function byMatrices(drifts: readonly { readonly percent: number; readonly error: number }[]): {
  slope: number;
  error: number;
} {
  const y = drifts.map(({ percent }) => percent);
  const n = y.length;
  const lineBy = (w: readonly number[]) => {
    const s = (f: (i: number) => number): number => w.reduce((sum, each, i) => sum + each * f(i), 0);
    const [a, b, c] = [s(() => 1), s((i) => i), s((i) => i * i)];
    const d = a * c - b * b;
    const [p, q] = [s((i) => y[i]!), s((i) => i * y[i]!)];
    const [intercept, slope] = [(c * p - b * q) / d, (a * q - b * p) / d];
    const left = s((i) => (y[i]! - intercept - slope * i) ** 2);
    // The hat matrix, row i column j: how much y[j] moves the line at i.
    const hat = (i: number, j: number): number => ((c - b * (i + j) + a * i * j) / d) * w[j]!;
    return { slope, variance: a / d, left, hat };
  };
  const fixed = drifts.map(({ error }) => error ** -2);
  const { left, hat } = lineBy(fixed);
  // E[sum w r^2] = sum over i, j of w[i] (1 - H)[i][j]^2 (error[j]^2 + between), solved for `between`.
  let [own, each] = [0, 0];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const share = fixed[i]! * ((i === j ? 1 : 0) - hat(i, j)) ** 2;
      own += share * drifts[j]!.error ** 2;
      each += share;
    }
  }
  const between = Math.max(0, (left - own) / each);
  const last = lineBy(drifts.map(({ error }) => 1 / (error ** 2 + between)));
  return { slope: last.slope, error: Math.sqrt(last.variance * Math.max(1, last.left / (n - 2))) };
}

const scatteredTakes = (seed: string, takes: number, deviation: number): Drift[] => {
  const chance = random(seed);
  return Array.from({ length: takes }, (_, take) => ({
    percent: 300 - 20 * take + deviation * chance.normal(),
    error: 40 + 60 * chance.uniform(),
  }));
};

describe("driftTrends()", () => {
  test.each([5, 50, 300])(
    "fits the weighted line that matrices give, takes scattering by %i: slope and standard error",
    (deviation) => {
      for (const takes of [3, 4, 8, 20]) {
        const drifts = scatteredTakes(`matrices ${takes} ${deviation}`, takes, deviation);
        const [trend] = driftTrends(drifts.map((drift) => findingOf(drift)));
        const { slope, error } = byMatrices(drifts);
        const [low, high] = trend!.interval;
        // Figures are rounded to 1e-4.
        expect(Math.abs(trend!.perTake - slope)).toBeLessThan(1e-4);
        expect(Math.abs((low + high) / 2 - slope)).toBeLessThan(1e-4);
        expect(Math.abs((high - low) / 2 / error - ninetyFivePercentPoint(takes - 2))).toBeLessThan(0.0006);
      }
    },
  );

  test("takes the 95 % point of Student's t for its degrees of freedom, that of 30 for more", () => {
    for (let freedom = 1; freedom <= 34; freedom++) {
      const drifts = scatteredTakes(`freedom ${freedom}`, freedom + 2, 40);
      const [trend] = driftTrends(drifts.map((drift) => findingOf(drift)));
      const [low, high] = trend!.interval;
      const point = (high - low) / 2 / byMatrices(drifts).error;
      // The tables have three decimals.
      expect(Math.abs(point - ninetyFivePercentPoint(Math.min(30, freedom))), `${freedom}`).toBeLessThan(0.0006);
    }
    // Two rows of any table of the distribution: 6.314 (1 degree) and 1.812 (10), from memory.
    expect(ninetyFivePercentPoint(1)).toBeCloseTo(6.314, 3);
    expect(ninetyFivePercentPoint(10)).toBeCloseTo(1.812, 3);
  });

  test("finds a player who comes closer to the tempo, and says so", () => {
    const [trend] = driftTrends([6, 5.1, 3.8, 3.1, 1.9].map((percent) => findingOf({ percent, error: 0.3 })));
    expect(trend).toMatchObject({ silence: 2, takes: 5, direction: "towards" });
    expect(trend!.interval[1]).toBeLessThan(0);
    expect(trend!.sentence).toMatch(
      /^Over 5 takes with 2 s of silence your drift went from 6\.0 % slow to 1\.9 % slow: closer to the tempo \(each take 1\.\d\d % faster to 0\.\d\d % faster, with 90 % certainty\)\.$/,
    );
  });

  test("finds a player who goes further from the tempo, and says so, with the sign in words", () => {
    const [trend] = driftTrends([-1, -2.1, -2.9, -4.2].map((percent) => findingOf({ percent, error: 0.3 })));
    expect(trend).toMatchObject({ direction: "away" });
    expect(trend!.perTake).toBeLessThan(0);
    expect(trend!.sentence).toMatch(
      /your drift went from 1\.0 % fast to 4\.1 % fast: further from the tempo \(each take [\d.]+ % faster to/,
    );
  });

  test("claims nothing when the takes cannot tell", () => {
    const [trend] = driftTrends([1, 1.4, 0.7, 1.2].map((percent) => findingOf({ percent, error: 1 })));
    expect(trend!.direction).toBe("no change");
    expect(trend!.interval[0]).toBeLessThan(0);
    expect(trend!.interval[1]).toBeGreaterThan(0);
    expect(trend!.sentence).toMatch(
      /^Over 4 takes .* did not change by an amount that can be told \(each take [\d.]+ % faster to [\d.]+ % slower/,
    );
  });

  test("claims a trend in at most 1 of 10 rows of takes without one, up to the error of the count", () => {
    const rows = 600;
    let claimed = 0;
    for (let row = 0; row < rows; row++) {
      const chance = random(`no trend ${row}`);
      const takes = 4 + chance.below(8);
      const between = 2 * chance.uniform();
      const findings = Array.from({ length: takes }, () => {
        const error = 0.5 + chance.uniform();
        return findingOf({ percent: 2 + Math.hypot(error, between) * chance.normal(), error });
      });
      if (driftTrends(findings)[0]!.direction !== "no change") claimed++;
    }
    expect(claimed).toBeLessThanOrEqual(0.1 * rows + 3 * Math.sqrt(0.09 * rows));
    expect(claimed).toBeGreaterThan(0);
  });

  test("leaves out lengths measured in fewer than three takes, and takes in which nothing was", () => {
    const one = { percent: 1, error: 0.5 };
    const none = assess(score, { onsets: [] });
    expect(driftTrends([])).toEqual([]);
    expect(driftTrends([findingOf(one), findingOf(one), none])).toEqual([]);
    const trends = driftTrends([
      findingOf(one, { ...one, silence: 4 }),
      findingOf({ ...one, silence: 4 }),
      none,
      findingOf({ ...one, silence: 1 }, { ...one, silence: 4 }),
    ]);
    expect(trends.map(({ silence, takes }) => [silence, takes])).toEqual([[4, 3]]);
  });

  test("gives one trend a length, shortest first, each silence of a take weighing by its own error", () => {
    const [a, b] = [
      { percent: 4, error: 1 },
      { percent: 1, error: 2 },
    ];
    // (4 / 1 + 1 / 4) / (1 + 1 / 4) = 3.4, the mean of both by their inverse variances.
    const trends = driftTrends(Array.from({ length: 3 }, () => findingOf({ ...a, silence: 3 }, { ...a }, { ...b })));
    expect(trends.map(({ silence }) => silence)).toEqual([2, 3]);
    expect([trends[0]!.first, trends[0]!.last, trends[0]!.perTake]).toEqual([3.4, 3.4, 0]);
  });

  test("sees a simulated player get better over takes", () => {
    const shares = [0.05, 0.042, 0.035, 0.022, 0.016, 0.008];
    const findings = shares.map((share, run) =>
      assess(score, scatteredBy(takeOf(score, slowerInSilence(score, share)), 8, `better ${run}`)),
    );
    const [trend] = driftTrends(findings);
    expect(trend!.direction).toBe("towards");
    // The least-squares slope of the shares put in.
    expect(trend!.interval[0]).toBeLessThan(-0.86);
    expect(trend!.interval[1]).toBeGreaterThan(-0.86);
  });
});
