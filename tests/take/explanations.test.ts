import { describe, expect, test } from "vitest";
import type { Finding, Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { MATERIALS, materialScore } from "../bench/material.js";
import { driftsOf, movedBy, plainScore, scatteredBy, slowerInSilence, takeOf, timesOf } from "./scores.js";

const scoreOf = (name: string): Score =>
  materialScore(MATERIALS.find((material) => material.name === name)!, {
    bpm: 96,
    silentBeats: 4,
    tolerancePercent: 2.5,
  });
const codes = ({ reasons }: Finding): string[] => reasons.map(({ code }) => code);
const take = (onsets: readonly number[], seed: string, sdMs = 6): Take =>
  scatteredBy({ onsets: [...onsets].sort((a, b) => a - b), zero: "bar-1" }, sdMs, seed);

/** Halfway to the next note. */
const between = (score: Score, note: number): number => (score.expected[note]!.at + score.expected[note + 1]!.at) / 2;

describe("a player at another rate", () => {
  const inside = ({ dropouts }: Score, at: number): boolean =>
    at >= dropouts[1]!.from - 1e-6 && at < dropouts[1]!.to - 1e-6;

  test.each(["quarters", "eighths"])("at twice the rate in one silence of %s is told there, and unclear", (name) => {
    const score = scoreOf(name);
    const extra = score.expected.flatMap(({ at }, note) => (inside(score, at) ? [between(score, note)] : []));
    const finding = assess(score, take([...timesOf(takeOf(score)), ...extra], `double ${name}`));
    expect(finding.reasons).toContainEqual(expect.objectContaining({ code: "DOUBLE_RATE", dropout: 1 }));
    expect(finding.verdict).toBe("unclear");
    expect(finding.dropouts.map(({ verdict }) => verdict)).toEqual(["within", "unclear", "within", "within"]);
  });

  test.each(["quarters", "eighths"])(
    "at twice the rate throughout %s leaves the whole take and each silence unclear",
    (name) => {
      const score = scoreOf(name);
      const extra = score.expected.slice(1).map((_, note) => between(score, note));
      const finding = assess(score, take([...timesOf(takeOf(score)), ...extra], `double all ${name}`));
      expect(finding.reasons[0]).toMatchObject({
        code: "DOUBLE_RATE",
        says: "The notes fit two readings: as written, or twice as fast throughout.",
      });
      expect(finding.sentence).toBe(finding.reasons[0]!.says);
      for (const { verdict } of [finding, ...finding.dropouts]) expect(verdict).toBe("unclear");
    },
  );

  test("at half the rate in a silence of eighths is told there, and unclear", () => {
    const score = scoreOf("eighths");
    const half = score.expected.flatMap(({ at }, note) => (inside(score, at) && note % 2 === 1 ? [] : [at]));
    const finding = assess(score, take(half, "half"));
    expect(finding.reasons).toContainEqual(expect.objectContaining({ code: "HALF_RATE", dropout: 1 }));
    expect(finding.dropouts[1]!.verdict).toBe("unclear");
  });

  test.each(["quarters", "eighths"])(
    "at half the rate throughout %s leaves the whole take and each silence unclear",
    (name) => {
      const score = scoreOf(name);
      const half = score.expected.flatMap(({ at }, note) => (note % 2 === 1 ? [] : [at]));
      const finding = assess(score, take(half, `half all ${name}`));
      expect(codes(finding)).toContain("HALF_RATE");
      for (const { verdict } of [finding, ...finding.dropouts]) expect(verdict).toBe("unclear");
    },
  );

  const long = plainScore({ beat: 0.6, accompanied: 8, silent: 16, phrases: 1, outro: 0 });
  const { from: silence } = long.dropouts[0]!;
  /** A player whose tempo slides by this share within four beats of the silence and stays there. */
  function slid(share: number, run: number): Finding {
    const late = (beats: number): number => (beats < 4 ? (share * beats ** 2) / 8 : share * (beats - 2));
    const warp = (at: number): number => (at <= silence ? at : at + long.beat * late((at - silence) / long.beat));
    return assess(long, take(timesOf(takeOf(long, warp)), `rate ${share} ${run}`, 20 + 5 * run));
  }

  test.each([-0.6, -0.5, -0.3, -0.2, 0.2, 0.3, 0.5, 0.7])(
    "who slides to a rate of %f in a long silence is never within, and never told a wrong drift for sure",
    (share) => {
      for (let run = 0; run < 5; run++) {
        const { verdict, driftPercent, standardErrorMs } = slid(share, run).dropouts[0]!;
        expect(verdict).not.toBe("within");
        if (verdict === "unclear") continue;
        // Four beats of sliding take two beats' worth off the sixteen: 14 beats of the share.
        const error = (100 * (standardErrorMs as number)) / (16_000 * long.beat);
        expect(Math.abs((driftPercent as number) - (1400 * share) / 16)).toBeLessThan(4 * error);
      }
    },
  );

  // sqrt(1/2) - 1 is -29.3 %, sqrt(2) - 1 is 41.4 %: there twice and half the rate are as near as the tempo itself.
  test("a drift nearer to twice or half the rate than to the tempo is told as that, not as a drift; one nearer to the tempo is a drift", () => {
    const told = (share: number): string[] => Array.from({ length: 5 }, (_, run) => codes(slid(share, run)).join());
    expect(told(-0.5).filter((each) => each.includes("DOUBLE_RATE")).length).toBeGreaterThan(0);
    for (const share of [-0.25, 0.25]) {
      for (const each of told(share)) expect(each).not.toMatch(/DOUBLE_RATE|HALF_RATE/);
    }
    for (const share of [-0.5, 0.7]) {
      for (let run = 0; run < 5; run++) {
        const { verdict, sentence } = slid(share, run);
        expect(verdict).toBe("unclear");
        expect(sentence).not.toMatch(/^You (rushed|dragged)/);
      }
    }
  });

  test("a player who never was with the accompaniment, at half the rate or nearly, is told as that", () => {
    const told: string[] = [];
    for (let run = 0; run < 8; run++) {
      const off = take(timesOf(takeOf(long, (at) => at * (1.5 + 0.05 * run))).slice(0, 20), `never with it ${run}`, 25);
      const finding = assess(long, off);
      for (const { verdict } of [finding, ...finding.dropouts]) expect(verdict).toBe("unclear");
      told.push(...codes(finding));
    }
    expect(told).toContain("HALF_RATE");
  });

  test("who is silent in a silence is not at another rate", () => {
    for (const name of ["eighths", "quarters", "syncopated sixteenths"]) {
      const score = scoreOf(name);
      const [, { from, to }] = score.dropouts as [unknown, { from: number; to: number }];
      for (const rest of [0, 0.01]) {
        const quiet = timesOf(takeOf(score)).filter((at) => at < from - 0.01 || at > to + rest - 0.005);
        const finding = assess(score, take(quiet, `quiet ${name}`));
        expect(codes(finding)).not.toContain("HALF_RATE");
        expect(codes(finding)).not.toContain("DOUBLE_RATE");
        expect(finding.dropouts[1]!.verdict).not.toBe("beyond");
      }
    }
  });
});

describe("a player who comes in early or late by beats or bars, and plays on from there", () => {
  const score = scoreOf("syncopated sixteenths");
  const { beat } = score;
  const { to } = score.dropouts[1]!;
  const early = (by: number): { at: number; note: number }[] =>
    score.expected.flatMap(({ at }, note) =>
      at < to - 1e-6 ? [{ at, note }] : at < to + by - 1e-6 ? [] : [{ at: at - by, note }],
    );
  const late = (by: number): { at: number; note: number }[] =>
    score.expected.map(({ at }, note) => ({ at: at < to - 1e-6 ? at : at + by, note }));

  test.each([
    ["half a beat early", "half a beat ahead", -beat / 2, early(beat / 2)],
    ["a beat early", "a beat ahead", -beat, early(beat)],
    ["half a bar early", "half a bar ahead", -2 * beat, early(2 * beat)],
    ["a bar early", "a bar ahead", -4 * beat, early(4 * beat)],
    ["half a beat late", "half a beat behind", beat / 2, late(beat / 2)],
    ["a beat late", "a beat behind", beat, late(beat)],
    ["half a bar late", "half a bar behind", 2 * beat, late(2 * beat)],
    ["a bar late", "a bar behind", 4 * beat, late(4 * beat)],
  ])(
    "%s: is named, is beyond, and the later silences are measured where they were played",
    (how, where, by, played) => {
      const finding = assess(
        score,
        take(
          played.map(({ at }) => at),
          `slip ${how}`,
        ),
      );
      const still = `After 4 beats of silence you were still ${where.replace("ahead", "ahead of").replace("behind", "behind")} the band.`;
      expect(finding.reasons).toMatchObject([
        { code: "SLIPPED", says: `After 4 beats of silence you came in ${how}, and played on ${where}.`, dropout: 1 },
        { code: "STILL_AWAY", says: still, dropout: 2 },
        { code: "STILL_AWAY", says: still, dropout: 3 },
      ]);
      expect(finding.dropouts[1]!.slip).toMatchObject({ beats: expect.closeTo(by / beat, 3), takenBack: null });
      expect(finding.dropouts.map(({ slip }) => slip === null)).toEqual([true, false, true, true]);
      expect([finding.verdict, finding.sentence]).toEqual(["beyond", finding.reasons[0]!.says]);
      expect(finding.dropouts.map(({ verdict }) => verdict)).toEqual(["within", "beyond", "within", "within"]);
      // The drift of a silence has the slip in it that was made there.
      driftsOf(finding).forEach(({ driftMs, standardErrorMs }, k) => {
        expect(Math.abs(driftMs - (k === 1 ? 1000 * by : 0))).toBeLessThan(3 * standardErrorMs);
      });
      // Pairs and missed notes are those of the score as written.
      const notes = new Map(played.map(({ note }, onset) => [note, onset]));
      const right = finding.pairs.filter(([note, onset]) => notes.get(note) === onset).length;
      // Where two written notes meet on one place, at the seam, either may be named.
      expect(right).toBeGreaterThanOrEqual(played.length - 2);
      for (const note of finding.missed) expect(note).toBeLessThan(score.expected.length);
      expect(finding.pairs.length + finding.missed.length).toBe(score.expected.length);
      expect(finding.pairs.length + finding.added.length).toBe(played.length);
    },
  );

  test("drifts of later silences are found although everything there was played a bar ahead", () => {
    const drag = slowerInSilence({ ...score, dropouts: [score.dropouts[3]!] }, 0.05);
    const bar = 4 * beat;
    const played = score.expected.flatMap(({ at }) =>
      at < to - 1e-6 ? [at] : at < to + bar - 1e-6 ? [] : [drag(at - bar)],
    );
    const finding = assess(score, take(played, "slip and drag", 4));
    expect(codes(finding)).toEqual(["SLIPPED", "STILL_AWAY", "STILL_AWAY"]);
    const { driftMs, standardErrorMs } = driftsOf(finding)[3]!;
    const length = score.dropouts[3]!.to - score.dropouts[3]!.from;
    expect(Math.abs(driftMs - 50 * length)).toBeLessThan(3 * standardErrorMs);
    expect(finding.dropouts[3]!.verdict).toBe("beyond");
  });

  test("is not named where the accompaniment does not come back: there is no landing to miss", () => {
    const open = plainScore({ outro: 0, phrases: 1, silent: 8 });
    const { from } = open.dropouts[0]!;
    // Three beats of rest in the silence, then on to the end of the notes, well past the end of the take.
    const finding = assess(
      open,
      take(timesOf(takeOf(open, (at) => (at < from + 1 ? at : at + 3 * open.beat))), "no way back"),
    );
    expect(codes(finding)).not.toContain("SLIPPED");
  });
});

describe("a take whose zero is wrong", () => {
  test.each(["quarters", "eighths", "syncopated sixteenths", "sparse"])(
    "by 1.5 s, of %s, is asked about and unclear",
    (name) => {
      const score = scoreOf(name);
      const finding = assess(score, movedBy(take(timesOf(takeOf(score)), `starts ${name}`), 1.5));
      expect(codes(finding)).toContain("STARTS_ELSEWHERE");
      // Even eighths are the same an eighth on, 0.31 s, but for the ends: 20 of 60 seeds say 1.2.
      const later = name === "eighths" ? /begin 1\.[25] s late\. Did/ : /begin 1\.5 s late\. Did/;
      expect(finding.sentence).toMatch(later);
      for (const { verdict } of [finding, ...finding.dropouts]) expect(verdict).toBe("unclear");
    },
  );

  test("by 1.5 s the other way is told as earlier", () => {
    const score = scoreOf("syncopated sixteenths");
    const { sentence } = assess(score, movedBy(take(timesOf(takeOf(score)), "earlier"), -1.5));
    expect(sentence).toBe("Your take seems to begin 1.5 s early. Did the recording start with the count-in?");
  });

  test("is not suspected when a player leaves the first notes out and adds nothing", () => {
    const score = scoreOf("eighths");
    const finding = assess(score, take(timesOf(takeOf(score)).slice(3), "late start"));
    expect([finding.reasons, finding.verdict]).toEqual([[], "within"]);
  });
});

describe("running sixteenths played a sixteenth off", () => {
  const score = scoreOf("running sixteenths");
  const step = score.beat / 4;
  const { to } = score.dropouts[1]!;
  test.each([
    ["throughout, late", (at: number) => at + step],
    ["throughout, early", (at: number) => at - step],
    ["from a landing on, late", (at: number) => (at < to - 1e-6 ? at : at + step)],
    ["from a landing on, early", (at: number) => (at < to - 1e-6 ? at : at - step)],
  ] as const)("%s: drifts are right or unclear, never wrong and clear", (_, warp) => {
    for (let run = 0; run < 4; run++) {
      const finding = assess(score, take(timesOf(takeOf(score, warp)), `sixteenth ${run}`));
      finding.dropouts.forEach(({ verdict, driftMs, standardErrorMs }, index) => {
        if (verdict === "unclear") return;
        // The drift is 0 whichever sixteenth is which, unless the step itself is taken into it.
        const truth =
          index === 1 && Math.abs(driftMs as number) > 1000 * (step / 2)
            ? 1000 * Math.sign(driftMs as number) * step
            : 0;
        // 4.3 standard errors: once in a thousand over the 64 silences of these takes.
        expect(Math.abs((driftMs as number) - truth)).toBeLessThan(4.3 * (standardErrorMs as number));
      });
    }
  });
});
