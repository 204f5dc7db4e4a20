import { describe, expect, test } from "vitest";
import { FAULTLESS } from "../grades.js";
import { phaseCorrection } from "../laws/index.js";
import { materials } from "../materials.js";
import { perform } from "../perform.js";
import { stageOf } from "../stage.js";
import { type Slip, slip } from "./slips.js";

const RUNGS = materials();
const SLIPS: readonly Slip[] = (["half a beat", "a beat", "half a bar", "a bar"] as const).flatMap((size) =>
  (["skips", "waits"] as const).flatMap((way) =>
    (["in the silence", "at the landing"] as const).flatMap((place) =>
      ([1, 2, "kept"] as const).flatMap((end) =>
        // Who waits a bar and is back a bar after the return plays nothing at the wrong place: that is no slip.
        size === "a bar" && way === "waits" && end === 1
          ? []
          : (["one", "every"] as const).map((often) => ({ size, way, place, end, often })),
      ),
    ),
  ),
);
const UNPLANNED: readonly Slip[] = (["a third of a beat", "three quarters of a beat", "two bars"] as const).flatMap(
  (size) =>
    (["skips", "waits"] as const).flatMap((way) =>
      (["in the silence", "at the landing"] as const).map(
        (place) => ({ size, way, place, end: "kept", often: "one" }) as const,
      ),
    ),
);
const NEAR = 6;

/** Every rung on which the slip can be made, with a faultless player who makes it. */
function played(each: Slip) {
  const habit = slip(each);
  return RUNGS.filter(({ score }) => habit.fits!(stageOf(score), score)).map((rung) => {
    const performance = perform(rung.score, { law: phaseCorrection, temper: FAULTLESS, habits: [habit] }, [
      "exact",
      rung.name,
    ]);
    const off = Array.from(performance.sounded, (at, note) => at - rung.score.expected[note]!.at);
    return { ...performance, off, rung, heard: [...off.keys()].filter((note) => !Number.isNaN(off[note]!)) };
  });
}

function secondsOf({ size, way }: Slip, { beat, bar }: { beat: number; bar: number }): number {
  const length = {
    "half a beat": beat / 2,
    "a beat": beat,
    "half a bar": bar / 2,
    "a bar": bar,
    "a third of a beat": beat / 3,
    "three quarters of a beat": 0.75 * beat,
    "two bars": 2 * bar,
  }[size];
  return way === "skips" ? -length : length;
}

describe.each([...SLIPS, ...UNPLANNED].map((each) => [slip(each).name, each] as const))("%s", (_name, each) => {
  const takes = played(each);

  test("can be made on some rung", () => expect(takes.length).toBeGreaterThan(0));

  test("notes sound in the order of the score, each in time or off by whole slips", () => {
    for (const { off, heard, sounded, stage } of takes) {
      for (let k = 1; k < heard.length; k++) expect(sounded[heard[k]!]).toBeGreaterThan(sounded[heard[k - 1]!]! - 1e-9);
      const size = secondsOf(each, stage);
      for (const note of heard) {
        const slips = off[note]! / size;
        expect(slips).toBeCloseTo(Math.round(slips), NEAR);
        expect(Math.round(slips)).toBeGreaterThanOrEqual(0);
      }
    }
  });

  test("the true drift is how far the landing is off more than what was played last before the silence, and the landing is where it sounded", () => {
    let shown = 0;
    for (const { off, heard, stage, truths } of takes) {
      stage.silences.forEach(({ from, landing }, index) => {
        const truth = truths[index]!;
        const before = heard.findLast((note) => stage.note[note]! < from)!;
        // Only a note of the last beat before the silence shows how far off the player was when it began.
        const shows = stage.at[from]! - stage.at[stage.note[before]!]! <= stage.beat;
        if (truth.landingPlayed && shows) {
          shown++;
          expect(truth.landingMs).toBeCloseTo(1000 * off[landing]!, NEAR);
          expect(truth.driftMs).toBeCloseTo(1000 * (off[landing]! - off[before]!), NEAR);
        }
        expect(truth.slipBeats).toBeCloseTo(truth.driftMs / 1000 / stage.beat, NEAR);
      });
    }
    expect(shown).toBeGreaterThan(0);
  });

  test("one silence or all have it, each of the size said", () => {
    for (const { stage, truths } of takes) {
      const slipped = truths.filter(({ slipBeats }) => slipBeats !== 0);
      expect(slipped).toHaveLength(each.often === "one" ? 1 : truths.length);
      for (const { slipBeats } of slipped) expect(slipBeats).toBeCloseTo(secondsOf(each, stage) / stage.beat, NEAR);
    }
  });

  test("kept, the last note is off by all slips made; taken back, it is in time before the next silence", () => {
    for (const { off, heard, stage, truths } of takes) {
      const made = truths.reduce((sum, { slipBeats }) => sum + slipBeats, 0) * stage.beat;
      if (each.end === "kept") expect(off[heard.at(-1)!]).toBeCloseTo(made, NEAR);
      for (const { from } of each.end === "kept" ? [] : stage.silences) {
        const before = heard.findLast(
          (note) => stage.at[stage.note[note]!]! < stage.at[from]! - 1e-6 && stage.note[note]! < from,
        )!;
        if (stage.at[from]! - stage.at[stage.note[before]!]! <= stage.beat) expect(off[before]).toBeCloseTo(0, NEAR);
      }
    }
  });

  test("a skipping player leaves out what he jumps over and a waiting one what he has not come to: no more than a slip's length for each slip", () => {
    for (const { off, stage, rung } of takes) {
      const left = [...off.keys()].filter((note) => Number.isNaN(off[note]!)).length;
      const slips = each.often === "one" ? 1 : stage.silences.length;
      const densest = Math.max(
        ...rung.score.expected.map(
          ({ at }) =>
            rung.score.expected.filter(
              (other) => other.at >= at - 1e-6 && other.at < at + Math.abs(secondsOf(each, stage)) - 1e-6,
            ).length,
        ),
      );
      expect(left).toBeLessThanOrEqual(slips * densest);
    }
  });
});
