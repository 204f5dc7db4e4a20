import { describe, expect, test } from "vitest";
import { openStretcher } from "../../lib/node/recording/stretcher.js";
import { makeReady } from "../../lib/recording/index.js";
import { drumRecordings } from "../bench/drumRecordings.js";
import { lagOf } from "../recording/recordedCourse.js";

// Six drum recordings with annotated hits, MDB Drums (CC BY-NC-SA 4.0), read in place.
const recordings = drumRecordings();
if (recordings === undefined)
  console.log("skipped: stretching of recordings of drums, because ../shared/reference/drum-audio is not there");

const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;

/**
 * Where the sound rises most within 20 ms of an annotation, seconds: hits are annotated by hand, and what lies a millisecond beside an attack is meant to move by less than the attack. From one
 * millisecond of energy to the next.
 */
function attackNear(samples: Float32Array, rate: number, hit: number): number {
  const ms = Math.round(rate / 1000);
  const energy = (from: number): number => {
    let sum = 1e-6;
    for (let i = from; i < from + ms; i++) sum += (samples[i] ?? 0) ** 2;
    return sum;
  };
  let [best, most] = [Math.round(hit * rate), 0];
  for (let at = Math.round((hit - 0.02) * rate); at < (hit + 0.02) * rate; at += Math.round(ms / 4)) {
    const rise = energy(at) - energy(at - ms);
    if (rise > most) [best, most] = [at, rise];
  }
  return best / rate;
}

/** How late each second annotated hit sounds in what was stretched, milliseconds. */
async function errorsAt(speed: number): Promise<readonly number[]> {
  const stretch = await openStretcher();
  const errors: number[] = [];
  for (const { rate, samples, truth } of recordings ?? []) {
    const need = { file: "drums", sha256: "", from: 0, to: samples.length / rate, speed, semitones: 0, isStruck: true };
    async function* sound() {
      yield { rate, channels: [samples] };
    }
    const ready = await makeReady(sound(), need, { rate: 44100, stretch });
    const [lead, length, reach] = [0.003, 0.02, 0.012].map((seconds) => Math.round(seconds * rate)) as [
      number,
      number,
      number,
    ];
    for (const annotated of truth.filter((_, i) => i % 2 === 0)) {
      const hit = attackNear(samples, rate, annotated);
      const from = Math.round(hit * rate) - lead;
      if (from < 0 || from + length > samples.length) continue;
      const piece = samples.slice(from, from + length);
      const at = Math.round((hit / speed) * rate) - lead;
      errors.push((1000 * lagOf(piece, ready.channels[0], { at, reach })) / rate);
    }
  }
  return errors;
}

describe.runIf(recordings !== undefined)("recordings of real drums, hits annotated by others", () => {
  test.each([0.7, 0.85, 1.15, 1.3])(
    "at %d times their tempo: half of the hits within 1 ms of their places, 19 of 20 within 5 ms",
    async (speed) => {
      const off = (await errorsAt(speed)).map(Math.abs);
      if (process.env.SAY)
        console.log(
          speed,
          off.length,
          quantile(off, 0.5).toFixed(3),
          quantile(off, 0.95).toFixed(3),
          quantile(off, 0.99).toFixed(3),
        );
      expect(off.length).toBeGreaterThan(200);
      expect(quantile(off, 0.5)).toBeLessThan(1);
      expect(quantile(off, 0.95)).toBeLessThan(5);
    },
    300_000,
  );
});
