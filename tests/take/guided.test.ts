import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

/** Four silences of a bar in which only the kit leaves, on quarters with pitches that change. */
function guided(tolerance: Score["tolerance"]): Score {
  const plain = plainScore({ tolerance });
  return {
    ...plain,
    expected: plain.expected.map((note, i) => ({ ...note, pitch: ["D4", "F4", "G4", "A4", "C5"][i % 5]! })),
    dropouts: plain.dropouts.map((each) => ({ ...each, silent: false })),
    audible: [{ from: -plain.countIn, to: plain.duration }],
  };
}
const pitched = (score: Score): { at: number; pitch: string }[] =>
  score.expected.map(({ at, pitch }) => ({ at, pitch: pitch! }));

describe("a silence in which part of the accompaniment goes on", () => {
  const score = guided({ driftPercent: 4, landingMs: 60, steadinessMs: 30 });

  test("is within for who keeps to what sounds, and is said to be one", () => {
    const finding = assess(score, scatteredBy({ onsets: pitched(score), zero: "bar-1" }, 8, "kept"));
    expect(finding.verdict).toBe("within");
    expect(finding.sentence).toMatch(/^In time: at most \d+ ms (early|late) after one bar of silence/);
    expect(finding.reasons[0]!.says).toBe(
      "Part of the band played on through silence 1: you are judged by how you kept to it.",
    );
    expect(finding.dropouts.every(({ landing }) => landing !== null && "ms" in landing)).toBe(true);
  });

  test("is beyond for who moves away from what sounds", () => {
    const { verdict } = assess(score, takeOf(score, slowerInSilence(score, 0.08)));
    expect(verdict).toBe("beyond");
  });

  test("is beyond for who lands half a beat late in it", () => {
    const { from, to } = score.dropouts[1]!;
    const late = pitched(score).map((each) =>
      each.at > from + 0.6 && each.at < to + 1.9 ? { ...each, at: each.at + score.beat / 2 } : each,
    );
    const { dropouts, verdict } = assess(score, scatteredBy({ onsets: late, zero: "bar-1" }, 8, "half a beat"));
    expect(verdict).toBe("beyond");
    expect(dropouts.map((each) => each.verdict)).toEqual(["within", "beyond", "within", "within"]);
  });

  test("needs a landing note that was played where the landing alone is asked", () => {
    const only = guided({ landingMs: 60 });
    const at = only.dropouts.map(({ to }) => to);
    const onsets = pitched(only).filter((note) => !at.includes(note.at));
    expect(assess(only, scatteredBy({ onsets, zero: "bar-1" }, 8, "left out")).verdict).toBe("unclear");
    expect(assess(only, scatteredBy({ onsets: pitched(only), zero: "bar-1" }, 8, "played")).verdict).toBe("within");
  });
});
