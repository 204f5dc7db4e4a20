import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { takeFromSound } from "../../../lib/listen/index.js";
import { readSoundBank, renderSound, type Sound, type SoundBank } from "../../../lib/render/sound/index.js";
import type { Score, ScoreNote } from "../../../lib/schema/index.js";
import { streamOf } from "../../listen/room.js";
import { highest, jettyScore, made } from "./material.js";
import { DEBIAN_BANK, hasDebianBank } from "./programs.js";

const RATE = 44100;
const LOUDNESSES = ["pp", "p", "mp", "mf", "f", "ff"] as const;

/** One note a second of a part for a flute, which is held, from the downbeat on. */
function scoreOf(notes: readonly Partial<ScoreNote>[], changes: Partial<Score> = {}): Score {
  const score = jettyScore({ tempo: 60 });
  const one = (note: Partial<ScoreNote>, i: number): ScoreNote => {
    return { position: `${i}/4`, length: "1/8", at: i, seconds: 0.5, pitch: "A4", ...note };
  };
  const part = { name: "flute", instrument: "flute", does: "plays" as const, student: true, notes: notes.map(one) };
  return { ...score, duration: notes.length, dropouts: [], parts: [part], ...changes };
}

/** Power of a sound at a frequency over a second from a sample on (Goertzel 1958, as a plain sum). */
function powerAt(hertz: number, { channels: [left] }: Sound, from: number): number {
  let [re, im] = [0, 0];
  for (let i = 0; i < 0.4 * RATE; i++) {
    re += left[from + i]! * Math.cos((2 * Math.PI * hertz * i) / RATE);
    im += left[from + i]! * Math.sin((2 * Math.PI * hertz * i) / RATE);
  }
  return re * re + im * im;
}

const banks: (readonly [string, SoundBank | undefined])[] = [["the built-in voices", undefined]];
if (hasDebianBank("loudness and tuning with a General MIDI bank"))
  banks.push(["Debian's General MIDI bank", made(await readSoundBank(readFileSync(DEBIAN_BANK)))]);

describe.each(banks)("%s", (_, bank) => {
  const rendered = (score: Score): Sound =>
    made(renderSound(score, { rate: RATE, ...(bank === undefined ? {} : { bank }) }));

  test("sound louder from pp to ff, an accent above each, a ghost note below each; unmarked is mf", () => {
    const marks = [undefined, ...LOUDNESSES];
    const notes = marks.flatMap((loudness): Partial<ScoreNote>[] => {
      const marked = loudness === undefined ? {} : { loudness };
      return [{ ...marked, ghost: true }, marked, { ...marked, accent: true }];
    });
    const sound = rendered(scoreOf(notes));
    const heights = notes.map((_, i) => highest(sound, sound.downbeat + i * RATE, sound.downbeat + (i + 0.9) * RATE));
    for (let i = 0; i < heights.length; i += 3) {
      expect(heights[i]!).toBeLessThan(0.5 * heights[i + 1]!);
      expect(heights[i + 1]!).toBeLessThan(0.95 * heights[i + 2]!);
    }
    const plain = marks.map((_, i) => heights[3 * i + 1]!);
    expect(plain[0]! / plain[4]!).toBeCloseTo(1, 1);
    for (let i = 2; i < plain.length; i++) expect(plain[i]!).toBeGreaterThan(1.05 * plain[i - 1]!);
  });

  test.each([undefined, 415, 442])("play A4 at the frequency the score is tuned to: %s", (tuningHz) => {
    const sound = rendered(scoreOf([{}], tuningHz === undefined ? {} : { tuningHz }));
    const from = sound.downbeat + 0.1 * RATE;
    const powers = [415, 428, 440, 442, 466].map((hertz) => [hertz, powerAt(hertz, sound, from)] as const);
    // 0.4 s tell tones 2.5 Hz apart.
    const loudest = powers.reduce((a, b) => (b[1] > a[1] ? b : a))[0];
    expect(loudest).toBe(tuningHz ?? 440);
  });
});

describe("takeFromSound()", () => {
  test("names notes as they are written, whatever A the score is tuned to", async () => {
    const pitches = ["A4", "D5", "G4", "C5", "E5"];
    // 415 Hz is a semitone below the usual A: taken for 440, every note would be another.
    const score = scoreOf(
      pitches.map((pitch) => ({ pitch })),
      { tuningHz: 415 },
    );
    const sound = made(renderSound({ ...score, countIn: 0 }, { rate: RATE }));
    const open = () => streamOf(sound.channels[0], RATE);
    const start = sound.downbeat / RATE - score.countIn;
    const { take } = made(await takeFromSound(open, { family: "blown", score, start }));
    const heard = take.onsets.map((onset) => (typeof onset === "number" ? undefined : Math.round(Number(onset.pitch))));
    // MIDI numbers of A4, D5, G4, C5 and E5.
    expect(heard).toEqual([69, 74, 67, 72, 76]);
  });
});
