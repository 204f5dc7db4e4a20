import { beforeAll, describe, expect, test } from "vitest";
import { problemsIn, type Result } from "../../lib/base/index.js";
import { findOnsets, type SoundTake, takeFromSound } from "../../lib/listen/index.js";
import { assess } from "../../lib/take/index.js";
import { hitRates, matchHits } from "../reference/hitRates.js";
import { backing, type Lesson, lesson, RATE, score } from "./quayRoom.js";
import { streamOf } from "./room.js";

const known = () => streamOf(backing.samples, RATE);
const LATE_MS = 15;
const expected = score.expected.map(({ at }) => at + score.countIn + LATE_MS / 1000);

function heardOf(result: Result<SoundTake>): SoundTake {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const timesOf = ({ take }: SoundTake): readonly number[] =>
  take.onsets.map((onset) => (typeof onset === "number" ? onset : onset.at));
const codesOf = (result: Result<unknown>): readonly string[] => problemsIn(result).map(({ code }) => code);
/** F-measure within 50 ms, as mir_eval defines it. */
const fOf = (reference: readonly number[], estimated: readonly number[]): number =>
  hitRates(matchHits(reference, estimated, 0.05).length, {
    reference: reference.length,
    estimated: estimated.length,
  }).f;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

describe("takeFromSound() beside a backing", () => {
  const takes = new Map<number, { heard: SoundTake; codes: readonly string[]; dry: number; recording: Lesson }>();
  beforeAll(async () => {
    for (const bleed of [-12, 0]) {
      const recording = lesson({ bleed, skewPpm: 37, start: 1.7, lateMs: LATE_MS });
      const open = () => streamOf(recording.samples, RATE);
      const result = await takeFromSound(open, { family: "blown", backing: known, score });
      const dry = await findOnsets(streamOf(recording.player, RATE), { family: "blown" });
      const zero = 1.7 + backing.downbeat - score.countIn;
      const dryF = fOf(
        expected.map((at) => at + zero),
        dry.onsets.map(({ at }) => at),
      );
      takes.set(bleed, { heard: heardOf(result), codes: codesOf(result), dry: dryF, recording });
    }
  });

  test.each([-12, 0])("at %i dB of bleed hears the player nearly as well as alone", (bleed) => {
    const { heard, dry } = takes.get(bleed)!;
    // Two notes of some seventy: what chance moves from one recording to the next.
    expect(fOf(expected, timesOf(heard))).toBeGreaterThan(dry - 2 / expected.length);
  });

  test.each([-12, 0])(
    "at %i dB of bleed time zero is the count-in, whatever the recording's start and clock",
    (bleed) => {
      const { heard } = takes.get(bleed)!;
      const times = timesOf(heard);
      const late = matchHits(expected, times, 0.05).map(([note, onset]) => times[onset]! - expected[note]!);
      // Attacks of held notes are timed to some milliseconds; an error of the clock or of zero would be 20 ms or more.
      expect(Math.abs(median(late))).toBeLessThan(0.01);
      expect(heard.take.zero).toBe("count-in");
      expect(heard.take.latencyMs).toBe(0);
      expect(heard.take.latencyStandardErrorMs).toBeGreaterThanOrEqual(1000 / 343);
    },
  );

  test("tells pitches, so that the riff is recognised", () => {
    const { heard } = takes.get(-12)!;
    const finding = assess(score, heard.take);
    expect(finding.pairs.length).toBeGreaterThan(0.9 * score.expected.length);
    const pitched = heard.take.onsets.filter((onset) => typeof onset !== "number" && onset.pitch !== undefined);
    expect(pitched.length).toBeGreaterThan(0.8 * heard.take.onsets.length);
  });

  test("tells how loud the backing is beside the player", () => {
    expect(Math.abs(takes.get(-12)!.heard.bleedDb! + 12)).toBeLessThan(1);
    expect(Math.abs(takes.get(0)!.heard.bleedDb!)).toBeLessThan(1);
    expect(takes.get(-12)!.codes).toEqual([]);
  });

  test("BACKING_TOO_LOUD and BACKING_HIDES_NOTES, with the bars, when the player is far softer than the backing", async () => {
    const { samples } = lesson({ bleed: 20, seconds: 30 });
    const result = await takeFromSound(() => streamOf(samples, RATE), { family: "blown", backing: known, score });
    expect(codesOf(result)).toContain("BACKING_TOO_LOUD");
    expect(codesOf(result)).toContain("BACKING_HIDES_NOTES");
    // What is advised helps, as the takes at -12 dB and with headphones show, in which nothing is hidden.
    const told = problemsIn(result).find(({ code }) => code === "BACKING_HIDES_NOTES");
    expect(told?.remedy).toMatch(/headphones.* softer, or put the microphone nearer/);
    const bars = new Set(score.bars.map(({ bar }) => bar));
    for (const stretch of heardOf(result).undecidable) {
      expect(stretch.to).toBeGreaterThanOrEqual(stretch.from);
      for (const bar of stretch.bars!) expect(bars).toContain(bar);
    }
  });

  test("BACKING_PLACE_UNCLEAR when one phrase of many alike was recorded", async () => {
    const { samples } = lesson({ start: 0, seconds: 27 });
    const piece = samples.slice(18 * RATE, 27 * RATE);
    const result = await takeFromSound(() => streamOf(piece, RATE), { family: "blown", backing: known });
    expect(codesOf(result)).toContain("BACKING_PLACE_UNCLEAR");
  });
});

describe("takeFromSound() of the player alone", () => {
  const recording = lesson({ bleed: Number.NEGATIVE_INFINITY, start: 0, seconds: 20 });
  const open = () => streamOf(recording.samples, RATE);

  test("BACKING_NOT_HEARD and RECORDING_START_ASSUMED with headphones, and the offset stays unknown", async () => {
    const result = await takeFromSound(open, { family: "blown", backing: known, score });
    expect(codesOf(result)).toEqual(["BACKING_NOT_HEARD", "RECORDING_START_ASSUMED"]);
    expect(heardOf(result).take.latencyMs).toBeUndefined();
    expect(heardOf(result).backing).toEqual({ found: false });
  });

  test("`start` says where the count-in begins, and what was measured of the device is passed on", async () => {
    const device = { latencyMs: 42, latencyStandardErrorMs: 2 };
    const plain = await takeFromSound(open, { family: "blown" });
    const told = await takeFromSound(open, { family: "blown", start: 0.25, id: "tern-1", ...device });
    expect(codesOf(told)).toEqual([]);
    expect(heardOf(told).take).toMatchObject({ id: "tern-1", ...device });
    timesOf(heardOf(told)).forEach((at, i) => {
      expect(at).toBeCloseTo(timesOf(heardOf(plain))[i]! - 0.25, 9);
    });
  });

  test("RECORDING_WITHOUT_NOTES: silence is a take in which nothing was played", async () => {
    const silence = new Float32Array(3 * RATE);
    const result = await takeFromSound(() => streamOf(silence, RATE), { family: "percussive", start: 0 });
    expect(codesOf(result)).toEqual(["RECORDING_WITHOUT_NOTES"]);
    expect(heardOf(result).take.onsets).toEqual([]);
  });
});
