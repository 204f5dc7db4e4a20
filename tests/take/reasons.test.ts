import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import type { Finding, PlayedOnset, Score, Take } from "../../lib/schema/index.js";
import { assess, REASONS, type ReasonCode } from "../../lib/take/index.js";
import { MATERIALS, materialScore } from "../bench/material.js";
import { movedBy, plainScore, scatteredBy, takeOf, timesOf } from "./scores.js";

const eighths = plainScore({ perBeat: 2 });
const quarters: Score = { ...plainScore(), rung: "variant=plain" };
// In each phrase of 32 eighths three are left out, and a triplet note comes after two others.
const ownTune = eighths.expected.flatMap(({ at }, note) => [
  ...([3, 9, 13].includes(note % 32) ? [] : [at]),
  ...([5, 17].includes(note % 32) ? [at + eighths.beat / 3] : []),
]);
const syncopated = materialScore(MATERIALS.find(({ name }) => name === "syncopated sixteenths")!, {
  bpm: 96,
  silentBeats: 4,
  tolerancePercent: 2.5,
});
const played = (onsets: readonly number[], seed: string): Take =>
  scatteredBy({ onsets: [...onsets].sort((a, b) => a - b), zero: "bar-1" }, 5, seed);
const { from } = eighths.dropouts[1]!;
const outside = (score: Score, index: number): number[] => {
  const silence = score.dropouts[index]!;
  return timesOf(takeOf(score)).filter((at) => at <= silence.from + 1e-6 || at >= silence.to - 1e-6);
};
const doubled = [
  ...timesOf(takeOf(eighths)),
  ...eighths.expected.slice(1).map(({ at }, note) => (at + eighths.expected[note]!.at) / 2),
];
const landing = syncopated.dropouts[1]!.to - 1e-6;
const beatEarly = syncopated.expected.flatMap(({ at }) =>
  at < landing ? [at] : at < landing + syncopated.beat ? [] : [at - syncopated.beat],
);

/** The syncopated score with a limit for the landing, and pitches that change from note to note. */
const asked: Score = {
  ...syncopated,
  expected: syncopated.expected.map((note, i) => ({ ...note, pitch: ["D4", "F4", "G4", "A4", "C5"][i % 5]! })),
  tolerance: { driftPercent: 2.5, landingMs: 90 },
};

/** Every note in time and in tune, but for what becomes of each landing. */
function withLanding(change: (onset: PlayedOnset) => PlayedOnset | undefined): Take {
  const returns = new Set(asked.dropouts.map(({ to }) => Math.round(1e3 * to)));
  const onsets = asked.expected.flatMap(({ at, pitch }) => {
    const onset = { at, pitch: pitch! };
    const played = returns.has(Math.round(1e3 * at)) ? change(onset) : onset;
    return played === undefined ? [] : [played];
  });
  return { onsets: onsets.sort((a, b) => a.at - b.at), zero: "bar-1" };
}

/** A take for each reason; that it is raised is the test. */
const RAISES: Readonly<Record<Exclude<ReasonCode, "MAYBE_SLIPPED" | "TWO_PAIRINGS">, () => Finding>> = {
  NOTHING_PLAYED: () => assess(eighths, { onsets: [] }),
  TOO_LITTLE_PLAYED: () => assess(eighths, played(timesOf(takeOf(eighths)).slice(0, 30), "too little")),
  DOUBLE_RATE: () => assess(eighths, played(doubled, "double")),
  HALF_RATE: () =>
    assess(
      eighths,
      played(
        timesOf(takeOf(eighths)).filter((_, note) => note % 2 === 0),
        "half",
      ),
    ),
  SLIPPED: () => assess(syncopated, played(beatEarly, "slipped")),
  STILL_AWAY: () => assess(asked, played(beatEarly, "slipped")),
  LANDED_OFF: () =>
    assess(
      asked,
      withLanding((at) => ({ ...at, at: at.at + 0.25 })),
    ),
  LANDING_LEFT_OUT: () =>
    assess(
      asked,
      withLanding(() => undefined),
    ),
  NOT_THIS_RIFF: () => {
    const chance = random("another riff");
    const onsets = Array.from({ length: eighths.expected.length }, () => eighths.duration * chance.uniform());
    return assess(eighths, { onsets: onsets.sort((a, b) => a - b), zero: "bar-1" });
  },
  ANOTHER_TEMPO: () =>
    assess(
      syncopated,
      played(
        timesOf(takeOf(syncopated)).map((at) => 1.1 * at),
        "tempo",
      ),
    ),
  ANOTHER_RUNG: () => assess(eighths, played(timesOf(takeOf(quarters)), "rung"), { others: [quarters] }),
  OTHER_NOTES: () => assess(eighths, played(ownTune, "other notes")),
  STARTS_ELSEWHERE: () => assess(syncopated, movedBy(played(timesOf(takeOf(syncopated)), "elsewhere"), 1.5)),
  MOVED_ONCE: () => {
    const { to } = syncopated.dropouts[0]!;
    const from = to + 4 * syncopated.beat;
    const onsets = timesOf(takeOf(syncopated, (at) => (at < from ? at : at + 0.1)));
    return assess(syncopated, played(onsets, "moved"));
  },
  POORLY_EXPLAINED: () =>
    assess(
      eighths,
      played([...outside(eighths, 1), ...[0.11, 0.37, 0.83, 1.2, 1.44, 1.67].map((at) => from + at)], "poor"),
    ),
  GUIDED: () =>
    assess(
      { ...eighths, dropouts: eighths.dropouts.map((each, i) => ({ ...each, silent: i !== 1 })) },
      played(timesOf(takeOf(eighths)), "guided"),
    ),
  TOO_FEW_NOTES: () =>
    assess(
      eighths,
      played(
        // The downbeat of each silence, and everything outside.
        timesOf(takeOf(eighths)).filter((at) =>
          eighths.dropouts.every(({ from, to }) => at < from + 0.1 || at > to - 0.1),
        ),
        "few",
      ),
    ),
  NOTES_TOO_CLOSE: () => {
    const score = plainScore({ perBeat: 4 });
    return assess(score, scatteredBy(takeOf(score), 40, "too close"));
  },
};

