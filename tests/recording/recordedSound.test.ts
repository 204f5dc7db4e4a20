import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drumRecording, lagOf, largestStep, RATE, type RecordedCourse, recordedCourse } from "./recordedCourse.js";

const drums = drumRecording();
const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
let played: RecordedCourse;
beforeAll(() => {
  played = recordedCourse(kit, { "kit.wav": drums.wav });
});
afterAll(() => played.remove());

/** The strokes of the recording in samples, about a bar line. */
const strokeAfter = (seconds: number, length: number): Float32Array => {
  const at = Math.round((drums.starts + seconds) * RATE);
  return drums.sound.channels[0].slice(at, at + length);
};

describe("a recorded part, at the tempo it was recorded at", () => {
  test("is digital silence from the first to the last sample of each silence, and sounds right before and after", async () => {
    const { sound, score } = await played.render(96);
    expect(score.dropouts).toHaveLength(2);
    for (const { from, to } of score.dropouts) {
      const [first, last] = [from, to].map((at) => sound.downbeat + Math.round(at * RATE)) as [number, number];
      for (const channel of sound.channels) {
        expect(channel.subarray(first, last).every((value) => value === 0)).toBe(true);
        expect(Math.max(...channel.subarray(first - 441, first - 88).map(Math.abs))).toBeGreaterThan(1e-4);
        expect(Math.max(...channel.subarray(last, last + 441).map(Math.abs))).toBeGreaterThan(1e-2);
      }
    }
  });

  test("lands on the sample of the downbeat, as it was played there", async () => {
    const { sound, score } = await played.render(96);
    const first = strokeAfter(0, 2000);
    for (const { landing } of score.dropouts) {
      const at = sound.downbeat + Math.round(landing! * RATE);
      expect(Math.abs(lagOf(first, sound.channels[0], { at, reach: 300 }))).toBeLessThan(0.5);
    }
  });

  test("neither cuts nor seams click: no step near them is larger than the strokes have", async () => {
    const { sound, score } = await played.render(96);
    const [left] = sound.channels;
    const loudest = largestStep(left, sound.downbeat, left.length);
    const near = Math.round(0.006 * RATE);
    for (const { from, to } of score.dropouts) {
      const [first, last] = [from, to].map((at) => sound.downbeat + Math.round(at * RATE)) as [number, number];
      // Before a silence a cymbal rings; what goes out there must be as smooth as its ringing.
      expect(largestStep(left, first - near, first + 2)).toBeLessThan(
        1.05 * largestStep(left, first - 5 * near, first),
      );
      // On its return the stroke itself has the largest step.
      expect(largestStep(left, last - 2, last + 20)).toBeLessThan(loudest);
    }
  });

  test("goes round without a seam: what follows on the last bar is what follows on it in the recording", async () => {
    const { sound, score } = await played.render(96, "listen");
    const [left] = sound.channels;
    const second = score.bars.find(({ phrase }) => phrase === 2)!;
    const at = sound.downbeat + Math.round(second.at * RATE);
    // The fixture goes on with the same bars, so that the seam can be compared with what has none.
    const inRecording = Math.round((drums.starts + second.at) * RATE);
    const around = drums.sound.channels[0].slice(inRecording - 4000, inRecording + 4000);
    const made = left.slice(at - 4000, at + 4000);
    const gain = Math.sqrt(energy(made) / energy(around));
    const residue = made.map((value, i) => value - gain * around[i]!);
    expect(10 * Math.log10(energy(residue) / energy(made))).toBeLessThan(-20);
    expect(largestStep(left, at - 200, at)).toBeLessThan(0.2 * largestStep(left, sound.downbeat, left.length));
  });

  test("a loop of it follows on itself, sample for sample, as a take goes from phrase to phrase", async () => {
    const round = await played.render(96, "listen", 1);
    const take = await played.render(96, "listen");
    const [loop] = round.sound.channels;
    const second = take.sound.downbeat + loop.length;
    const gain = 10 ** ((round.sound.gain - take.sound.gain) / 20);
    // Across its end: the last 1000 samples, then the first 1000 again.
    for (let i = -1000; i < 1000; i++)
      expect(loop[(i + loop.length) % loop.length]).toBeCloseTo(take.sound.channels[0][second + i]! * gain, 4);
  });

  test("the same course gives the same samples, whichever mix was made before", async () => {
    const [first, second] = [await played.render(96), await played.render(96)];
    const differ = first.sound.channels[0].findIndex((value, i) => value !== second.sound.channels[0][i]);
    expect([differ, second.sound.channels[0].length]).toEqual([-1, first.sound.channels[0].length]);
  });
});

function energy(samples: Float32Array): number {
  return samples.reduce((sum, value) => sum + value * value, 0);
}
