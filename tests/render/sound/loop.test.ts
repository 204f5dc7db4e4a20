import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { batchFormat } from "../../../lib/node/batch/model.js";
import { renderFile } from "../../../lib/node/batch/renderFile.js";
import { encodeWav, renderSound } from "../../../lib/render/sound/index.js";
import { jettyScore, made } from "./material.js";
import { isThere } from "./programs.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-loop-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const RATE = 48_000;
/** Sixteen beats of 90 to the minute: 512,000 samples, exactly. */
const PHRASE = (16 * 60 * RATE) / 90;
const changes = { tempo: 90, phrases: 6, dropout: { length: "1/2 bar" } as never };
const LONG = jettyScore(changes, "listen");

/** The largest difference between two stretches of sound, after both are brought to one level. */
function furthest(a: Float32Array, b: Float32Array): number {
  let [ab, bb] = [0, 0];
  for (let i = 0; i < a.length; i++) [ab, bb] = [ab + a[i]! * b[i]!, bb + b[i]! * b[i]!];
  const gain = ab / bb;
  let most = 0;
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs(a[i]! - gain * b[i]!));
  return most;
}

describe("a loop", () => {
  test.each([1, 2, 3])("of %i phrases is exactly so long, and bar 1 is its first sample", (phrases) => {
    const { channels, downbeat } = made(renderSound(LONG, { rate: RATE, loop: { phrases } }));
    expect(channels.map(({ length }) => length)).toEqual([phrases * PHRASE, phrases * PHRASE]);
    expect(downbeat).toBe(0);
  });

  test("joined to itself is the middle of a long take, sample for sample: there is no seam", () => {
    const loop = made(renderSound(LONG, { rate: RATE, loop: { phrases: 2 } }));
    const take = made(renderSound(LONG, { rate: RATE }));
    // Phrases 3 and 4, and a second on either side.
    const from = take.downbeat + 2 * PHRASE - RATE;
    const length = 2 * PHRASE + 2 * RATE;
    loop.channels.forEach((channel, k) => {
      const joined = new Float32Array(length);
      for (let i = 0; i < length; i++) joined[i] = channel[(i - RATE + channel.length) % channel.length]!;
      // Samples are 32-bit floats, summed in another order: a difference of some last digits of full scale.
      expect(furthest(take.channels[k]!.subarray(from, from + length), joined)).toBeLessThan(1e-5);
    });
  });

  test("of a riff whose last note rings into a silence at its start is cut there, as in a take", () => {
    const start = jettyScore({ ...changes, dropout: { length: "1 bar", at: "start" } as never }, "play");
    const loop = made(renderSound(start, { rate: RATE, loop: { phrases: 2 } }));
    const take = made(renderSound(start, { rate: RATE }));
    const from = take.downbeat + 2 * PHRASE;
    loop.channels.forEach((channel, k) => {
      expect(furthest(take.channels[k]!.subarray(from, from + 2 * PHRASE), channel)).toBeLessThan(1e-5);
    });
  });

  test("is what a batch of files makes of a score when it is asked for one", async () => {
    const task = {
      job: { file: "jetty", score: LONG },
      format: batchFormat({ rate: RATE, loop: 2 }),
      label: { title: "Jetty", comment: "a loop" },
      folder,
      earlier: undefined,
      bank: undefined,
    };
    const { entry } = made(await renderFile(task as never, undefined));
    expect([entry.length, entry.downbeat]).toEqual([2 * PHRASE, 0]);
    // A whole take of the same score is made from something else, so that neither is taken for the other.
    const whole = made(await renderFile({ ...task, format: batchFormat({ rate: RATE }) } as never, undefined));
    expect(whole.entry.from).not.toBe(entry.from);
  });

  test("has as many phrases as the score has, and no other number", () => {
    for (const phrases of [0, 1.5, 8, -1])
      expect(() => renderSound(LONG, { rate: RATE, loop: { phrases } })).toThrow(RangeError);
  });

  test.skipIf(!isThere("ffprobe", "ffmpeg", "the length of a loop by another program"))(
    "is as long for another program, and joined by it has no step at the seam that is higher than elsewhere",
    () => {
      const loop = made(renderSound(LONG, { rate: RATE, loop: { phrases: 1 } }));
      const path = join(folder, "loop.wav");
      writeFileSync(path, encodeWav(loop));
      const told = (program: string, args: readonly string[]) => spawnSync(program, args, { maxBuffer: 1e8 });
      const probe = told("ffprobe", ["-v", "error", "-show_entries", "stream=duration_ts", "-of", "csv=p=0", path]);
      expect(Number(probe.stdout.toString())).toBe(PHRASE);
      const raw = ["-f", "f32le", "-ac", "1", "-"];
      const twice = told("ffmpeg", ["-v", "error", "-stream_loop", "1", "-i", path, ...raw]).stdout;
      const samples = new Float32Array(twice.buffer, twice.byteOffset, twice.length / 4);
      expect(samples.length).toBe(2 * PHRASE);
      const step = (i: number): number => Math.abs(samples[i]! - samples[i - 1]!);
      let highest = 0;
      for (let i = 1; i < samples.length; i++) if (i % PHRASE !== 0) highest = Math.max(highest, step(i));
      expect(step(PHRASE)).toBeLessThanOrEqual(highest);
    },
  );
});