const BEYOND = new Set<string>(["SLIPPED", "STILL_AWAY", "LANDED_OFF"]);
const WITHIN = new Set<string>(["GUIDED"]);

describe("REASONS", () => {
  test.each(Object.entries(RAISES).filter(([code]) => !WITHIN.has(code)))(
    "%s is raised by a take of its kind, and leaves the take without a clear 'within'",
    (code, raise) => {
      const { reasons, verdict, dropouts } = raise();
      const found = reasons.find((reason) => reason.code === code);
      expect(found, JSON.stringify(reasons)).toBeDefined();
      expect(found!.says).toMatch(/^[A-Z].*[.?]$/);
      expect(verdict).not.toBe("within");
      if (found!.dropout !== undefined)
        expect(dropouts[found!.dropout]!.verdict).toBe(BEYOND.has(code) ? "beyond" : "unclear");
      else for (const each of dropouts) expect(each.verdict).toBe("unclear");
    },
  );

  test("MAYBE_SLIPPED is raised when a slip explains a take no better than the score does, and decides nothing", () => {
    const score = materialScore(MATERIALS.find(({ name }) => name === "swung eighths")!, {
      bpm: 96,
      silentBeats: 4,
      tolerancePercent: 2.5,
    });
    const { take } = playTake(score, PLAYERS.able, "ableswung eighths19");
    // From the third landing on a beat ahead: even notes hide it, but for the ends.
    const seam = score.dropouts[2]!.to - 0.2;
    const onsets = timesOf(take).flatMap((at) => (at < seam ? [at] : at < seam + score.beat ? [] : [at - score.beat]));
    const { reasons, dropouts } = assess(score, { ...take, onsets });
    const found = reasons.find(({ code }) => code === "MAYBE_SLIPPED");
    expect(found?.says).toMatch(/^After 4 beats of silence you either left out or added notes, or came in /);
    expect(dropouts[found!.dropout!]!.verdict).toBe("unclear");
  });

  test("TWO_PAIRINGS is raised by players so unsteady that two readings come out alike", () => {
    let raised = 0;
    for (let run = 0; run < 80 && raised < 3; run++) {
      const score = materialScore(MATERIALS[run % MATERIALS.length]!, {
        bpm: 100,
        silentBeats: 8,
        tolerancePercent: 2.5,
      });
      const { take } = playTake(score, PLAYERS.wild, `two readings ${run}`);
      const { reasons, dropouts } = assess(score, take);
      for (const { code, says, dropout } of reasons) {
        if (code !== "TWO_PAIRINGS" || dropout === undefined) continue;
        raised++;
        expect(says).toMatch(
          /^The notes of silence \d+ can be read in two ways: as ending (\d+ ms (early|late)|on the beat) or (\d+ ms (early|late)|on the beat)\.$/,
        );
        expect(dropouts[dropout]!.verdict).toBe("unclear");
      }
    }
    expect(raised).toBeGreaterThanOrEqual(3);
  });

  test("all of them are raised in these tests", () => {
    expect([...Object.keys(RAISES), "MAYBE_SLIPPED", "TWO_PAIRINGS"].sort()).toEqual(Object.keys(REASONS).sort());
  });

  test("a silence in which something sounded is judged like the others, and said to be one", () => {
    const { dropouts, reasons, verdict } = RAISES.GUIDED();
    expect(reasons.map(({ code, dropout }) => [code, dropout])).toEqual([["GUIDED", 1]]);
    expect(dropouts.map(({ verdict }) => verdict)).toEqual(["within", "within", "within", "within"]);
    expect(verdict).toBe("within");
  });
});
