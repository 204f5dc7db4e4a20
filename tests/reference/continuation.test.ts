import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../lib/drill/index.js";
import { checkFinding, checkScore, type Finding, type Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { ROOT } from "../sources.js";
import { must } from "../time/shorthand.js";
import { near, published } from "./published.js";

// 11,580 trials of eight beats with a click and sixteen without: Pazdera & Trainor 2025, Sci. Rep. 15, 17012, doi:10.1038/s41598-025-00827-4,
// raw data jpazdera/IllusoryMotor at 4e107d16 (CC BY 4.0), read in place. The curriculum of the task is ours.
const data = published("continuation", "11,580 synchronization-continuation trials");
const TASK = join(ROOT, "tests", "take", "continuation.yaml");

const TEMPO = { 400: "tempo=150", 600: "tempo=100" } as const;
type Ioi = keyof typeof TEMPO;
const IOIS: readonly Ioi[] = [400, 600];

interface Trial {
  readonly experiment: string;
  readonly subject: number;
  readonly trial: number;
  readonly ioi: Ioi;
  /** When the clicks sounded, in the unit of the taps. */
  readonly tones: readonly number[];
  readonly taps: readonly (readonly [ms: number, phase: "B" | "S" | "C"])[];
}

function scoreFor(ioi: Ioi): Score {
  const course = must(
    readCurriculum(readFileSync(TASK, "utf8"), { file: "continuation.yaml", readFile: () => undefined }),
  );
  return scoreOf(must(findRung(course.drills[0]!, TEMPO[ioi])));
}

describe("the curriculum of the task", () => {
  test.each(IOIS)("at %i ms a beat expects 24 taps, 8 with the click and 16 alone, and no return", (ioi) => {
    const score = scoreFor(ioi);
    expect(checkScore(score)).toMatchObject({ ok: true });
    expect(score.expected.map(({ at }) => Math.round(1000 * at))).toEqual(
      Array.from({ length: 24 }, (_, i) => i * ioi),
    );
    expect(score.audible).toEqual([{ from: 0, to: (8 * ioi) / 1000 }]);
    expect(score.dropouts).toMatchObject([
      { from: (8 * ioi) / 1000, to: (24 * ioi) / 1000, silent: true, landing: null },
    ]);
    expect([score.countIn, score.beat]).toEqual([0, ioi / 1000]);
  });
});

const quantile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  return sorted[below]! + (place - below) * ((sorted[below + 1] ?? sorted[below]!) - sorted[below]!);
};

/** The trials of four players are in seconds: eight tones take seven beats, a few seconds or a few thousand milliseconds. */
const inMilliseconds = (trial: Trial): Trial =>
  trial.tones.at(-1)! < 10 ? { ...trial, taps: trial.taps.map(([at, phase]) => [1000 * at, phase] as const) } : trial;

/** Continuation taps, ms. */
const alone = ({ taps }: Trial): number[] => taps.flatMap(([at, phase]) => (phase === "C" ? [at] : []));

/** Mean continuation interval against the beat, per cent: the plain estimate. */
function plainPercent(trial: Trial): number {
  const taps = alone(trial);
  return 100 * ((taps.at(-1)! - taps[0]!) / (taps.length - 1) / trial.ioi - 1);
}

/** No interval between taps skips or doubles a beat. */
function isClean({ taps, ioi }: Trial): boolean {
  return taps.every(([at], i) => i === 0 || (at - taps[i - 1]![0] > 0.6 * ioi && at - taps[i - 1]![0] < 1.5 * ioi));
}

