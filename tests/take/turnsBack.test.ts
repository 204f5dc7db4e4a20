import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import type { Finding, Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf, turningBack } from "../../lib/take/state/guide.js";
import { smoothOver } from "../../lib/take/state/smoother.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { materials } from "../reference/players/materials.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import { sample } from "../samples.js";
import { plainScore } from "./scores.js";

/** Where a player is on the first notes after a silence in which he drifted by `drift` seconds; NaN for a note that he leaves out. */
type Return = (way: { readonly drift: number; readonly beats: number }) => number;

const RETURNS = {
  "on the next note": () => 0,
  "on the note after it, the next one left out": ({ beats }) => (beats < 1.01 ? Number.NaN : 0),
  "on the next note, and a little too far": ({ drift, beats }) => -0.2 * drift * 0.5 ** beats,
} satisfies Record<string, Return>;

/** A player who drifts by a share of tempo through each silence, in time but for 12 ms otherwise; the landing is played where the drift has brought him unless `lands`. */
function drifting(score: Score, share: number, back: Return, luck: string, lands = false): Take {
  const chance = random(luck);
  const onsets = score.expected.flatMap(({ at, pitch }) => {
    const inside = score.dropouts.find(({ from, to }) => at > from && (lands ? at < to - 1e-6 : at < to + 1e-6));
    const last = score.dropouts.findLast(({ to }) => at > to + 1e-6);
    const off =
      inside !== undefined
        ? share * (at - inside.from)
        : last === undefined
          ? 0
          : back({ drift: share * (last.to - last.from), beats: (at - last.to) / score.beat });
    const noise = 0.012 * chance.normal();
    return Number.isNaN(off) ? [] : [{ at: at + off + noise, ...(pitch === undefined ? {} : { pitch }) }];
  });
  return { zero: "bar-1", onsets: onsets.sort((a, b) => a.at - b.at) };
}

const NAMES = ["even eighths, 1 bar", "quarters, 2 bars", "compound, 1 bar", "moving, 1 bar"];
const SCORES = materials().filter(({ name }) => NAMES.includes(name));
/** Who drags by more plays the landing where the next note is due: which of the two it is cannot be told. */
const isLanding = (score: Score, share: number): boolean =>
  score.dropouts.every(({ from, to }) => share * (to - from) < 0.6 * score.beat);
const ROUNDS = sample({ suite: 2, proof: 20 });
const SHARES = [-0.15, -0.12, -0.1, 0.1, 0.12];
const told = ({ sentence, verdict, reasons }: Finding): string =>
  `${verdict} ${reasons.map(({ code }) => code).join()} ${sentence}`;

describe("who rushes or drags steadily in each silence, lands so, and is back with the band", () => {
  test.each(Object.entries(RETURNS))(
    "%s, is beyond, and is told about how far the drift and the landing were",
    (name, back) => {
      for (const { name: rung, score } of SCORES)
        for (const share of SHARES.filter((each) => isLanding(score, each)))
          for (let round = 0; round < ROUNDS; round++) {
            const take = drifting(score, share, back, `turns back ${name} ${rung} ${share} ${round}`);
            for (const heard of [take, withoutPitch(take)]) {
              const finding = assess(score, heard);
              const where = `${rung} ${share} ${round} ${told(finding)} ${JSON.stringify(finding.dropouts.map(({ driftMs, landing }) => [driftMs, landing]))}`;
              expect(finding.verdict, where).toBe("beyond");
              finding.dropouts.forEach(({ driftMs, landing }, k) => {
                const { from, to } = score.dropouts[k]!;
                const truth = 1000 * share * (to - from);
                expect(Math.abs((driftMs as number) - truth), where).toBeLessThan(80);
                expect(
                  landing !== null && "ms" in landing ? Math.abs(landing.ms - truth) : Infinity,
                  where,
                ).toBeLessThan(80);
              });
            }
          }
    },
  );

  test("with the landing itself, is never within when he was over 1.5 times the limit: what was played in the silence counts", () => {
    for (const { name, score } of SCORES)
      for (const share of SHARES) {
        const take = drifting(score, share, () => 0, `lands in time ${name} ${share}`, true);
        const finding = assess(score, withoutPitch(take));
        if (Math.abs(100 * share) > 1.5 * score.tolerance.driftPercent!)
          expect(finding.verdict, `${name} ${share} ${told(finding)}`).not.toBe("within");
      }
  });

  test("and lands where the next note is due: that is no other tune", () => {
    for (const { name, score } of materials())
      for (const share of [0.08, 0.12, 0.16])
        for (const back of [RETURNS["on the next note"], RETURNS["on the note after it, the next one left out"]]) {
          const take = drifting(score, share, back, `next note ${name} ${share}`);
          for (const heard of [take, withoutPitch(take)]) {
            const finding = assess(score, heard);
            expect(
              finding.reasons.map(({ code }) => code),
              `${name} ${share} ${told(finding)}`,
            ).not.toContain("OTHER_NOTES");
          }
        }
  });

  test.each([
    ["takes back a fifth on each beat", ({ drift, beats }) => drift * 0.8 ** beats],
    ["comes back evenly over two bars", ({ drift, beats }) => drift * Math.max(0, 1 - beats / 8)],
    ["takes back a third on each beat", ({ drift, beats }) => drift * 0.64 ** beats],
    ["is back at once", () => 0],
  ] as [string, Return][])("and %s: the usual place is told as it was before the first silence", (name, back) => {
    const off = SCORES.flatMap(({ name: rung, score }) =>
      [-0.12, -0.08, 0.08].map((share) => {
        const { offsetMs } = assess(score, drifting(score, share, back, `usual ${name} ${rung} ${share}`));
        return Math.abs(offsetMs as number);
      }),
    );
    // 20 to 100 ms on every rung where the return was slow, before the bars before the first silence were asked.
    expect(off.filter((ms) => ms > 20).length, off.join()).toBeLessThanOrEqual(off.length / 4);
    expect(off.reduce((sum, ms) => sum + ms, 0) / off.length, off.join()).toBeLessThan(15);
  });

  test("by 12 %, without noise, on even quarters: every note is found", () => {
    const score = plainScore({
      phrases: 2,
      silent: 4,
      accompanied: 12,
      tolerance: { driftPercent: 8, landingMs: 150 },
    });
    for (const share of [-0.12, 0.12]) {
      const onsets = score.expected.map(({ at }) => {
        const silence = score.dropouts.find(({ from, to }) => at > from && at <= to);
        return silence === undefined ? at : at + share * (at - silence.from);
      });
      const finding = assess(score, { zero: "bar-1", onsets });
      expect(finding, told(finding)).toMatchObject({ verdict: "beyond", missed: [], added: [] });
    }
  });
});

