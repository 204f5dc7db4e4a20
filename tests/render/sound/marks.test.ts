import { describe, expect, test } from "vitest";
import { findOnsets } from "../../../lib/listen/index.js";
import { renderSound } from "../../../lib/render/sound/index.js";
import { streamOf } from "../../listen/room.js";
import { scoreOfLine } from "../markedScore.js";
import { made } from "./material.js";

const RATE = 44100;
/** Seconds of a beat. */
const BEAT = 0.5;

interface Heard {
  readonly samples: Float32Array;
  readonly downbeat: number;
}

function heard(notes: string, instrument = "trumpet"): Heard {
  const { channels, downbeat } = made(renderSound(scoreOfLine(notes, instrument), { rate: RATE }));
  return { samples: channels[0].map((value, i) => value + channels[1][i]!), downbeat };
}

/** Root mean square over 10 ms from a time in beats on. */
function levelAt({ samples, downbeat }: Heard, beats: number): number {
  const from = Math.round(downbeat + beats * BEAT * RATE);
  const part = samples.subarray(from, from + 0.01 * RATE);
  return Math.sqrt(part.reduce((sum, value) => sum + value * value, 0) / part.length);
}

/** The lowest level in the 60 ms around a time, beside the level of the note before. */
function dipAt(sound: Heard, beats: number): number {
  const around = [-0.06, -0.04, -0.02, 0, 0.02, 0.04].map((at) => levelAt(sound, beats + at));
  return Math.min(...around) / levelAt(sound, beats - 0.4);
}

/** Frequency in hertz around a time in beats: the lag, from 80 to 1500 Hz, at which 40 ms are most like themselves. */
function hertzAt({ samples, downbeat }: Heard, beats: number): number {
  const from = Math.round(downbeat + beats * BEAT * RATE);
  const size = Math.round(0.03 * RATE);
  const likeness = (lag: number): number => {
    let [sum, a, b] = [0, 0, 0];
    for (let i = from; i < from + size; i++) {
      sum += samples[i]! * samples[i + lag]!;
      a += samples[i]! ** 2;
      b += samples[i + lag]! ** 2;
    }
    return sum / Math.sqrt(a * b + 1e-12);
  };
  const lags = Array.from({ length: Math.round(RATE / 80 - RATE / 1500) }, (_, i) => Math.round(RATE / 1500) + i);
  const values = lags.map(likeness);
  const best = Math.max(...values);
  // The shortest of the lags that are nearly as good: its multiples are as well.
  return RATE / lags[values.findIndex((value, i) => value > 0.97 * best && value >= (values[i + 1] ?? 0))]!;
}

const cents = (a: number, b: number): number => 1200 * Math.log2(a / b);
/** Equal temperament from A4 = 440 Hz. */
const D4 = 440 * 2 ** (-7 / 12);
const A4 = 440;

describe("marks in the built-in sound", () => {
  test.each(["trumpet", "alto saxophone", "flute"])(
    "a slurred note of a %s goes over into the next one without a gap; a tongued one is let go before it",
    (instrument) => {
      const [slurred, tongued] = [heard("1/4 D4~ A4 - -", instrument), heard("1/4 D4 A4 - -", instrument)];
      expect(dipAt(tongued, 1)).toBeLessThan(0.5);
      expect(dipAt(slurred, 1)).toBeGreaterThan(0.6);
      for (const sound of [slurred, tongued]) {
        expect(Math.abs(cents(hertzAt(sound, 0.5), D4))).toBeLessThan(25);
        // The new pitch is there 25 ms after its time.
        expect(Math.abs(cents(hertzAt(sound, 1.05), A4))).toBeLessThan(25);
      }
    },
  );

  test("a held note sounds up to the next one, whose attack is its own", () => {
    const [held, plain] = [heard("1/4 D4_ D4 - -"), heard("1/4 D4 D4 - -")];
    expect(levelAt(held, 0.98)).toBeGreaterThan(2 * levelAt(plain, 0.98));
  });

  test("a scoop begins about two semitones under its pitch and is there after an eighth of a second", () => {
    const sound = heard("1/4 A4-scoop - - -");
    const low = cents(hertzAt(sound, 0.02), A4);
    expect(low).toBeLessThan(-70);
    expect(low).toBeGreaterThan(-230);
    expect(Math.abs(cents(hertzAt(sound, 0.35), A4))).toBeLessThan(25);
    const plain = heard("1/4 A4 - - -");
    expect(Math.abs(cents(hertzAt(plain, 0.02), A4))).toBeLessThan(40);
  });

  test("a fall goes down in pitch and level at the end, and not before the middle", () => {
    const sound = heard("1/4 A4-fall - - -");
    expect(Math.abs(cents(hertzAt(sound, 0.3), A4))).toBeLessThan(25);
    expect(cents(hertzAt(sound, 0.85), A4)).toBeLessThan(-120);
    expect(levelAt(sound, 0.9)).toBeLessThan(levelAt(sound, 0.3));
  });

  test("an onset is heard in a recording where each slurred note begins, as where it is tongued", async () => {
    const at = [0, 1, 2, 3].map((beat) => beat * BEAT);
    for (const line of ["1/4 D4~ A4~ F4~ C5", "1/4 D4 A4 F4 C5"]) {
      const { samples, downbeat } = heard(line);
      const { onsets } = await findOnsets(streamOf(samples, RATE), { family: "blown" });
      const times = onsets.map((onset) => onset.at - downbeat / RATE);
      for (const time of at)
        expect(Math.min(...times.map((each) => Math.abs(each - time))), `${line}: ${time}`).toBeLessThan(0.05);
      expect(times.length, line).toBeLessThanOrEqual(at.length + 1);
    }
  });
});
