import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PLAYERS, playTake } from "../../lib/rehearsal/player.js";
import type { Score } from "../../lib/schema/index.js";
import { assess, traceTake } from "../../lib/take/index.js";
import { guideOf } from "../../lib/take/state/guide.js";
import type { Noise } from "../../lib/take/state/noise.js";
import { smoothOver } from "../../lib/take/state/smoother.js";
import type { OffsetPrior } from "../../lib/take/state/space.js";
import { MATERIALS, materialScore } from "../bench/material.js";
import { combine, type Form, fixed, given, type Observation, sourceOf } from "./jointGaussian.js";
import { plainScore, slowerInSilence, takeOf } from "./scores.js";

const KINDS = ["silence starts", "note", "silence ends", "beat"] as const;

/** Phase at every instant as a form of independent normals, all notes observed, conditioned in one go: walked from the score, no shared code. */
function inOneGo(score: Score, late: Float64Array, noise: Noise, prior: OffsetPrior): Map<number, [number, number]> {
  const events: { at: number; kind: (typeof KINDS)[number]; which: number }[] = [
    ...score.expected.map(({ at }, which) => ({ at, kind: "note" as const, which })),
    ...score.dropouts.flatMap(({ from, to }, which) => [
      { at: from, kind: "silence starts" as const, which },
      { at: to, kind: "silence ends" as const, which },
    ]),
  ];
  for (let n = 0; n * score.beat < score.duration - 1e-9; n++) {
    const at = n * score.beat;
    if (score.audible.some(({ from, to }) => at > from - 1e-9 && at < to - 1e-9))
      events.push({ at, kind: "beat", which: n });
  }
  const instant = (at: number): number => Math.round(at * 1e6);
  events.sort((p, q) => instant(p.at) - instant(q.at) || KINDS.indexOf(p.kind) - KINDS.indexOf(q.kind));
  const source = sourceOf();
  const a = noise.correction;
  const m = combine([1, fixed(prior.mean)], [1, source(prior.sd)]);
  let settled = 0;
  for (let i = 0; i < 2000; i++) settled = (1 - a) ** 2 * settled + a ** 2 * noise.motor ** 2 + noise.clock ** 2;
  let z = combine([1, m], [1, source(Math.sqrt(settled))]);
  let bias: Form | undefined;
  const phases = new Map<number, Form>();
  const observed: Observation[] = [];
  let heard: { at: number; form: Form } | undefined;
  let before = events[0]!.at;
  for (const { at, kind, which } of events) {
    const gap = 1000 * (at - before);
    before = at;
    if (gap > 1e-6) {
      z = combine([1, z], [1, source(noise.clock * Math.sqrt(gap / (1000 * score.beat)))]);
      if (bias !== undefined) z = combine([1, z], [gap, bias]);
    }
    if (!phases.has(instant(at))) phases.set(instant(at), z);
    if (kind === "silence starts") bias = source(noise.bias);
    if (kind === "silence ends") bias = undefined;
    if (kind === "note" && !Number.isNaN(late[which]!)) {
      heard = { at, form: combine([1, z], [1, source(noise.motor)]) };
      observed.push({ form: heard.form, value: late[which]! });
    }
    if (kind !== "beat") continue;
    const back = heard !== undefined && instant(heard.at) === instant(at) ? heard.form : z;
    z = combine([1, z], [-a, back], [a, m]);
  }
  return new Map(
    [...phases].map(([at, form]): [number, [number, number]] => {
      const { mean, variance } = given(form, observed);
      return [at, [mean, variance]];
    }),
  );
}

function agree(score: Score, late: Float64Array, noise: Noise, prior: OffsetPrior): void {
  const batch = inOneGo(score, late, noise, prior);
  const { at, mean, variance } = smoothOver(guideOf(score), late, noise, prior);
  expect(Array.from(at, (ms) => Math.round(ms * 1000))).toEqual([...batch.keys()]);
  [...batch.values()].forEach(([wantedMean, wantedVariance], i) => {
    // Relative to the prior's variance, from which the recursion takes what is known away.
    const slack = 1e-9 * (prior.sd ** 2 + 1000);
    expect(Math.abs(mean[i]! - wantedMean)).toBeLessThanOrEqual(slack);
    expect(Math.abs(variance[i]! - wantedVariance)).toBeLessThanOrEqual(slack);
  });
}

const NOISE: Noise = { clock: 10, motor: 12, bias: 0.012, correction: 0.36 };
const PRIOR: OffsetPrior = { mean: -25, sd: 400 };
const small = plainScore({ phrases: 2, accompanied: 4, silent: 4, outro: 3 });
const off = plainScore({ phrases: 2, accompanied: 3, silent: 3, outro: 2, perBeat: 2 });