describe.skipIf(!data.there)("11,580 real players in a real silence", () => {
  const asWritten: readonly Trial[] = data.there
    ? data
        .read("trials.jsonl")
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line))
    : [];
  const trials = asWritten.map(inMilliseconds);
  const findings: Finding[] = [];
  const name = ({ experiment, subject, trial }: Trial): string => `${experiment}, subject ${subject}, trial ${trial}`;

  test("the plain estimate over trials with 12 taps alone or more has the quantiles stated with the data", () => {
    // They were taken with the trials in seconds as they are written, which puts those at -100 %.
    const percents = asWritten.filter((trial) => alone(trial).length >= 12).map(plainPercent);
    percents.sort((a, b) => a - b);
    [
      [0.05, -35.39],
      [0.25, -7.71],
      [0.5, -3.12],
      [0.75, -0.23],
      [0.95, 4.85],
    ].forEach(([share, wanted]) => {
      // They were taken as the value at place (share x count), no interpolation.
      near(percents[Math.floor(share! * percents.length)]!, wanted!, 0.005 + 1e-9);
    });
  });

  test("every trial gives a finding, none throws, and every 50th fits the published schema", () => {
    expect(trials).toHaveLength(11_580);
    const scores = { 400: scoreFor(400), 600: scoreFor(600) };
    trials.forEach((trial, index) => {
      const onsets = trial.taps.map(([at]) => at / 1000);
      const finding = assess(scores[trial.ioi], { onsets, zero: "bar-1" });
      findings.push(finding);
      expect(finding.dropouts, name(trial)).toHaveLength(1);
      expect(finding.pairs.length + finding.missed.length, name(trial)).toBe(24);
      expect(finding.pairs.length + finding.added.length, name(trial)).toBe(onsets.length);
      if (index % 50 === 0) expect(checkFinding(finding), name(trial)).toMatchObject({ ok: true });
    });
  });

  test("the click does not come back, so no landing is claimed", () => {
    for (const { dropouts } of findings) expect(dropouts[0]).toMatchObject({ landing: null, recoveryBeats: null });
  });

  test("a drift that is not measured says why, and is never 0 or a verdict", () => {
    for (const { dropouts } of findings) {
      const { driftMs, standardErrorMs, verdict } = dropouts[0]!;
      if (typeof driftMs === "number") expect(standardErrorMs).toBeGreaterThan(0);
      else expect([driftMs.unmeasured !== "", verdict]).toEqual([true, "unclear"]);
    }
  });

  /** Clean trials whose drift was measured: found, plain, and the standard error of their difference, per cent. */
  const compared = (ioi: Ioi): { found: number; plain: number; error: number; finding: Finding }[] =>
    trials.flatMap((trial, index) => {
      const taps = alone(trial).length;
      const { driftPercent, standardErrorMs } = findings[index]!.dropouts[0]!;
      if (trial.ioi !== ioi || taps < 12 || !isClean(trial) || typeof driftPercent !== "number") return [];
      // Both see what the clock really did, so they differ by the hand alone: the plain estimate by that of its two ends, 24 ms each at most (the
      // deviation of single taps in these data while paced is 18-24 ms), the finding by its own standard error.
      const ends = (100 * Math.SQRT2 * 24) / ((taps - 1) * ioi);
      const error = Math.hypot(ends, (100 * (standardErrorMs as number)) / (16 * ioi));
      return [{ found: driftPercent, plain: plainPercent(trial), error, finding: findings[index]! }];
    });

  test.each(IOIS)(
    "at %i ms, in clean trials, drift agrees with the plain estimate within the errors of both",
    (ioi) => {
      const rows = compared(ioi);
      expect(rows.length).toBeGreaterThan(3500);
      const within = (errors: number): number =>
        rows.filter(({ found, plain, error }) => Math.abs(found - plain) <= errors * error).length / rows.length;
      expect(within(1.96)).toBeGreaterThanOrEqual(0.95);
      expect(within(2.576)).toBeGreaterThanOrEqual(0.99);
    },
  );

  test.each(IOIS)("at %i ms the drifts of clean trials are distributed as the plain estimates", (ioi) => {
    const rows = compared(ioi);
    // Two lists whose members differ by errors of this size each have quantiles that differ by less than that.
    const typical = quantile(
      rows.map(({ error }) => error),
      0.5,
    );
    for (const share of [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95]) {
      const [found, plain] = [rows.map((row) => row.found), rows.map((row) => row.plain)];
      near(quantile(found, share), quantile(plain, share), typical);
    }
  });

  test.each(IOIS)(
    "at %i ms a clear verdict on a clean trial contradicts the plain estimate in 1 of 100 at most",
    (ioi) => {
      const rows = compared(ioi);
      const wrong = rows.filter(({ plain, finding: { verdict } }) =>
        verdict === "within" ? Math.abs(plain) > 1.5 * 5 : verdict === "beyond" && Math.abs(plain) < 0.67 * 5,
      );
      expect(wrong.length / rows.length).toBeLessThanOrEqual(0.01);
    },
  );
});
