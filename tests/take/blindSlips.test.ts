import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../lib/drill/index.js";
import type { Score } from "../../lib/schema/index.js";
import { assess, blindSlips, SLIP_SHOWN } from "../../lib/take/index.js";
import { must } from "../time/shorthand.js";
import { plainScore, scatteredBy } from "./scores.js";

/** The least over the silences, by size in beats. */
function least(score: Score): Readonly<Record<number, number>> {
  const sizes: Record<number, number> = {};
  for (const { beats, logOdds } of blindSlips(score))
    sizes[beats] = Math.min(sizes[beats] ?? Number.POSITIVE_INFINITY, logOdds);
  return sizes;
}

function shipped(course: string, drill: string, rung: string): Score {
  const file = `curricula/${course}.yaml`;
  const { drills } = must(readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined }));
  return scoreOf(must(findRung(drills.find(({ name }) => name === drill)!, rung)));
}

describe("blindSlips()", () => {
  test("an even line hides slips by its own step and its multiples, and no others", () => {
    const quarters = least(plainScore());
    expect(quarters[0.5]).toBeGreaterThan(SLIP_SHOWN);
    for (const beats of [1, 2, 4]) expect(quarters[beats]).toBeLessThan(-SLIP_SHOWN);
    const eighths = least(plainScore({ perBeat: 2 }));
    for (const beats of [0.5, 1, 2, 4]) expect(eighths[beats]).toBeLessThan(-SLIP_SHOWN);
  });

  test("rests in the silence and in the bar after it show them", () => {
    const even = plainScore({ perBeat: 2 });
    const rests = even.dropouts.flatMap(({ from, to }) => [from + 0.75, from + 1.25, to + 0.75, to + 1.25]);
    const broken = { ...even, expected: even.expected.filter(({ at }) => !rests.includes(at)) };
    for (const beats of [0.5, 1]) expect(least(broken)[beats]).toBeGreaterThan(SLIP_SHOWN);
  });

  test("the running sevens hide half a beat and a beat; riffs of long and short notes show half a beat", () => {
    const sevens = least(shipped("quayside-odd-meters", "sevens-dropouts", "dropout=1 bar,tempo=88,variant=busy"));
    expect(sevens[0.5]).toBeLessThan(-SLIP_SHOWN);
    expect(sevens[1]).toBeLessThan(-SLIP_SHOWN);
    const lantern = least(
      shipped("quayside-wind-and-brass", "lantern-dropouts", "dropout=2 bars,parts=bass+kit,tempo=100,variant=plain"),
    );
    for (const beats of [0.5, 1]) expect(lantern[beats]).toBeGreaterThan(SLIP_SHOWN);
  });

  test("a silence without a return, or a score without silences, shows nothing", () => {
    expect(blindSlips(plainScore({ phrases: 1, outro: 0 }))).toEqual([]);
    expect(blindSlips(plainScore({ silent: 0, accompanied: 16 }))).toEqual([]);
  });

  test("what it says is what takes show: a slip that is kept is told where the odds are high, and is not where they are low", () => {
    const slip = (score: Score, beats: number): string[] => {
      const { from } = score.dropouts[1]!;
      const by = beats * score.beat;
      const onsets = score.expected.map(({ at }) => (at > from + 0.6 ? at + by : at));
      return assess(score, scatteredBy({ onsets, zero: "bar-1" }, 8, "kept")).reasons.map(({ code }) => code);
    };
    const quarters = plainScore({ tolerance: { driftPercent: 4, landingMs: 90 } });
    expect(slip(quarters, 0.5)).toContain("SLIPPED");
    expect(slip(quarters, 1)).not.toContain("SLIPPED");
  });
});
