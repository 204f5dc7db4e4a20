import { execFileSync } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, test } from "vitest";
import { openSoundFile } from "../../../lib/node/index.js";
import { clicks, gather, wavBytes } from "../../formats/sound/soundFiles.js";

/** Seconds a stand-in for ffmpeg may stand still; no test needs it to be long. */
const PATIENCE = 0.5;
/** Seconds a test may take beside that, on a busy machine. */
const BUSY = 8;

const root = mkdtempSync(join(tmpdir(), "leeway-stuck-"));
const wav = join(root, "sound.wav");
const PATH = process.env.PATH;
let folder = "";
let take = "";

beforeEach(() => {
  folder = mkdtempSync(join(root, "x-"));
  take = join(folder, "take.m4a");
  // What marks it as M4A is enough: the stand-ins do not read it.
  writeFileSync(take, Buffer.from("\0\0\0\x20ftypM4A ", "latin1"));
  // Of a length that is not stated, as ffmpeg writes it to a pipe.
  writeFileSync(wav, wavBytes({ samples: [clicks(400_000)], coding: "f32", lies: { size: 0xffffffff } }));
});
afterEach(() => {
  process.env.PATH = PATH;
  for (const pid of pids()) if (isAlive(pid)) process.kill(pid, "SIGKILL");
});
afterAll(() => rmSync(root, { force: true, recursive: true }));

/** A program of the name ffmpeg that does these things when it decodes, and notes its process. */
function standIn(decodes: string, probed = "exit 0"): void {
  const path = join(folder, "ffmpeg");
  const lines = ["#!/bin/sh", `echo $$ >> ${folder}/pids`, `if [ "$1" = -version ]; then ${probed}; fi`, decodes];
  writeFileSync(path, `${lines.join("\n")}\n`);
  chmodSync(path, 0o755);
  process.env.PATH = `${folder}:${PATH}`;
}

function pids(): readonly number[] {
  const path = join(folder, "pids");
  return existsSync(path) ? readFileSync(path, "utf8").trim().split("\n").map(Number) : [];
}

/** Whether there is such a process still, be it one that has ended and was not waited for. */
function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

/** Codes of the problems, and the samples that were heard before. */
async function heard(): Promise<{ readonly codes: readonly string[]; readonly samples: number }> {
  const file = await openSoundFile(take, { patience: PATIENCE });
  if (!file.ok) return { codes: file.problems.map(({ code }) => code), samples: 0 };
  const { codes, channels } = await gather({ sound: file.value.open(), problems: file.value.problems });
  return { codes, samples: channels[0]?.length ?? 0 };
}

const STILL = "exec sleep 300";

describe("a decoder that stands still", () => {
  test.each([
    ["in the probe", { decodes: "exit 0", probed: STILL }, 0],
    ["before its first byte", { decodes: STILL }, 0],
    ["within the header", { decodes: `head -c 30 ${wav}; ${STILL}` }, 0],
    ["after the header", { decodes: `head -c 44 ${wav}; ${STILL}` }, 0],
    ["after the first of many pieces", { decodes: `head -c 65536 ${wav}; ${STILL}` }, 1],
    ["in the middle", { decodes: `head -c 800000 ${wav}; ${STILL}` }, 1],
    ["after its last byte", { decodes: `cat ${wav}; ${STILL}` }, 1],
    ["after closing its output", { decodes: `cat ${wav}; ${STILL} >&-` }, 1],
    ["while it complains", { decodes: `head -c 800000 ${wav}; while :; do echo broken >&2; done` }, 1],
    ["while a program that it started holds its pipes", { decodes: `head -c 800000 ${wav}; sleep 20` }, 1],
    ["and does not listen to signals", { decodes: `trap '' TERM INT HUP PIPE; head -c 800000 ${wav}; ${STILL}` }, 1],
  ] as const)(
    "RECORDING_DECODER_STUCK: %s it is given up within the limit, and no longer runs",
    async (_, { decodes, probed }: { decodes: string; probed?: string }, least) => {
      standIn(decodes, probed);
      const began = performance.now();
      const { codes, samples } = await heard();
      expect((performance.now() - began) / 1000).toBeLessThan(PATIENCE + BUSY);
      expect(codes).toContain("RECORDING_DECODER_STUCK");
      expect(codes).not.toContain("RECORDING_DECODER_FAILED");
      expect(samples).toBeGreaterThanOrEqual(least);
      expect(pids().length).toBeGreaterThan(0);
      expect(pids().filter(isAlive)).toEqual([]);
    },
    1000 * (PATIENCE + BUSY + 5),
  );

  test("says what stood still, for how long, and what to do", async () => {
    standIn(STILL);
    const file = await openSoundFile(take, { patience: PATIENCE });
    if (!file.ok) throw new Error(JSON.stringify(file.problems));
    for await (const _ of file.value.open());
    expect(file.value.problems()).toMatchObject([
      {
        code: "RECORDING_DECODER_STUCK",
        severity: "error",
        message: "ffmpeg, which decodes this M4A file, stood still for 0.5 s and was stopped",
        where: { file: take },
        remedy: "try again, or save it as WAV, FLAC or MP3",
      },
    ]);
  });
});

describe("a decoder that works", () => {
  /** Until more time has passed than a decoder may stand still. */
  const slow = () => new Promise((resolve) => setTimeout(resolve, 1500 * PATIENCE));

  test("may wait for those who listen as long as they like", async () => {
    standIn(`cat ${wav}; exit 0`);
    const file = await openSoundFile(take, { patience: PATIENCE });
    if (!file.ok) throw new Error(JSON.stringify(file.problems));
    let samples = 0;
    let blocks = 0;
    for await (const { channels } of file.value.open()) {
      samples += channels[0]!.length;
      if (++blocks < 4) await slow();
    }
    expect(file.value.problems()).toEqual([]);
    expect(samples).toBe(400_000);
  });

  test("is not given up for a time in which this process was busy", async () => {
    standIn(`head -c 44 ${wav}; sleep 0.2; tail -c +45 ${wav}; exit 0`);
    const file = await openSoundFile(take, { patience: PATIENCE });
    if (!file.ok) throw new Error(JSON.stringify(file.problems));
    const sound = gather({ sound: file.value.open(), problems: file.value.problems });
    // It has begun by then.
    while (pids().length < 2) await new Promise((resolve) => setTimeout(resolve, 10));
    execFileSync("sleep", [`${2 * PATIENCE}`]);
    expect(await sound).toMatchObject({ codes: [], channels: [{ length: 400_000 }] });
  });

  test("is ended when nobody listens any more, wherever it is", async () => {
    for (const decodes of [`cat ${wav} ${wav} ${wav}; ${STILL}`, `head -c 800000 ${wav}; ${STILL}`]) {
      standIn(decodes);
      const file = await openSoundFile(take, { patience: PATIENCE });
      if (!file.ok) throw new Error(JSON.stringify(file.problems));
      for await (const _ of file.value.open()) break;
      expect(pids().filter(isAlive)).toEqual([]);
      expect(file.value.problems()).toEqual([]);
    }
  });
});

test("a patience that no clock can keep is refused", async () => {
  for (const patience of [0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e9])
    await expect(openSoundFile(take, { patience })).rejects.toThrow(RangeError);
});