describe("smoothOver() against the joint normal distribution solved in one go", () => {
  test.each([
    ["every note played", small, (): boolean => false],
    ["every third note missed", small, (note: number): boolean => note % 3 === 1],
    ["notes between the beats", off, (note: number): boolean => note % 5 === 2],
    ["only the notes of the silences played", small, (note: number): boolean => note % 8 < 4],
  ] as const)("mean and variance agree at every instant: %s", (_, score, missing) => {
    const late = Float64Array.from(score.expected, (_note, i) =>
      missing(i) ? Number.NaN : 30 * Math.sin(1.7 * i) + 2 * i - 20,
    );
    agree(score, late, NOISE, PRIOR);
  });

  test("they agree for any small take and noise", () => {
    const sd = fc.double({ min: 0.5, max: 60, noNaN: true });
    const noise = fc.record({
      clock: sd,
      motor: sd,
      bias: fc.double({ min: 0.0005, max: 0.08, noNaN: true }),
      correction: fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    });
    const late = fc.array(fc.option(fc.double({ min: -300, max: 300, noNaN: true }), { nil: Number.NaN }), {
      minLength: small.expected.length,
      maxLength: small.expected.length,
    });
    fc.assert(
      fc.property(noise, late, (each, values) => agree(small, Float64Array.from(values), each, PRIOR)),
      { numRuns: 40 },
    );
  });
});

describe("traceTake()", () => {
  const score = plainScore();

  test("of an empty take is empty", () => {
    expect(traceTake(score, { onsets: [] })).toEqual([]);
  });

  test("refuses a time that is not a finite number", () => {
    expect(() => traceTake(score, { onsets: [1, Number.NaN] })).toThrow(RangeError);
  });

  test("is in order of time, from the first note to the end, every value finite", () => {
    const { take } = playTake(score, PLAYERS.novice, "jetty");
    const trace = traceTake(score, take);
    for (let i = 1; i < trace.length; i++) expect(trace[i]!.at).toBeGreaterThan(trace[i - 1]!.at);
    expect(trace[0]!.at).toBe(score.expected[0]!.at);
    for (const { asynchronyMs, sdMs } of trace) {
      expect(Number.isFinite(asynchronyMs)).toBe(true);
      expect(sdMs).toBeGreaterThan(0);
    }
  });

  test("rises over a silence by what the finding calls its drift, within that drift's standard error", () => {
    const take = takeOf(score, slowerInSilence(score, 0.03));
    const finding = assess(score, take);
    const trace = traceTake(score, take);
    const near = (at: number): number => trace.find((point) => Math.abs(point.at - at) < 1e-6)!.asynchronyMs;
    for (const { from, to, driftMs, standardErrorMs } of finding.dropouts) {
      expect(Math.abs(near(to) - near(from) - (driftMs as number))).toBeLessThanOrEqual(standardErrorMs as number);
    }
  });

  test("its band of 1.96 SD covers the true phase about as often as it says", () => {
    // 40 takes of 4 silences: the phase change over each is known from the player; covering 95 % of 160 gives 152, SD sqrt(160 * .95 * .05) = 2.8;
    // dependence within a take and the model's own prior widen this: our bound is five such SDs.
    let covered = 0;
    let all = 0;
    for (let k = 0; k < 40; k++) {
      const { take, truth } = playTake(score, { ...PLAYERS.able, adding: 0, missing: 0 }, `cover ${k}`);
      const trace = traceTake(score, take);
      const find = (at: number): { asynchronyMs: number; sdMs: number } =>
        trace.find((p) => Math.abs(p.at - at) < 1e-6)!;
      score.dropouts.forEach(({ from, to }, i) => {
        const change = find(to).asynchronyMs - find(from).asynchronyMs;
        const sd = Math.hypot(find(to).sdMs, find(from).sdMs);
        covered += Math.abs(change - truth.driftMs[i]!) <= 1.96 * sd ? 1 : 0;
        all += 1;
      });
    }
    expect(covered / all).toBeGreaterThanOrEqual(0.95 - 5 * Math.sqrt((0.95 * 0.05) / all));
  });

  test("a take shifted by a constant has the same trace shifted by it, a known latency none of it", () => {
    const { take } = playTake(score, PLAYERS.able, "shift");
    const moved = { ...take, onsets: take.onsets.map((onset) => (onset as { at: number }).at + 0.04) };
    const [plain, known] = [traceTake(score, { ...take, latencyMs: 0 }), traceTake(score, { ...moved, latencyMs: 40 })];
    plain.forEach((point, i) => {
      expect(known[i]!.asynchronyMs).toBeCloseTo(point.asynchronyMs, 6);
    });
  });

  test("a player who slipped a bar ahead is told a bar early from there on", () => {
    const syncopated = materialScore(MATERIALS.find(({ name }) => name === "syncopated sixteenths")!, {
      bpm: 96,
      silentBeats: 4,
      tolerancePercent: 2.5,
    });
    const bar = 4 * syncopated.beat;
    const landing = syncopated.dropouts[1]!.to - 1e-6;
    // From the second landing on, what is written a bar later is played.
    const onsets = syncopated.expected.flatMap(({ at }) =>
      at < landing ? [at] : at < landing + bar ? [] : [at - bar],
    );
    const take = { onsets, zero: "bar-1" as const };
    expect(assess(syncopated, take).reasons.map(({ code }) => code)).toContain("SLIPPED");
    const trace = traceTake(syncopated, take);
    const late = (seconds: number): number => trace.findLast(({ at }) => at <= seconds)!.asynchronyMs;
    // The played onsets are exact, so that only the smoothing of nothing remains: within a millisecond.
    expect(Math.abs(late(landing - bar))).toBeLessThan(1);
    expect(Math.abs(late(syncopated.duration) + 1000 * bar)).toBeLessThan(1);
    for (let i = 1; i < trace.length; i++) expect(trace[i]!.at).toBeGreaterThan(trace[i - 1]!.at);
  });
});
