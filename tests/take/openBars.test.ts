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
      const { take } = playTake({ ...score, open: [] }, PLAYERS.able, `nothing meant ${run}`);
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

  describe("as silences are judged by the landing, and by drift only where they show a pulse", () => {
    const limits = { driftPercent: 5, landingMs: 90 };
    const score: Score = { ...openScore("even", 2), tolerance: limits };
    /** Quarters at a share of their length in each open bar, everything else exact but for a player's own 5 ms; landings moved by some ms. */
    const quarters = (share: number, landingMs = 0) => {
      const notes = score.open.flatMap(({ from }) => [0, 1, 2, 3].map((k) => from + share * k * score.beat));
      const written = score.expected.map(({ at }) => {
        const lands = score.dropouts.some(({ to }) => Math.abs(at - to) < 1e-6);
        return at + (lands ? landingMs / 1000 : 0);
      });
      return scatteredBy(
        { onsets: [...written, ...notes].sort((a, b) => a - b), zero: "bar-1" },
        5,
        `quarters ${share}`,
      );
    };

    test("four quarters, in time or 10 % fast, show no drift: the row says why, as that of the open bar does, and the sentence claims none", () => {
      for (const share of [1, 0.9]) {
        const finding = assess(score, quarters(share));
        expect(checkFinding(finding)).toMatchObject({ ok: true });
        finding.dropouts.forEach(({ driftMs, standardErrorMs, verdict, landing }, k) => {
          expect(driftMs).toMatchObject({ unmeasured: "4 notes are too few to tell the pulse" });
          expect([driftMs, standardErrorMs]).toEqual([finding.openBars[k]!.driftMs, driftMs]);
          expect(verdict === "within" || (share < 1 && verdict === "unclear")).toBe(true);
          expect(landing).toMatchObject({ ms: expect.any(Number) });
        });
        if (finding.verdict !== "within") continue;
        expect(finding.sentence).toMatch(
          /^You landed (\d+ ms (early|late)|on the beat) after one bar of silence.*this take does not show\.$/,
        );
      }
    });

    test("a landing that is off is never within, and without a limit for it nothing can be judged", () => {
      for (const off of [110, 150, 230]) {
        const { verdict, sentence } = assess(score, quarters(1, off));
        expect(verdict).not.toBe("within");
        expect(sentence).toMatch(
          /(landing came|missed the downbeat:) \d+ ms late|which note is the landing cannot be told/,
        );
      }
      const unlimited = assess(score, quarters(1), { tolerance: { driftPercent: 5 } });
      expect([unlimited.verdict, unlimited.sentence]).toEqual([
        "unclear",
        "This take cannot be judged: 4 notes are too few to tell the pulse.",
      ]);
    });

    test("who rests through them is told to play", () => {
      const onsets = score.expected.map(({ at }) => at);
      expect(assess(score, scatteredBy({ onsets, zero: "bar-1" }, 5, "rests"))).toMatchObject({
        verdict: "unclear",
        sentence:
          "You played nothing through one bar of silence: play on through it, so that your time there can be heard.",
      });
    });

    test("no row of a silence is measured whose open bar is not, whoever improvises", () => {
      let unmeasured = 0;
      for (const grade of ["seasoned", "able", "novice"] as const)
        for (let run = 0; run < 10; run++) {
          const { take } = improvise(score, PLAYERS[grade], { seed: `one voice ${run}`, fewest: 3 });
          const { dropouts, openBars } = assess(score, take);
          openBars.forEach(({ driftMs }, k) => {
            if (typeof driftMs === "number") return;
            unmeasured++;
            expect(typeof dropouts[k]!.driftMs).toBe("object");
          });
        }
      expect(unmeasured).toBeGreaterThan(5);
    });
  });
});
