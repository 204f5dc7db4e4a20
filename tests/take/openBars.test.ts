import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import { checkFinding, type PlayedOnset, type Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { GRIDS, improvise, openScore } from "./openTakes.js";
import { scatteredBy } from "./scores.js";

const reason = { unmeasured: expect.stringMatching(/\S/) };
const grids = Object.keys(GRIDS) as (keyof typeof GRIDS)[];

/** A take of everything written, and these onsets in the first open bar. */
function withNotes(score: Score, notes: readonly PlayedOnset[]): { onsets: PlayedOnset[]; zero: "bar-1" } {
  const { onsets } = scatteredBy({ onsets: score.expected.map(({ at }) => at) }, 6, "written");
  const all = [...onsets.map((at) => ({ at: at as number })), ...notes].sort((a, b) => a.at - b.at);
  return { onsets: all, zero: "bar-1" };
}

describe("open bars", () => {
  test.each(grids)(
    "of an improviser on the %s grid: drift is that of a smoother told the grid, within half as much error again",
    (grid) => {
      for (const grade of ["seasoned", "able"] as const) {
        const score = openScore(grid);
        let [error, toldError, measured, inside, stretches] = [0, 0, 0, 0, 0];
        for (let run = 0; run < 25; run++) {
          const { take, truth, told } = improvise(score, PLAYERS[grade], { seed: `open ${grid} ${grade} ${run}` });
          const finding = assess(score, take);
          finding.openBars.forEach(({ driftMs, standardErrorMs }, index) => {
            stretches++;
            if (typeof driftMs !== "number") return;
            measured++;
            error += (driftMs - truth.driftMs[index]!) ** 2;
            toldError += (told[index]! - truth.driftMs[index]!) ** 2;
            if (Math.abs(driftMs - truth.driftMs[index]!) <= 1.96 * (standardErrorMs as number)) inside++;
          });
        }
        // Enough of them for the comparison.
        expect(measured / stretches, grade).toBeGreaterThan(grade === "seasoned" ? 0.5 : 0.2);
        expect(Math.sqrt(error / toldError), grade).toBeLessThanOrEqual(1.5);
        // Were the stretches independent, 95 % within 1.96 standard errors up to the error of the count; the four of a take share a noise.
        expect(inside / measured, grade).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05 * 4) / measured));
      }
    },
  );

  test("agree with the dropout they lie in: the same drift within both errors", () => {
    const score = openScore("even");
    for (let run = 0; run < 6; run++) {
      const { take } = improvise(score, PLAYERS.seasoned, { seed: `agree ${run}` });
      const { openBars, dropouts } = assess(score, take);
      openBars.forEach(({ driftMs, standardErrorMs }, index) => {
        const dropout = dropouts[index]!;
        if (typeof driftMs !== "number" || typeof dropout.driftMs !== "number") return;
        // The same stretch by the same smoother; what comes after the next stretch begins may be counted in one and not in the other.
        expect(Math.abs(driftMs - dropout.driftMs)).toBeLessThanOrEqual(standardErrorMs as number);
      });
    }
  });

  test("of onsets at random: a pulse is claimed in at most 5 % of stretches, up to the error of the count", () => {
    let [claimed, stretches] = [0, 0];
    for (let run = 0; run < 120; run++) {
      const score = openScore(run % 2 === 0 ? "even" : "swung");
      const chance = random(`nothing meant ${run}`);
      const noise = score.open.flatMap(({ from, to }) =>
        Array.from({ length: 5 + chance.below(8) }, () => ({ at: from + chance.uniform() * (to - from) })),
      );
      const { take } = playTake(score, PLAYERS.able, `nothing meant ${run}`);
      const finding = assess(score, { ...take, onsets: [...take.onsets, ...noise] });
      for (const { driftMs } of finding.openBars) {
        stretches++;
        if (typeof driftMs === "number") claimed++;
      }
    }
    expect(claimed).toBeLessThanOrEqual(0.05 * stretches + 3 * Math.sqrt(0.05 * 0.95 * stretches));
  });

  test("with pitches tell the share of notes in the scale, and without them say why not", () => {
    const score = openScore("even", 1);
    const { from } = score.open[0]!;
    // D E F# G A C B C#: two of eight are not in D dorian.
    const pitches = ["D4", "E4", "F#4", "G4", 69, 72, "B4", "C#5"] as const;
    const notes = pitches.map((pitch, i) => ({ at: from + 0.25 * i, pitch }));
    const [finding] = assess(score, withNotes(score, notes)).openBars;
    expect(finding).toMatchObject({ notes: 8, inScale: 0.75, driftMs: expect.any(Number) });
    const unpitched = assess(
      score,
      withNotes(
        score,
        notes.map(({ at }) => ({ at })),
      ),
    ).openBars[0]!;
    expect(unpitched.inScale).toMatchObject({ unmeasured: "the take has no pitches" });
    // One note of unknown pitch is left out of the share: 5 of 7.
    const some = assess(
      score,
      withNotes(
        score,
        notes.map(({ at, pitch }, i) => (i === 0 ? { at } : { at, pitch })),
      ),
    ).openBars[0]!;
    expect(some.inScale).toBe(0.7143);
  });

  test("in which nothing, or too little, was played are unmeasured with a reason, and notes there are never additions", () => {
    const score = openScore("even", 1);
    const { from } = score.open[0]!;
    for (const count of [0, 1, 4]) {
      const notes = Array.from({ length: count }, (_, i) => ({ at: from + 0.375 * i + 0.01, pitch: 62 }));
      const finding = assess(score, withNotes(score, notes));
      expect(checkFinding(finding)).toMatchObject({ ok: true });
      expect(finding.added).toEqual([]);
      expect(finding.openBars[0]).toMatchObject({
        notes: count,
        driftMs: {
          unmeasured:
            count === 1 ? "1 note is too few to tell the pulse" : `${count} notes are too few to tell the pulse`,
        },
        driftPercent: reason,
        standardErrorMs: reason,
        lockP: reason,
        inScale: count === 0 ? { unmeasured: "nothing was played" } : 1,
      });
    }
  });

  test("whose notes show no pulse say so, with the probability", () => {
    const score = openScore("even", 1);
    const { from } = score.open[0]!;
    const notes = [0.06, 0.31, 0.44, 0.69, 1.06, 1.19, 1.56, 1.81].map((after) => ({ at: from + after }));
    const [finding] = assess(score, withNotes(score, notes)).openBars;
    expect(finding!.lockP).toBeGreaterThan(0.05);
    expect(finding!.driftMs).toMatchObject({ unmeasured: "the notes do not show a pulse that chance would not" });
  });

  test("follow the grid the score lists, or even subdivisions when it lists none", () => {
    const score = openScore("even", 1);
    const bare: Score = { ...score, open: score.open.map(({ grid: _, ...open }) => open) };
    const { take } = improvise(score, PLAYERS.seasoned, { seed: "no grid" });
    expect(assess(bare, take).openBars).toEqual(assess(score, take).openBars);
  });

  test("that a player is too unsteady for are unmeasured, all three figures for the same reason, and not always the same one", () => {
    const reasons = new Set<string>();
    for (const [grade, grid] of [
      ["wild", "swung"],
      ["novice", "even"],
    ] as const) {
      const score = openScore(grid);
      for (let run = 0; run < 40; run++) {
        const { take } = improvise(score, PLAYERS[grade], { seed: `dense ${run}`, fewest: 8 });
        for (const { driftMs, driftPercent, standardErrorMs } of assess(score, take).openBars) {
          if (typeof driftMs === "number") continue;
          expect([driftPercent, standardErrorMs]).toEqual([driftMs, driftMs]);
          reasons.add(driftMs.unmeasured);
        }
      }
    }
    expect(reasons).toContain("the notes do not show a pulse that chance would not");
    expect(reasons.size).toBeGreaterThan(1);
  });
});
