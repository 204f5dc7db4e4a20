import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { random } from "../../../../lib/base/index.js";
import { crc8, crc16 } from "../../../../lib/formats/sound/flac/crc.js";
import { md5 } from "../../../../lib/formats/sound/flac/md5.js";
import { encodeFlac, encodeWav, quantised, renderSound } from "../../../../lib/render/sound/index.js";
import { jettyScore, made } from "../../../render/sound/material.js";
import { isThere } from "../../../render/sound/programs.js";
import { sample } from "../../../samples.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-flac-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

describe("md5()", () => {
  // RFC 1321, appendix A.5.
  test.each([
    ["", "d41d8cd98f00b204e9800998ecf8427e"],
    ["a", "0cc175b9c0f1b6a831c399e269772661"],
    ["abc", "900150983cd24fb0d6963f7d28e17f72"],
    ["message digest", "f96b697d7cb7938d525a2f31aaf161d0"],
    [
      "12345678901234567890123456789012345678901234567890123456789012345678901234567890",
      "57edf4a22be3c955ac49da2e2107b67a",
    ],
  ])("of %j is %s", (text, sum) => {
    expect(Buffer.from(md5(new TextEncoder().encode(text))).toString("hex")).toBe(sum);
  });

  test("agrees with the system's at every length up to three blocks", () => {
    const bytes = Uint8Array.from({ length: 193 }, (_, i) => (i * 167) & 255);
    for (let length = 0; length <= bytes.length; length++) {
      const part = bytes.subarray(0, length);
      expect(Buffer.from(md5(part)).toString("hex")).toBe(createHash("md5").update(part).digest("hex"));
    }
  });
});

test("checksums of the letters 123456789 are those of the catalogue of polynomials (CRC-8/SMBUS f4, CRC-16/UMTS fee8; from memory)", () => {
  const bytes = new TextEncoder().encode("123456789");
  expect([crc8(bytes), crc16(bytes)]).toEqual([0xf4, 0xfee8]);
});

type Make = (i: number, chance: ReturnType<typeof random>) => number;
/** Signals that reach every way in which a channel is written, and the ends of every range. */
const SIGNALS: Readonly<Record<string, Make>> = {
  silence: () => 0,
  "the highest number": () => 1,
  "the lowest number": () => -1,
  "full scale, every sample the other end": (i) => (i % 2 === 0 ? 1 : -1),
  "full scale in noise": (_, chance) => (chance.uniform() < 0.5 ? 1 : -1),
  "noise over the whole range": (_, chance) => 2 * chance.uniform() - 1,
  "faint noise": (_, chance) => (2 * chance.uniform() - 1) * 2 ** -20,
  "one click": (i) => (i === 1000 ? 1 : 0),
  "a slow wave": (i) => Math.sin(i / 500),
  "a wave near half the rate": (i) => 0.9 * Math.sin(3.1 * i),
  "a square wave": (i) => (Math.floor(i / 37) % 2 === 0 ? 0.7 : -0.7),
  "steps of 256 units": (i) => Math.round(64 * Math.sin(i / 90)) / 32768,
  "a ramp": (i) => ((i % 8192) - 4096) / 4096,
  "silence, then full scale": (i) => (i < 5000 ? 0 : i % 3 === 0 ? -1 : 1),
};
const names = Object.keys(SIGNALS);
const LENGTHS = [1, 2, 3, 5, 8, 9, 16, 31, 4095, 4096, 4097, 8192, 12_289] as const;

const flac = isThere("flac", "flac", "FLAC files tested by the format's own program");
const ffmpeg = isThere("ffmpeg", "ffmpeg", "FLAC files decoded by a second program");

describe("encodeFlac()", () => {
  test.skipIf(!(flac && ffmpeg))(
    "writes files that flac and ffmpeg decode to every sample, of extreme signals at lengths around a frame",
    () => {
      const chance = random("extreme");
      // Each signal twice and each length at least twice, each with another beside it.
      const cases = sample({ suite: 2 * names.length, proof: 700 });
      const paths: string[] = [];
      const files = Array.from({ length: cases }, (_, i) => {
        const bits = i % 2 === 0 ? 16 : 24;
        const length = LENGTHS[i % LENGTHS.length]!;
        const pair = [names[i % names.length]!, names[chance.below(names.length)]!] as const;
        const channels = pair.map((name) => Float32Array.from({ length }, (_, at) => SIGNALS[name]!(at, chance)));
        const numbers = quantised([channels[0]!, channels[1]!], { bits });
        const path = join(folder, `${i}.flac`);
        writeFileSync(
          path,
          encodeFlac({ rate: i % 3 === 0 ? 48000 : 44100, channels: [channels[0]!, channels[1]!] }, { samples: bits }),
        );
        paths.push(path);
        return { path, numbers, bits, what: `${pair.join(" beside ")}, ${length} samples of ${bits} bits` };
      });
      const tested = spawnSync("flac", ["--test", "--warnings-as-errors", "--silent", ...paths], { encoding: "utf8" });
      expect(tested.stderr).toBe("");
      expect(tested.status).toBe(0);
      for (const { path, numbers, bits, what } of files) {
        const raw = spawnSync("ffmpeg", ["-v", "error", "-i", path, "-f", "s32le", "-"], { maxBuffer: 1e8 });
        expect(raw.stderr.toString(), what).toBe("");
        const read = new Int32Array(new Uint8Array(raw.stdout).buffer);
        expect(read.length, what).toBe(numbers.length);
        expect(
          read.every((value, at) => value >> (32 - bits) === numbers[at]),
          what,
        ).toBe(true);
      }
    },
  );

  test.skipIf(!flac)("is at most 1.02 times as large as the format's own program makes it at level 5", () => {
    const sound = made(renderSound(jettyScore({ phrases: 2 })));
    const [wav, own] = [join(folder, "own.wav"), join(folder, "own.flac")];
    writeFileSync(wav, encodeWav(sound));
    expect(spawnSync("flac", ["-5", "--silent", "--force", "-o", own, wav]).status).toBe(0);
    expect(encodeFlac(sound).length / statSync(own).size).toBeLessThan(1.02);
  });

  test("writes a frame of digital silence as a few bytes", () => {
    const quiet = new Float32Array(441_000);
    expect(encodeFlac({ rate: 44100, channels: [quiet, quiet] }).length).toBeLessThan(
      100 + 18 * Math.ceil(441_000 / 4096),
    );
  });

  test("of no samples at all is a header alone", () => {
    const none = new Float32Array(0);
    expect(encodeFlac({ rate: 44100, channels: [none, none] }).length).toBeLessThan(64);
  });
});
