import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import {
  encodeFlac,
  encodeWav,
  labelOf,
  quantised,
  readSoundBank,
  renderSound,
  type SoundBank,
} from "../../../lib/render/sound/index.js";
import { timeline } from "../../../lib/render/sound/timeline.js";
import type { Score } from "../../../lib/schema/index.js";
import { sample } from "../../samples.js";
import { drills } from "../courses.js";
import { jettyScore, made, RATES } from "./material.js";
import { DEBIAN_BANK, hasDebianBank, isThere } from "./programs.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-sound-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

function file(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

function told(program: string, args: readonly string[]): { stdout: string; stderr: string } {
  const { status, stdout, stderr } = spawnSync(program, args, { encoding: "utf8", maxBuffer: 1e8 });
  expect(status, stderr).toBe(0);
  return { stdout, stderr };
}

/** The first rung of every drill of the shipped courses in its first two mixes. */
const all: readonly (readonly [string, Score])[] = drills.flatMap(([name, drill]) => {
  const rung = rungs(drill).at(0);
  return drill.mixes.slice(0, 2).map((mix) => [`${name}, ${mix.name}`, scoreOf(rung, mix.name)] as const);
});
/** Those that are checked: a fifth in the suite, in turn over the courses and, as 5 is odd, over both mixes; all in a proof. */
const share = sample({ suite: 1, proof: 5 });
const shipped = all.filter((_, i) => i % 5 < share);

const ffmpeg = isThere("ffmpeg", "ffmpeg", "loudness and peaks by an independent meter");
describe.skipIf(!ffmpeg)("Debian's ffmpeg", () => {
  const meter = (path: string): { loudness: number; peak: number } => {
    const { stderr } = told("ffmpeg", [
      "-hide_banner",
      "-nostats",
      "-i",
      path,
      "-af",
      "ebur128=peak=true",
      "-f",
      "null",
      "-",
    ]);
    const summary = stderr.slice(stderr.lastIndexOf("Summary:"));
    return {
      loudness: Number(/I:\s+(-?[\d.]+) LUFS/.exec(summary)![1]),
      peak: Number(/Peak:\s+(-?[\d.]+) dBFS/.exec(summary)![1]),
    };
  };

  // The rates take turns from score to score.
  test.each(shipped.map(([name, score], i) => [name, RATES[i % RATES.length]!, score] as const))(
    "measures -23 LUFS within 0.2 LU and at most -1 dBTP for %s at %i Hz",
    (_name, rate, score) => {
      const sound = made(renderSound(score, { rate }));
      const { loudness, peak } = meter(file("a.wav", encodeWav(sound)));
      expect(Math.abs(loudness - sound.loudness!)).toBeLessThanOrEqual(0.2);
      expect(Math.abs(loudness + 23)).toBeLessThanOrEqual(0.2);
      expect(peak).toBeLessThanOrEqual(-1);
      // Its true peak is printed to a tenth and oversampled fourfold or more: 0.7 dB below at most (BS.1770-4 Annex 2, from memory).
      expect(Math.abs(peak - sound.peak!)).toBeLessThan(0.75);
    },
  );

  test("measures -14 LUFS and at most -1 dBTP where peaks have to be turned down", () => {
    const sound = made(renderSound(jettyScore(), { loudness: -14 }));
    expect(sound.heldBack).toBe(false);
    const { loudness, peak } = meter(file("b.wav", encodeWav(sound)));
    expect(Math.abs(loudness + 14)).toBeLessThanOrEqual(0.1);
    expect(peak).toBeLessThanOrEqual(-1);
    expect(Math.abs(loudness - sound.loudness!)).toBeLessThanOrEqual(0.2);
  });

  test.each([
    ["16-bit WAV", "s16le", 16],
    ["24-bit WAV", "s24le", 24],
    ["FLAC", "s24le", 24],
  ] as const)("decodes every sample of a %s as written", async (kind, format, samples) => {
    const sound = made(renderSound(jettyScore({ phrases: 1 })));
    const bytes = kind === "FLAC" ? encodeFlac(sound, { samples }) : encodeWav(sound, { samples });
    const out = join(folder, "raw");
    told("ffmpeg", [
      "-hide_banner",
      "-y",
      "-i",
      file(`c.${kind === "FLAC" ? "flac" : "wav"}`, bytes),
      "-f",
      format,
      out,
    ]);
    const raw = readFileSync(out);
    const numbers = quantised(sound.channels, { bits: samples });
    expect(raw.length).toBe((numbers.length * samples) / 8);
    const width = samples / 8;
    expect(numbers.findIndex((value, i) => raw.readIntLE(i * width, width) !== value)).toBe(-1);
  });

  test("reads the title and the caution", async () => {
    const sound = made(renderSound(jettyScore({ phrases: 1 })));
    const label = labelOf(jettyScore());
    for (const [name, bytes] of [
      ["d.wav", encodeWav(sound, { label })],
      ["d.flac", encodeFlac(sound, { label })],
    ] as const) {
      const { stdout } = told("ffmpeg", [
        "-hide_banner",
        "-loglevel",
        "error",
        "-i",
        file(name, bytes),
        "-f",
        "ffmetadata",
        "-",
      ]);
      // The format escapes =, ;, # and line ends by a backslash (ffmpeg's manual, "Metadata").
      const text = stdout.replaceAll("\\", "");
      expect(text).toContain(label.title);
      expect(text).toContain(label.comment);
    }
  });
});

const flac = isThere("flac", "flac", "FLAC files tested by the reference decoder");
test.skipIf(!flac)("the reference decoder finds nothing wrong with a FLAC file, its MD5 sum included", async () => {
  const sound = made(renderSound(jettyScore({ phrases: 1 })));
  const { stderr } = told("flac", ["--test", file("e.flac", encodeFlac(sound, { label: labelOf(jettyScore()) }))]);
  expect(stderr).toContain("ok");
  expect(stderr).not.toContain("WARNING");
});

const aubio = isThere("aubioonset", "aubio-tools", "onsets found by an independent detector");
const banked = aubio && hasDebianBank("onsets of sampled instruments");
describe.skipIf(!aubio)("Debian's aubioonset", () => {
  /** Onsets closer together than this are one to the detector, in seconds. */
  const APART = 0.03;
  /** Twenty minutes of sound are made and searched: on a busy machine that takes longer than a test usually may, in milliseconds. */
  const PATIENCE = 600_000;
  /** As asked of the renderer, in seconds. */
  const NEAR = 0.005;

  const detected = (sound: Parameters<typeof encodeWav>[0]): readonly number[] => {
    const path = file("onsets.wav", encodeWav(sound, { samples: 16 }));
    // High-frequency content, the detector's default, in windows of 256 samples and steps of 64 (1.45 ms).
    const args = ["-i", path, "-O", "hfc", "-B", "256", "-H", "64", "-t", "0.3", "-s", "-60", "-M", String(APART)];
    return told("aubioonset", args).stdout.trim().split("\n").map(Number);
  };
  const due = (score: Score): readonly number[] => {
    const { clicks, tracks, rate } = timeline(score, 44100);
    const samples = [...clicks, ...tracks.flatMap(({ notes }) => notes)].map(({ from }) => from);
    return [...new Set(samples)].sort((a, b) => a - b).map((sample) => sample / rate);
  };
  const nearest = (at: number, others: readonly number[]): number =>
    others.reduce(
      (best, other) => (Math.abs(other - at) < Math.abs(best) ? other - at : best),
      Number.POSITIVE_INFINITY,
    );
  const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;
  const ms = (value: number): string => `${(value * 1000).toFixed(2)} ms`;
  const report = (voices: string, errors: readonly number[]): void => {
    const bias = median(errors);
    const furthest = errors.reduce((most, error) => Math.max(most, Math.abs(error)), 0);
    const deviation = errors.reduce((most, error) => Math.max(most, Math.abs(error - bias)), 0);
    console.log(
      `aubioonset, ${voices}: ${errors.length} onsets, median ${ms(bias)}, furthest ${ms(furthest)} (${ms(deviation)} from the median)`,
    );
  };

  test(
    "finds every onset of the built-in voices within 5 ms of the score, its own bias left in, and no other",
    () => {
      const errors: number[] = [];
      for (const [name, score] of shipped) {
        const expected = due(score);
        const found = detected(made(renderSound(score)));
        for (const at of expected) {
          const error = nearest(at, found);
          if (Math.abs(error) > NEAR) console.log(name, at, ms(error));
          errors.push(error);
        }
        expect(
          found.filter((at) => Math.abs(nearest(at, expected)) > NEAR),
          name,
        ).toEqual([]);
      }
      report("built-in voices", errors);
      expect(errors.filter((error) => Math.abs(error) > NEAR)).toEqual([]);
    },
    PATIENCE,
  );

  test.skipIf(!banked)(
    "finds the onsets of a sampled drum kit within 5 ms of the score, its own bias left in",
    async () => {
      const bank: SoundBank = made(await readSoundBank(readFileSync(DEBIAN_BANK)));
      const errors: number[] = [];
      for (const [, score] of shipped.filter((_, number) => number % 2 === 0)) {
        // Recorded winds and basses speak later than they are told to, each by its own time; a kit speaks at once.
        const kit = { ...score, parts: score.parts.filter(({ name }) => name === "kit") };
        const found = detected(made(renderSound(kit, { bank })));
        errors.push(...due(kit).map((at) => nearest(at, found)));
      }
      report("sampled kit", errors);
      expect(errors.filter((error) => Math.abs(error) > NEAR)).toEqual([]);
    },
  );
});

test("the numbers of a file do not depend on what else was rendered before", () => {
  const sum = (score: Score): string =>
    createHash("sha256")
      .update(encodeWav(made(renderSound(score))))
      .digest("hex");
  const first = sum(jettyScore());
  sum(jettyScore({}, "listen"));
  expect(sum(jettyScore())).toBe(first);
});
