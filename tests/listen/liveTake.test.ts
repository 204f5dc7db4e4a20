import { expect, test } from "vitest";
import { liveTake } from "../../lib/listen/index.js";
import type { Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { CLICK, recordingOf, score as short, takeOf, UNTIL_COUNT_IN } from "../browser/simulatedStudent.js";
import { hitRates, matchHits } from "../reference/hitRates.js";
import { backing, lesson, RATE, score } from "./quayRoom.js";
import { streamOf } from "./room.js";

const LATE_MS = 15;
/** Seconds of the recording at which the backing's first sample arrives; the player believes it to be earlier, as outputs and rooms are late. */
const START = 1.7;
const BELIEVED = START - 0.06;
const expected = score.expected.map(({ at }) => at + score.countIn + LATE_MS / 1000);
const zeroIn = backing.downbeat - score.countIn;

async function heardLive(samples: Float32Array, known: boolean) {
  const told: number[] = [];
  const live = liveTake({
    family: "blown",
    start: BELIEVED + zeroIn,
    score,
    ...(known ? { backing: () => streamOf(backing.samples, RATE), backingZero: zeroIn } : {}),
    onNote: ({ at }) => void told.push(at),
  });
  for (let from = 0; from < samples.length; from += 2048) {
    live.push({ rate: RATE, channels: [samples.slice(from, from + 2048)] });
    await new Promise((resolve) => setImmediate(resolve));
  }
  const result = await live.finish();
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return { ...result.value, advice: result.advice.map(({ code }) => code), told };
}

const timesOf = ({ onsets }: Take): readonly number[] =>
  onsets.map((each) => (typeof each === "number" ? each : each.at));
const fOf = (times: readonly number[]): number =>
  hitRates(matchHits(expected, times, 0.05).length, { reference: expected.length, estimated: times.length }).f;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

test("liveTake() beside the band hears the player on the band's own clock, with the verdict of what was played", async () => {
  const { samples } = lesson({ bleed: -12, start: START, lateMs: LATE_MS });
  const { take, told, backing: place } = await heardLive(samples, true);
  expect(place?.found).toBe(true);
  expect(fOf(timesOf(take))).toBeGreaterThan(0.95);
  const late = matchHits(expected, timesOf(take), 0.05).map(([note, onset]) => timesOf(take)[onset]! - expected[note]!);
  // Attacks of held notes are timed to some milliseconds; a clock that was not found would be 60 ms off.
  expect(Math.abs(median(late))).toBeLessThan(0.01);
  const truth = assess(score, { onsets: expected });
  const finding = assess(score, take);
  expect(finding.dropouts.map(({ verdict }) => verdict)).toEqual(truth.dropouts.map(({ verdict }) => verdict));
  // What was told meanwhile is what is said in the end, but for notes that are still to be decided.
  expect(matchHits(expected, told, 0.05).length).toBeGreaterThan(0.9 * expected.length);
});

test("liveTake() with headphones hears the player by the clock it is given", async () => {
  const { player } = lesson({ bleed: Number.NEGATIVE_INFINITY, start: START, lateMs: LATE_MS });
  const { take, advice, told } = await heardLive(player, false);
  expect(advice).toEqual([]);
  expect(fOf(timesOf(take).map((at) => at - 0.06))).toBeGreaterThan(0.95);
  expect(told.length).toBeGreaterThan(0.9 * expected.length);
});

test("liveTake() of a band that is not in the room says so, and hears the player all the same", async () => {
  const take = takeOf("quay");
  const zero = CLICK + UNTIL_COUNT_IN;
  const live = liveTake({
    family: "blown",
    start: zero,
    score: short,
    backing: () => streamOf(backing.samples, RATE),
    backingZero: zeroIn,
  });
  live.push({ rate: RATE, channels: [recordingOf(take, { bleed: undefined })] });
  const heard = await live.finish();
  expect(heard.ok && heard.advice.map(({ code }) => code)).toContain("BACKING_NOT_HEARD");
  const played = heard.ok ? timesOf(heard.value.take).filter((at) => at > 0) : [];
  const struck = timesOf(take);
  const { length } = matchHits(struck, played, 0.05);
  expect(hitRates(length, { reference: struck.length, estimated: played.length }).f).toBeGreaterThan(0.95);
});