test("who rests through a silence and answers the return late has shown no drift", () => {
  const { score } = SCORES.find(({ name }) => name === "moving, 1 bar")!;
  const { take } = perform(score, { law: phaseCorrection, temper: "able" }, ["rests", "answers"]);
  const onsets = take.onsets.flatMap((onset, note) => {
    const { at } = score.expected[note]!;
    const silence = score.dropouts.find(({ from, to }) => at > from - 1e-6 && at < to + 1e-6);
    const time = typeof onset === "number" ? onset : onset.at;
    if (silence === undefined) return [time];
    return Math.abs(at - silence.to) < 1e-6 ? [time + 0.19] : [];
  });
  for (const { driftMs } of assess(score, { ...take, onsets }).dropouts) expect(driftMs).toHaveProperty("unmeasured");
});

describe("turningBack()", () => {
  const score = plainScore({ phrases: 1, accompanied: 8, silent: 8, outro: 8 });
  const guide = guideOf(score);
  const { from, to } = guide.stretches[0]!;
  const NOISE = { clock: 12, motor: 10, bias: 0.02, wander: 0.25, correction: 0.36 };
  // Where the player usually is, is known: nothing after the return tells of it.
  const PRIOR = { mean: -20, sd: 1e-6 };
  const chance = random("turning back");
  const late = guide.expected.map(
    (at) => -20 + (at > from ? 0.1 * (Math.min(at, to) - from) : 0) + 10 * chance.normal(),
  );
  const moved = (after: (at: number) => boolean): Float64Array =>
    late.map((ms, place) => (after(guide.expected[place]!) ? ms + 200 : ms));
  const driftOver = (times: readonly number[], ms: Float64Array): number =>
    passOver(turningBack(guide, times), ms, NOISE, PRIOR).drift[0]!;

  test("what comes after the return tells nothing of the drift, and the landing does unless it is in time again", () => {
    const after = moved((at) => at > to);
    const landing = moved((at) => at === to);
    expect(driftOver([to], after)).toBeCloseTo(driftOver([to], late), 6);
    expect(Math.abs(driftOver([], after) - driftOver([], late))).toBeGreaterThan(1);
    expect(Math.abs(driftOver([to], landing) - driftOver([to], late))).toBeGreaterThan(10);
    expect(driftOver([-to], landing)).toBeCloseTo(driftOver([-to], late), 6);
  });

  test.each([[[]], [[to]], [[-to]]])("the smoothed asynchrony changes over the silence by the drift: %j", (times) => {
    const { at, mean } = smoothOver(turningBack(guide, times), late, NOISE, PRIOR);
    const when = (time: number): number => mean[at.indexOf(time)]!;
    expect(when(to) - when(from)).toBeCloseTo(driftOver(times, late), 6);
  });
});
