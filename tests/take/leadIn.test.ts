import { expect, test } from "vitest";
import { everybody } from "../bench/landing/cast.js";
import { judge, type Verdict } from "../bench/landing/judged.js";
import { wilson } from "../bench/landing/wilson.js";
import { leadInOnDownbeat } from "../reference/players/habits/landings.js";
import { materials } from "../reference/players/materials.js";
import { perform } from "../reference/players/perform.js";
import { sample } from "../samples.js";

const TAKES = sample({ suite: 1, proof: 36 });

/** Verdicts with pitches on silences truly out, each landing so late after a note a step below it that falls on the downbeat. */
function verdicts(ms: number): readonly Verdict[] {
  return materials().flatMap(({ name, score }, place) =>
    Array.from({ length: TAKES }, (_, take) => take).flatMap((take) => {
      const player = everybody(leadInOnDownbeat("every", ms, -2))(take + place);
      const { silences } = judge(score, perform(score, player, ["lead-in", name, take]), "pitches");
      return silences.filter(({ true: truly }) => truly === "out").map(({ verdict }) => verdict);
    }),
  );
}

test.each([180, 250, -250])(
  "a note of another pitch on the downbeat does not stand in for a landing that comes %i ms after it",
  (ms) => {
    const found = verdicts(ms);
    const within = wilson(found.filter((verdict) => verdict === "within").length, found.length);
    // 12 to 21 in 100 before such notes were thought of.
    expect(within.low, `${within.count} of ${within.of}`).toBeLessThan(0.005);
    expect(found.filter((verdict) => verdict === "beyond").length).toBeGreaterThan(0.25 * found.length);
  },
);

test("a wrong pitch on the downbeat alone is no lead-in", () => {
  const { score } = materials().find(({ name }) => name === "moving, 1 bar")!;
  const { take } = perform(score, everybody()(0), ["wrong landing"]);
  const landings = score.dropouts.map(({ to }) => score.expected.findIndex(({ at }) => at > to - 1e-6));
  const onsets = take.onsets.map((onset, k) =>
    landings.includes(k) && typeof onset === "object" ? { ...onset, pitch: "E4" } : onset,
  );
  const { silences } = judge(
    score,
    { ...perform(score, everybody()(0), ["wrong landing"]), take: { ...take, onsets } },
    "pitches",
  );
  expect(silences.map(({ verdict }) => verdict)).toEqual(score.dropouts.map(() => "within"));
});
