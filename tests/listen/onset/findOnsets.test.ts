import { describe, expect, test } from "vitest";
import { findOnsets, INSTRUMENT_FAMILIES, listenFor, type SoundStream } from "../../../lib/listen/index.js";
import { streamOf, strikes } from "../strikes.js";

const RATE = 44100;
const AT = [0.5, 0.91, 1.25, 1.8, 2.05, 2.6];
const samples = strikes(AT, { rate: RATE, seconds: 3.5 });

describe("findOnsets()", () => {
  test.each(INSTRUMENT_FAMILIES)(
    "hears nothing in silence, in no recording, in a steady hum and in an offset (%s)",
    async (family) => {
      const silence = new Float32Array(3 * RATE);
      expect(await findOnsets(streamOf([silence], RATE), { family })).toEqual({ onsets: [], noiseMs: 0, seconds: 3 });
      const nothing = (async function* (): SoundStream {})();
      expect(await findOnsets(nothing, { family })).toEqual({ onsets: [], noiseMs: 0, seconds: 0 });
      const hum = silence.map((_, i) => 0.1 * Math.sin((2 * Math.PI * 100 * i) / RATE));
      expect((await findOnsets(streamOf([hum], RATE), { family })).onsets).toEqual([]);
      const offset = silence.map(() => 0.3);
      expect((await findOnsets(streamOf([offset], RATE), { family })).onsets).toEqual([]);
    },
  );

  // The window of a struck note's attack is 11.6 or 23.2 ms: half of it is what an instantaneous attack may be off by at most.
  test.each([
    ["percussive", 0.0058],
    ["plucked", 0.0116],
  ] as const)("hears every %s note once, within half a window", async (family, half) => {
    const { onsets } = await findOnsets(streamOf([samples], RATE), { family });
    expect(onsets).toHaveLength(AT.length);
    onsets.forEach(({ at }, i) => {
      expect(Math.abs(at - AT[i]!)).toBeLessThan(half);
    });
  });

  test("hears a note on the first sample, and none where a recording is switched on in the middle of one", async () => {
    const begun = samples.subarray(Math.round(AT[0]! * RATE));
    const [first] = (await findOnsets(streamOf([begun], RATE), { family: "percussive" })).onsets;
    expect(first!.at).toBeLessThan(0.0058);
    const tone = new Float32Array(2 * RATE).map((_, i) => 0.2 * Math.sin((2 * Math.PI * 440 * i) / RATE));
    expect((await findOnsets(streamOf([tone], RATE), { family: "blown" })).onsets).toEqual([]);
  });

  test("hears no onset in vibrato of a semitone", async () => {
    let phase = 0;
    const tone = new Float32Array(4 * RATE).map((_, i) => {
      phase += (2 * Math.PI * 440 * 2 ** (Math.sin((2 * Math.PI * 5.5 * i) / RATE) / 24)) / RATE;
      return 0.2 * Math.sin(phase) + 0.1 * Math.sin(2 * phase) + 0.05 * Math.sin(3 * phase);
    });
    const faded = tone.map((sample, i) => sample * Math.min(1, i / (0.02 * RATE)));
    const { onsets } = await findOnsets(streamOf([faded], RATE), { family: "blown" });
    expect(onsets.filter(({ at }) => at > 0.1)).toEqual([]);
  });

  test("hears two channels of opposite signs as well as one", async () => {
    const one = await findOnsets(streamOf([samples], RATE), { family: "plucked" });
    const turned = await findOnsets(streamOf([samples, samples.map((value) => -value)], RATE), { family: "plucked" });
    expect(turned.onsets).toHaveLength(one.onsets.length);
    // The channels' mean is half as loud at most, and the first stretch (46 ms of silence) is all that can differ otherwise.
    turned.onsets.forEach(({ at }, i) => {
      expect(Math.abs(at - one.onsets[i]!.at)).toBeLessThan(0.001);
    });
  });

  test("gives a softer note a lower velocity and 127 to the loudest", async () => {
    const softer = samples.map((value, i) => (i < 1.6 * RATE ? 0.25 * value : value));
    const { onsets } = await findOnsets(streamOf([softer], RATE), { family: "plucked" });
    expect(Math.max(...onsets.map(({ velocity }) => velocity))).toBe(127);
    const [soft, loud] = [onsets.slice(0, 3), onsets.slice(3)].map((some) => Math.max(...some.map((o) => o.velocity)));
    expect(soft!).toBeLessThan(loud!);
  });

  test("lets a masking take out what it likes, frame by frame in order", async () => {
    const seen: number[] = [];
    const { onsets } = await findOnsets(streamOf([samples], RATE), {
      family: "plucked",
      masking: ({ seconds, magnitudes }) => {
        seen.push(seconds);
        if (seconds < 1.6) magnitudes.fill(0);
      },
    });
    expect(onsets.length).toBeGreaterThan(0);
    expect(onsets.every(({ at }) => at > 1.5)).toBe(true);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  });

  test("states noise for every onset, and their root mean square for the whole", async () => {
    const { onsets, noiseMs } = await findOnsets(streamOf([samples], RATE), { family: "blown" });
    const mean = onsets.reduce((sum, onset) => sum + onset.noiseMs ** 2, 0) / onsets.length;
    expect(onsets.every((onset) => onset.noiseMs > 0)).toBe(true);
    expect(noiseMs).toBeCloseTo(Math.sqrt(mean), 9);
  });
});

describe("listenFor()", () => {
  test("gives each onset once, in order, before the end where it can", () => {
    const listener = listenFor({ family: "plucked" });
    const live = listener.push({ rate: RATE, channels: [samples] });
    const { onsets } = listener.finish();
    expect(live.map(({ at }) => at)).toEqual(onsets.slice(0, live.length).map(({ at }) => at));
    expect(live.length).toBeGreaterThanOrEqual(AT.length - 1);
  });

  test("refuses what is no recording, and anything after the end", () => {
    const block = { rate: RATE, channels: [new Float32Array(8)] };
    expect(() => listenFor({ family: "blown" }).push({ ...block, rate: 4000 })).toThrow(RangeError);
    expect(() => listenFor({ family: "blown" }).push({ ...block, rate: Number.NaN })).toThrow(RangeError);
    expect(() => listenFor({ family: "blown" }).push({ rate: RATE, channels: [] })).toThrow(RangeError);
    expect(() =>
      listenFor({ family: "blown" }).push({ rate: RATE, channels: [new Float32Array(2), new Float32Array(3)] }),
    ).toThrow(RangeError);
    const listener = listenFor({ family: "blown" });
    listener.push(block);
    expect(() => listener.push({ ...block, rate: 48000 })).toThrow(RangeError);
    listener.finish();
    expect(() => listener.push(block)).toThrow(TypeError);
    expect(() => listener.finish()).toThrow(TypeError);
    expect(listenFor({ family: "blown" }).finish()).toEqual({ onsets: [], noiseMs: 0, seconds: 0 });
  });
});
