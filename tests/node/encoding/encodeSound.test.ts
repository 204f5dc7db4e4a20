import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { CAUTION } from "../../../lib/base/index.js";
import { encodeSound } from "../../../lib/node/encoding/encodeSound.js";
import { ffmpegFor } from "../../../lib/node/encoding/ffmpegHere.js";
import { ENCODED, type Encoding } from "../../../lib/node/encoding/formats.js";
import { stripChart } from "../../../lib/render/index.js";
import { encodeWav, labelOf, renderSound } from "../../../lib/render/sound/index.js";
import { jettyScore, made } from "../../render/sound/material.js";
import { isThere } from "../../render/sound/programs.js";
import { sample } from "../../samples.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-encoded-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const MAKERS = {
  course: "Quayside: time = kept",
  drills: { drill: "Half a bar" },
  author: "Ina Brook",
  copyright: "2026 Ina Brook",
  licence: "CC BY 4.0 = share; it # freely",
} as const;
const score = { ...jettyScore({ phrases: 1 }, "play"), curriculum: "quayside-time" };
const label = labelOf(score, undefined, MAKERS);
const ffmpeg = isThere("ffmpeg", "ffmpeg", "compressed files and what is in them");

/** What ffprobe reads in a file: another program of the same library, and the only one here that reads all four formats. */
function probed(path: string): { tags: Record<string, string>; codecs: string[] } {
  const { stdout } = spawnSync("ffprobe", ["-v", "error", "-show_format", "-show_streams", "-of", "json", path], {
    encoding: "utf8",
  });
  const { format, streams } = JSON.parse(stdout);
  const named = [
    format.tags ?? {},
    ...streams.filter(({ codec_type }: { codec_type: string }) => codec_type === "audio").map(({ tags = {} }) => tags),
  ].flatMap((tags) => Object.entries<string>(tags));
  return {
    tags: Object.fromEntries(named.map(([name, value]) => [name.toLowerCase(), value])),
    codecs: streams.map(({ codec_name }: { codec_name: string }) => codec_name),
  };
}

function decoded(path: string, rate: number): Float32Array {
  const { stdout } = spawnSync(
    "ffmpeg",
    ["-v", "error", "-i", path, "-map", "0:a", "-ac", "1", "-ar", String(rate), "-f", "f32le", "-"],
    { maxBuffer: 1e9 },
  );
  return new Float32Array(new Uint8Array(stdout).buffer);
}

/** The lag at which two sounds agree best, samples, by brute force; within 5 ms. */
function lagBetween(a: Float32Array, b: Float32Array, from: number, rate: number): number {
  const reach = Math.round(0.005 * rate);
  const length = Math.round(0.1 * rate);
  let [best, most] = [0, Number.NEGATIVE_INFINITY];
  for (let lag = -reach; lag <= reach; lag++) {
    let sum = 0;
    for (let i = from; i < from + length; i++) sum += a[i]! * (b[i + lag] ?? 0);
    if (sum > most) [best, most] = [lag, sum];
  }
  return best;
}

