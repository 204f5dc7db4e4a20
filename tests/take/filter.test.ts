import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import type { Noise } from "../../lib/take/state/noise.js";
import { type OffsetPrior, settledVariance } from "../../lib/take/state/space.js";
import { combine, type Form, fixed, given, logDensity, type Observation, sourceOf } from "./jointGaussian.js";
import { plainScore } from "./scores.js";

interface Batch {
  readonly logLikelihood: number;
  readonly offset: { readonly mean: number; readonly variance: number };
  readonly drifts: readonly { readonly mean: number; readonly variance: number }[];
}

type Happens = "silence starts" | "mark starts" | "note" | "mark ends" | "silence ends" | "beat";
const ORDER: readonly Happens[] = ["note", "mark ends", "silence ends", "silence starts", "mark starts", "beat"];

/**
 * The same model written out as one joint normal distribution of everything that happens in the take, conditioned in one go: no recursion over
 * beliefs, no shared code with the filter, walked from the score itself.
 */
function inOneGo(score: Score, late: Float64Array, noise: Noise, prior: OffsetPrior): Batch {
  const events: { readonly at: number; readonly happens: Happens; readonly which: number }[] = [];
  const add = (at: number, happens: Happens, which: number): number => events.push({ at: 1000 * at, happens, which });
  score.expected.forEach(({ at }, note) => {
    add(at, "note", note);
  });
  score.dropouts.forEach(({ from, to, silent }, which) => {
    add(from, "mark starts", which);
    add(to, "mark ends", which);
    if (!silent) return;
    add(from, "silence starts", which);
    add(to, "silence ends", which);
  });
  for (let beat = 0; beat * score.beat < score.duration - 1e-9; beat++) {
    const at = beat * score.beat;
    if (score.audible.some(({ from, to }) => at > from - 1e-9 && at < to - 1e-9)) add(at, "beat", beat);
  }
  events.sort((a, b) =>
    Math.abs(a.at - b.at) > 1e-6 ? a.at - b.at : ORDER.indexOf(a.happens) - ORDER.indexOf(b.happens),
  );

  const source = sourceOf();
  const a = noise.correction;
  const m = combine([1, fixed(prior.mean)], [1, source(prior.sd)]);
  // The stationary variance of z, found by repeating what a beat does to it until it stays.
  let settled = 0;
  for (let i = 0; i < 2000; i++) settled = (1 - a) ** 2 * settled + a ** 2 * noise.motor ** 2 + noise.clock ** 2;
  let z = combine([1, m], [1, source(Math.sqrt(settled))]);
  let bias: Form | undefined;
  let now = events[0]!.at;
  const observed: Observation[] = [];
  const heardBefore: number[] = [];
  const starts: Form[] = [];
  const drifts: Form[] = [];
  let last: { at: number; form: Form } | undefined;
  for (const { at, happens, which } of events) {
    const gap = at - now;
    if (gap > 1e-6) {
      z = combine([1, z], [1, source(noise.clock * Math.sqrt(gap / (1000 * score.beat)))]);
      if (bias !== undefined) z = combine([1, z], [gap, bias]);
    }
    now = at;
    if (happens === "silence starts") bias = source(noise.bias);
    else if (happens === "silence ends") bias = undefined;
    else if (happens === "mark ends") drifts.push(combine([1, z], [-1, starts[which]!]));
    else if (happens === "mark starts") {
      if (which > 0) heardBefore[which - 1] = observed.length;
      starts.push(z);
    } else if (happens === "note") {
      if (Number.isNaN(late[which]!)) continue;
      last = { at, form: combine([1, z], [1, source(noise.motor)]) };
      observed.push({ form: last.form, value: late[which]! });
    } else {
      const heard = last !== undefined && Math.abs(last.at - at) < 1e-6 ? last.form : z;
      z = combine([1, z], [-a, heard], [a, m]);
    }
  }
  return {
    logLikelihood: logDensity(observed),
    offset: given(m, observed),
    drifts: drifts.map((drift, which) => given(drift, observed.slice(0, heardBefore[which] ?? observed.length))),
  };
}

