import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { openSoundFile, type SoundFile } from "../../../lib/node/index.js";
import {
  CLICKS,
  clicks,
  clicksAs,
  clicksIn,
  gather,
  type Heard,
  hasFfmpeg,
  wavBytes,
} from "../../formats/sound/soundFiles.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-files-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const opened = async (path: string): Promise<SoundFile> => {
  const file = await openSoundFile(path);
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  return file.value;
};
const heardIn = async (path: string): Promise<Heard> => {
  const file = await opened(path);
  return gather({ sound: file.open(), problems: file.problems });
};
const codesOf = async (path: string): Promise<readonly string[]> => {
  const file = await openSoundFile(path);
  return file.ok ? (await heardIn(path)).codes : file.problems.map(({ code }) => code);
};

describe("openSoundFile()", () => {
  const wav = join(folder, "clicks.wav");
  writeFileSync(wav, wavBytes({ samples: [clicks()] }));

  test("can be gone through again and again, and says each problem once", async () => {
    const cut = join(folder, "cut.wav");
    writeFileSync(cut, wavBytes({ samples: [clicks()] }).subarray(0, 70_000));
    const file = await opened(cut);
    const [first, second] = [
      await gather({ sound: file.open(), problems: file.problems }),
      await gather({ sound: file.open(), problems: file.problems }),
    ];
    expect(second).toEqual(first);
    expect(first.problems).toMatchObject([{ code: "RECORDING_CUT_SHORT", where: { file: cut } }]);
  });

  test("RECORDING_READ_FAILED: refuses what is no file that can be read, and ends when one vanishes", async () => {
    expect(await codesOf(join(folder, "nowhere.wav"))).toEqual(["RECORDING_READ_FAILED"]);
    expect(await codesOf(folder)).toEqual(["RECORDING_READ_FAILED"]);
    const passing = join(folder, "passing.wav");
    writeFileSync(passing, wavBytes({ samples: [clicks(400_000)] }));
    const file = await opened(passing);
    rmSync(passing);
    const heard = await gather({ sound: file.open(), problems: file.problems });
    expect(heard.codes).toEqual(["RECORDING_READ_FAILED"]);
  });

  test("RECORDING_DECODER_MISSING: refuses what needs ffmpeg where there is none, and says what to do", async () => {
    const m4a = join(folder, "phone.m4a");
    writeFileSync(m4a, Buffer.from("\0\0\0\x20ftypM4A ", "latin1"));
    const path = process.env.PATH;
    process.env.PATH = join(folder, "empty");
    try {
      const file = await openSoundFile(m4a);
      expect(file).toMatchObject({
        ok: false,
        problems: [{ code: "RECORDING_DECODER_MISSING", remedy: "install ffmpeg, or save it as WAV, FLAC or MP3" }],
      });
    } finally {
      process.env.PATH = path;
    }
  });

  test("writes nothing", async () => {
    const before = readdirSync(folder);
    await heardIn(wav);
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe.skipIf(!hasFfmpeg)("openSoundFile() with ffmpeg", () => {
  /** A lossy encoder smears a click over a short block of 128 samples. */
  const SMEAR = 128;

  test.each([
    ["phone.m4a", ["-c:a", "aac"]],
    ["chat.opus", ["-c:a", "libopus"]],
    ["browser.webm", ["-c:a", "libopus"]],
    ["plain.aiff", []],
    ["voice.caf", ["-c:a", "pcm_s16le"]],
    ["small.wav", ["-c:a", "adpcm_ms"]],
    ["deep.flac", ["-c:a", "flac"]],
  ] as const)("finds the clicks of %s in their place", async (name, words) => {
    const { path } = clicksAs(folder, name, words);
    const heard = await heardIn(path);
    expect(heard.codes).toEqual([]);
    const scale = heard.rate / 44_100;
    clicksIn(heard.channels[0]!, 200).forEach((at, i) => {
      expect(Math.abs(at - CLICKS[i]! * scale), `click ${i} of ${name}`).toBeLessThanOrEqual(SMEAR * scale);
    });
  });

  test("takes off the usual start of bare AAC and says so", async () => {
    const heard = await heardIn(clicksAs(folder, "bare.aac", ["-f", "adts", "-c:a", "aac"]).path);
    expect(heard.codes).toEqual(["RECORDING_START_UNSTATED"]);
    clicksIn(heard.channels[0]!).forEach((at, i) => {
      expect(Math.abs(at - CLICKS[i]!)).toBeLessThanOrEqual(SMEAR);
    });
  });

  test("RECORDING_DECODER_FAILED: a cut M4A, whose end holds what its beginning means", async () => {
    const { bytes } = clicksAs(folder, "whole.m4a", ["-c:a", "aac"]);
    const cut = join(folder, "half.m4a");
    writeFileSync(cut, bytes.subarray(0, bytes.length >> 1));
    expect(await codesOf(cut)).toEqual(["RECORDING_DECODER_FAILED"]);
  });

  test("RECORDING_DAMAGED: keeps the times around broken packets", async () => {
    const { bytes } = clicksAs(folder, "sound.m4a", ["-c:a", "aac", "-b:a", "128k", "-movflags", "+faststart"]);
    const broken = bytes.slice();
    const from = Math.round(0.55 * bytes.length);
    broken.fill(0xff, from, from + 600);
    const path = join(folder, "broken.m4a");
    writeFileSync(path, broken);
    const heard = await heardIn(path);
    expect(heard.codes).toContain("RECORDING_DAMAGED");
    expect(Math.abs(clicksIn(heard.channels[0]!)[3]! - CLICKS[3])).toBeLessThanOrEqual(SMEAR);
  });

  test("is not led to other files, and leaves no program behind", async () => {
    const list = join(folder, "list.m4a");
    writeFileSync(list, `ffconcat version 1.0\nfile '${join(folder, "clicks.wav")}'\n`);
    expect(await codesOf(list)).toEqual(["RECORDING_FORMAT_UNKNOWN"]);
    const { path } = clicksAs(folder, "long.m4a", ["-c:a", "aac", "-af", "aloop=200:44100"]);
    const file = await opened(path);
    for await (const _ of file.open()) break;
    mkdirSync(join(folder, "later"), { recursive: true });
    await new Promise((resolve) => setTimeout(resolve, 200));
    const running = execFileSync("ps", ["-eo", "args"], { encoding: "utf8" });
    expect(running).not.toContain(path);
  });
});