describe.skipIf(!ffmpeg)("encodeSound()", () => {
  const formats = Object.keys(ENCODED) as Encoding[];

  test.each(formats)(
    "%s: the landing is where the score has it within 1 ms, peaks are at most -1 dBTP, and the tags say what it is",
    async (as) => {
      expect((await ffmpegFor(as)).ok).toBe(true);
      const rate = as === "opus" ? 48000 : 44100;
      const sound = made(renderSound(score, { rate, loudness: -14 }));
      const cover = stripChart(score);
      const file = made(await encodeSound(sound, { as, label, peak: -1, cover }));
      const path = join(folder, `take.${as}`);
      writeFileSync(path, file.bytes);

      const mono = sound.channels[0].map((value, i) => (value + sound.channels[1][i]!) / 2);
      const heard = decoded(path, rate);
      for (const at of [0, ...score.dropouts.map(({ to }) => to)]) {
        const from = sound.downbeat + Math.round(at * rate) - Math.round(0.01 * rate);
        expect(Math.abs(lagBetween(mono, heard, from, rate)) / rate, `landing at ${at} s`).toBeLessThan(0.001);
      }

      const { tags, codecs } = probed(path);
      expect(tags).toMatchObject({ title: label.title, artist: "Ina Brook", album: "Quayside: time = kept" });
      expect(tags.title).toMatch(/^Quayside: time = kept, Half a bar, /);
      expect(Object.values(tags)).toContain(CAUTION);
      expect(tags.copyright).toContain("2026 Ina Brook");
      expect(Object.values(tags).some((value) => value.includes(MAKERS.licence))).toBe(true);
      const tempo = tags.tbpm ?? tags.bpm ?? tags.tmpo ?? tags.tempo;
      if (as !== "m4a") expect(Number(tempo)).toBe(Math.round(score.tempo!));
      else {
        // ffprobe 5.1 does not show it. Of the item list of MP4: the name of the item, the length and name of its data, type 21 (a whole number) and locale, then the value.
        const bytes = Buffer.from(file.bytes);
        const at = bytes.indexOf("tmpo");
        expect(bytes.toString("latin1", at + 8, at + 12)).toBe("data");
        expect(bytes.readUInt32BE(at + 12)).toBe(21);
        expect(bytes.readUInt16BE(at + 20)).toBe(Math.round(score.tempo!));
      }
      expect(codecs).toContain("png");

      const { stderr } = spawnSync(
        "ffmpeg",
        ["-hide_banner", "-nostats", "-i", path, "-map", "0:a", "-af", "ebur128=peak=true", "-f", "null", "-"],
        { encoding: "utf8" },
      );
      const summary = stderr.slice(stderr.lastIndexOf("Summary:"));
      const loudness = Number(/I:\s+(-?[\d.]+) LUFS/.exec(summary)![1]);
      expect(Number(/Peak:\s+(-?[\d.]+) dBFS/.exec(summary)![1])).toBeLessThanOrEqual(-0.95);
      expect(Math.abs(loudness - file.loudness!)).toBeLessThanOrEqual(0.2);
      // Turned down for its peaks by a little, where the encoder raised them.
      expect(loudness).toBeGreaterThan(-15.5);
      expect(loudness).toBeLessThanOrEqual(-13.8);
    },
  );

  test("gives the same bytes again", async () => {
    const short = made(renderSound({ ...score, parts: [] }, { rate: 44100 }));
    for (const as of formats.slice(0, sample({ suite: 2, proof: 4 }))) {
      const once = () => encodeSound(short, { as, label, peak: -1, cover: undefined });
      expect(Buffer.from(made(await once()).bytes).equals(made(await once()).bytes), as).toBe(true);
    }
  });

  test("goes without a picture that cannot be drawn, and says so: SOUND_COVER_NOT_DRAWN", async () => {
    const short = made(renderSound({ ...score, parts: [] }, { rate: 44100 }));
    const result = await encodeSound(short, { as: "mp3", label, peak: -1, cover: "<svg" });
    expect(result).toMatchObject({
      ok: true,
      advice: [{ code: "SOUND_COVER_NOT_DRAWN", message: expect.stringContaining("gave up") }],
    });
    writeFileSync(join(folder, "bare.mp3"), made(result).bytes);
    expect(probed(join(folder, "bare.mp3")).codecs).toEqual(["mp3"]);
  });

  test("lowers what the encoder raised above full scale, where the wave has no room", async () => {
    // Noise at the ceiling: lossy coding raises its peaks.
    let state = 1;
    const noise = Float32Array.from({ length: 88_200 }, () => {
      state = (state * 48_271) % 2_147_483_647;
      return state / 2_147_483_647 > 0.5 ? 0.89 : -0.89;
    });
    const file = made(
      await encodeSound({ rate: 44100, channels: [noise, noise] }, { as: "m4a", label, peak: -1, cover: undefined }),
    );
    expect(file.peak!).toBeLessThanOrEqual(-1);
    expect(encodeWav({ rate: 44100, channels: [noise, noise] }).length).toBeGreaterThan(file.bytes.length);
  });
});

test("ffmpegFor() says what to install when the program is not there", async () => {
  const path = process.env.PATH;
  process.env.PATH = folder;
  try {
    expect(await ffmpegFor("opus")).toMatchObject({
      ok: false,
      problems: [{ code: "SOUND_ENCODER_MISSING", remedy: expect.stringContaining("libopus") }],
    });
    // A program without the encoder: it lists none.
    writeFileSync(join(folder, "ffmpeg"), "#!/bin/sh\necho ' A..... aac x'\n", { mode: 0o755 });
    expect(await ffmpegFor("opus")).toMatchObject({
      ok: false,
      problems: [{ code: "SOUND_ENCODER_MISSING", message: expect.stringContaining("lacks its encoder libopus") }],
    });
    expect((await ffmpegFor("m4a")).ok).toBe(true);
  } finally {
    process.env.PATH = path;
  }
});

test("a program that gives up is told of in its own words: SOUND_ENCODING_FAILED", async () => {
  const path = process.env.PATH;
  process.env.PATH = folder;
  writeFileSync(
    join(folder, "ffmpeg"),
    "#!/bin/sh\ncase \"$*\" in *-encoders*) echo ' A..... aac x';; *-decoders*) ;; *) echo 'no room left' >&2; exit 1;; esac\n",
    { mode: 0o755 },
  );
  try {
    const sound = made(renderSound(score));
    expect(await encodeSound(sound, { as: "m4a", label, peak: -1, cover: undefined })).toMatchObject({
      ok: false,
      problems: [{ code: "SOUND_ENCODING_FAILED", message: expect.stringContaining("no room left") }],
    });
  } finally {
    process.env.PATH = path;
  }
});