function agree(score: Score, late: Float64Array, noise: Noise, prior: OffsetPrior): void {
  const batch = inOneGo(score, late, noise, prior);
  const passed = passOver(guideOf(score), late, noise, prior);
  const close = (found: number, wanted: number): void => {
    expect(Math.abs(found - wanted), `${found} for ${wanted}`).toBeLessThanOrEqual(
      1e-6 * Math.max(1, Math.abs(wanted)),
    );
  };
  close(passed.logLikelihood, batch.logLikelihood);
  close(passed.offset, batch.offset.mean);
  close(passed.offsetVariance, batch.offset.variance);
  batch.drifts.forEach(({ mean, variance }, which) => {
    close(passed.drift[which]!, mean);
    close(passed.driftVariance[which]!, variance);
  });
}

const NOISE: Noise = { clock: 10, motor: 12, bias: 0.012, correction: 0.36 };
const small = plainScore({ phrases: 2, accompanied: 4, silent: 4, outro: 3 });
const off = plainScore({ phrases: 2, accompanied: 3, silent: 3, outro: 2, perBeat: 2 });
const playedOn = { ...small, dropouts: small.dropouts.map((each, i) => ({ ...each, silent: i > 0 })) };
playedOn.audible = [{ from: -2, to: playedOn.dropouts[1]!.from }, playedOn.audible.at(-1)!];

const wiggle = (score: Score, missing: (note: number) => boolean): Float64Array =>
  Float64Array.from(score.expected, (_, note) =>
    missing(note) ? Number.NaN : 30 * Math.sin(1.7 * note) - 20 + 2 * note,
  );

describe("passOver() against the joint normal distribution solved in one go", () => {
  test.each([
    ["every note played", small, (): boolean => false],
    ["every third note missed", small, (note: number): boolean => note % 3 === 1],
    ["notes between the beats", off, (note: number): boolean => note % 5 === 2],
    ["only the notes of the silences played", small, (note: number): boolean => note % 8 < 4],
    ["one dropout in which something still sounds", playedOn, (): boolean => false],
  ] as const)("drift, its variance, offset and likelihood agree to 1e-6: %s", (_, score, missing) => {
    agree(score, wiggle(score, missing), NOISE, { mean: -25, sd: 60 });
  });

  test("they agree for any small take, noise and prior", () => {
    const sd = fc.double({ min: 0.5, max: 60, noNaN: true });
    const noise = fc.record({
      clock: sd,
      motor: sd,
      bias: fc.double({ min: 0.0005, max: 0.08, noNaN: true }),
      correction: fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    });
    const prior = fc.record({
      mean: fc.double({ min: -100, max: 100, noNaN: true }),
      sd: fc.double({ min: 1, max: 400, noNaN: true }),
    });
    const late = fc.array(fc.option(fc.double({ min: -300, max: 300, noNaN: true }), { nil: Number.NaN }), {
      minLength: small.expected.length,
      maxLength: small.expected.length,
    });
    fc.assert(
      fc.property(noise, prior, late, (each, before, values) => agree(small, Float64Array.from(values), each, before)),
      { numRuns: 60 },
    );
  });

  test("with nothing heard, drift is 0 with the variance of a free clock and bias: n clock^2 + (n beat bias)^2", () => {
    const score = plainScore({ phrases: 1, accompanied: 4, silent: 6, outro: 2 });
    const nothing = new Float64Array(score.expected.length).fill(Number.NaN);
    const { drift, driftVariance, logLikelihood } = passOver(guideOf(score), nothing, NOISE, { mean: 0, sd: 100 });
    expect(drift[0]).toBeCloseTo(0, 9);
    expect(driftVariance[0]).toBeCloseTo(6 * 100 + (6 * 500 * 0.012) ** 2, 6);
    expect(logLikelihood).toBe(0);
  });
});

describe("settledVariance()", () => {
  test("is what repeating a beat leads to: v -> (1 - a)^2 v + a^2 motor^2 + clock^2", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (clock, motor, correction) => {
          const v = settledVariance({ clock, motor, correction, bias: 0 });
          const next = (1 - correction) ** 2 * v + correction ** 2 * motor ** 2 + clock ** 2;
          expect(Math.abs(next - v)).toBeLessThanOrEqual(1e-12 * Math.max(1, v));
        },
      ),
    );
  });
});
