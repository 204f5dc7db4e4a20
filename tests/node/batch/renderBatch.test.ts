import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { BasicSoundBank } from "spessasynth_core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Result } from "../../../lib/base/index.js";
import type { BatchProgress } from "../../../lib/node/index.js";
import type { SoundJob, SoundJobs } from "../../../lib/render/sound/index.js";
import { jettyScore, made } from "../../render/sound/material.js";
import { ROOT } from "../../sources.js";
import { type BuiltSound, builtSound } from "./built.js";

let built: BuiltSound;
beforeAll(async () => {
  built = await builtSound();
});
afterAll(() => built.remove());

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-batch-"));
});
afterEach(() => rmSync(folder, { force: true, recursive: true }));

const JOBS: readonly SoundJob[] = [92, 96, 100, 104, 108, 112].map((tempo) => ({
  file: `half bar/tempo-${tempo}`,
  score: jettyScore({ phrases: 1, tempo }),
}));
const listed = (jobs: readonly SoundJob[]): SoundJobs => ({
  count: jobs.length,
  fileAt: (i) => jobs[i]!.file,
  rungAt: (i) => jobs[i]!.score.rung,
  everyMixAt: () => "",
  at: (i) => jobs[i]!,
});
const codes = (result: Result<unknown>): readonly string[] =>
  result.ok ? [] : result.problems.map(({ code }) => code);

/** Every file below a folder with the sum of its bytes. */
function contents(path: string): Readonly<Record<string, string>> {
  const entries = readdirSync(path, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    entries
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [file.slice(path.length + 1), createHash("sha256").update(readFileSync(file)).digest("hex")]),
  );
}

/** A program of its own that renders the first `count` jobs; it prints a line for each file. */
function program(into: string, count: number): string {
  const path = join(folder, "program.mjs");
  writeFileSync(join(folder, "jobs.json"), JSON.stringify(JOBS.slice(0, count)));
  writeFileSync(
    path,
    `import { readFileSync } from "node:fs";
const { renderBatch } = await import(${JSON.stringify(built.url)});
const jobs = JSON.parse(readFileSync(${JSON.stringify(join(folder, "jobs.json"))}, "utf8"));
const result = await renderBatch(
  { count: jobs.length, fileAt: (i) => jobs[i].file, at: (i) => jobs[i] },
  { folder: ${JSON.stringify(into)}, threads: 2, onProgress: ({ file }) => console.log(file) },
);
console.log(JSON.stringify(result.ok ? { ok: true } : result));
`,
  );
  return path;
}

describe("renderBatch()", () => {
  test("makes the same bytes with one thread and with three, the record included", async () => {
    for (const threads of [1, 3])
      made(await built.node.renderBatch(listed(JOBS), { folder: join(folder, `${threads}`), threads }));
    const one = contents(join(folder, "1"));
    expect(Object.keys(one)).toEqual([...JOBS.map(({ file }) => `${file}.wav`), "sound-files.jsonl"].sort());
    expect(contents(join(folder, "3"))).toEqual(one);
  });

  test("tells of every file as it is finished, and records what each is and was made from", async () => {
    const told: BatchProgress[] = [];
    const batch = made(
      await built.node.renderBatch(listed(JOBS), {
        folder,
        as: "flac",
        samples: 16,
        onProgress: (each) => void told.push(each),
      }),
    );
    expect(told.map(({ done }) => done)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(new Set(told.map(({ total, kept }) => `${total} ${kept}`))).toEqual(new Set(["6 0"]));
    expect(batch.files.map(({ file }) => file)).toEqual(JOBS.map(({ file }) => `${file}.flac`));
    const lines = readFileSync(batch.record, "utf8").trim().split("\n");
    expect(lines.map((line) => JSON.parse(line))).toEqual([...batch.files].sort((a, b) => (a.file < b.file ? -1 : 1)));
    for (const entry of batch.files) {
      const bytes = readFileSync(join(folder, entry.file));
      expect(entry).toMatchObject({
        bytes: bytes.length,
        sha256: createHash("sha256").update(bytes).digest("hex"),
        loudness: -23,
      });
    }
  });

  test("says what stays quieter than asked for, as louder its peaks would be cut off: SOUND_QUIETER_THAN_ASKED", async () => {
    const batch = await built.node.renderBatch(listed(JOBS.slice(0, 2)), { folder, loudness: -10, peak: -20 });
    const { files } = made(batch);
    const most = Math.max(...files.map(({ loudness }) => -10 - loudness!));
    expect(most).toBeGreaterThan(0.5);
    expect(files.every(({ peak }) => peak! <= -20)).toBe(true);
    expect(batch).toMatchObject({
      advice: [{ code: "SOUND_QUIETER_THAN_ASKED", message: expect.stringContaining(`up to ${most.toFixed(1)} LU`) }],
    });
    // What is asked for instead is reached by all.
    const wanted = Number(/ask for (-\d+) LUFS/.exec(batch.ok ? batch.advice[0]!.remedy! : "")?.[1]);
    const again = await built.node.renderBatch(listed(JOBS.slice(0, 2)), { folder, loudness: wanted, peak: -20 });
    expect(again).toMatchObject({ ok: true, advice: [] });
  });

  test("says when an encoder goes on raising peaks, however soft it is given: SOUND_PEAKS_TOO_HIGH", async () => {
    // An encoder that writes what it likes, and a decoder that reads full scale from it.
    const program = `#!${process.execPath}
const words = process.argv.slice(2);
if (words.includes("-encoders")) console.log(" A..... libmp3lame x");
else if (words.includes("f32le")) process.stdout.write(Buffer.from(new Float32Array(44100).fill(0).map((_, i) => (i % 100 < 50 ? 1 : -1)).buffer));
else if (!words.includes("-decoders")) require("node:fs").writeFileSync(words.at(-1), "x");
`;
    writeFileSync(join(folder, "ffmpeg"), program, { mode: 0o755 });
    const path = process.env.PATH;
    process.env.PATH = `${folder}:${path}`;
    try {
      const batch = await built.node.renderBatch(listed(JOBS.slice(0, 1)), { folder: join(folder, "out"), as: "mp3" });
      const codesOfAdvice = batch.ok ? batch.advice.map(({ code }) => code) : codes(batch);
      expect(codesOfAdvice).toContain("SOUND_PEAKS_TOO_HIGH");
    } finally {
      process.env.PATH = path;
    }
  });

  test("keeps what is finished, and makes anew what is missing, damaged or was made from something else", async () => {
    const options = { folder };
    made(await built.node.renderBatch(listed(JOBS), options));
    const before = contents(folder);
    const again = made(await built.node.renderBatch(listed(JOBS), options));
    expect(again.kept).toBe(6);
    expect(contents(folder)).toEqual(before);
    rmSync(join(folder, `${JOBS[0]!.file}.wav`));
    const damaged = join(folder, `${JOBS[1]!.file}.wav`);
    const bytes = readFileSync(damaged);
    bytes[5000]! ^= 1;
    writeFileSync(damaged, bytes);
    const mended = made(await built.node.renderBatch(listed(JOBS), options));
    expect(mended.kept).toBe(4);
    expect(contents(folder)).toEqual(before);
    const quieter = made(await built.node.renderBatch(listed(JOBS), { ...options, loudness: -26 }));
    expect(quieter.kept).toBe(0);
  });

  test("leaves no half file when it is killed, and goes on from there to the same bytes", async () => {
    made(await built.node.renderBatch(listed(JOBS), { folder: join(folder, "whole") }));
    const whole = contents(join(folder, "whole"));
    const into = join(folder, "killed");
    // Killed after one, two and three files: each time in the middle of others.
    for (let files = 1; files <= 3; files++) {
      const child = spawn(process.execPath, [program(into, 6)], { stdio: ["ignore", "pipe", "inherit"] });
      await new Promise<void>((resolve) => {
        let lines = 0;
        child.stdout.on("data", (data: Buffer) => {
          lines += data.toString().split("\n").length - 1;
          if (lines >= files) child.kill("SIGKILL");
        });
        child.on("exit", () => resolve());
      });
      for (const [file, sum] of Object.entries(contents(into)))
        if (file.endsWith(".wav")) expect(sum).toBe(whole[file]);
    }
    const resumed = made(await built.node.renderBatch(listed(JOBS), { folder: into }));
    expect(resumed.kept).toBeGreaterThan(0);
    // The record is the same too, and nothing unfinished is left.
    expect(contents(into)).toEqual(whole);
  });

  test("survives a record that is cut short or full of other things", async () => {
    made(await built.node.renderBatch(listed(JOBS.slice(0, 2)), { folder }));
    const before = contents(folder);
    const record = join(folder, "sound-files.jsonl");
    const text = readFileSync(record, "utf8");
    writeFileSync(record, `null\n[]\n{"file":3}\nnot json\n${text.slice(0, -40)}`);
    const again = made(await built.node.renderBatch(listed(JOBS.slice(0, 2)), { folder }));
    expect(again.kept).toBe(1);
    expect(contents(folder)).toEqual(before);
  });

  test("stops at a signal: RENDERING_STOPPED, what is finished stays, nothing unfinished is left", async () => {
    const stop = new AbortController();
    const result = await built.node.renderBatch(listed(JOBS), {
      folder,
      signal: stop.signal,
      onProgress: () => stop.abort(),
    });
    expect(codes(result)).toEqual(["RENDERING_STOPPED"]);
    const left = Object.keys(contents(folder));
    expect(left.filter((file) => file.includes("unfinished"))).toEqual([]);
    expect(left.filter((file) => file.endsWith(".wav")).length).toBeLessThan(6);
    expect(made(await built.node.renderBatch(listed(JOBS), { folder })).kept).toBeGreaterThan(0);
    expect(codes(await built.node.renderBatch(listed(JOBS), { folder, signal: AbortSignal.abort() }))).toEqual([
      "RENDERING_STOPPED",
    ]);
  });

  test("says that the folder vanished while it worked: OUTPUT_FOLDER_MISSING", async () => {
    const into = join(folder, "vanishes");
    const result = await built.node.renderBatch(listed(JOBS), {
      folder: into,
      threads: 1,
      onProgress: () => rmSync(into, { recursive: true }),
    });
    expect(codes(result)).toEqual(["OUTPUT_FOLDER_MISSING"]);
    expect(existsSync(into)).toBe(false);
  });

  test("says what stands in its way: OUTPUT_NAME_TAKEN", async () => {
    writeFileSync(join(folder, "a file"), "");
    expect(codes(await built.node.renderBatch(listed(JOBS), { folder: join(folder, "a file") }))).toEqual([
      "OUTPUT_NAME_TAKEN",
    ]);
    mkdirSync(join(folder, `${JOBS[0]!.file}.wav`), { recursive: true });
    const result = await built.node.renderBatch(listed(JOBS.slice(0, 1)), { folder });
    expect(codes(result)).toEqual(["OUTPUT_NAME_TAKEN"]);
    expect(Object.keys(contents(folder))).toEqual(["a file"]);
  });

  // Root may write anywhere; nobody may not.
  const writer = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  const reads = spawnSync("ls", [join(ROOT, "node_modules")], writer).status === 0;
  if (!reads)
    console.log("skipped: a folder that may not be written to, because nobody but root may read this project");
  test.skipIf(!reads)("says that a folder may not be written to: OUTPUT_NOT_ALLOWED", () => {
    const into = join(folder, "closed");
    mkdirSync(into, { mode: 0o555 });
    chmodSync(folder, 0o755);
    const { stdout, stderr } = spawnSync(process.execPath, [program(into, 1)], { encoding: "utf8", ...writer });
    expect(stdout, stderr).toContain('"code":"OUTPUT_NOT_ALLOWED"');
    expect(readdirSync(into)).toEqual([]);
  });

  const mounts =
    spawnSync("unshare", ["--map-root-user", "--mount", "mount", "-t", "tmpfs", "tmpfs", "/mnt"]).status === 0;
  if (!mounts) console.log("skipped: a full disk, because a small one cannot be mounted here");
  test.skipIf(!mounts)("says that the disk is full, and leaves no half file: OUTPUT_DISK_FULL", () => {
    const into = join(folder, "small");
    mkdirSync(into);
    // A file has some 4 MB: two fit, a third does not.
    const script = `mount -t tmpfs -o size=10m tmpfs '${into}' && '${process.execPath}' '${program(into, 6)}' && ls -lA '${into}/half bar'`;
    const { stdout, stderr } = spawnSync("unshare", ["--map-root-user", "--mount", "sh", "-c", script], {
      encoding: "utf8",
    });
    expect(stdout, stderr).toContain('"code":"OUTPUT_DISK_FULL"');
    expect(stdout).not.toContain("unfinished");
    const sizes = [...stdout.matchAll(/ (\d+) \w+ +\d+ [\d:]+ tempo-(\d+)\.wav/g)].map(([, size]) => Number(size));
    expect(sizes).toHaveLength(2);
    for (const size of sizes) expect(size).toBeGreaterThan(3e6);
  });

  test("says that a thread ended, for a score that is none: RENDERING_FAILED", async () => {
    const broken = { ...JOBS[0]!, score: { ...JOBS[0]!.score, bars: [] } };
    expect(codes(await built.node.renderBatch(listed([broken]), { folder }))).toEqual(["RENDERING_FAILED"]);
  });

  test("throws for options that do not go together", async () => {
    await expect(built.node.renderBatch(listed(JOBS), { folder, as: "flac", samples: "float" })).rejects.toThrow(
      RangeError,
    );
    await expect(built.node.renderBatch(listed(JOBS), { folder, threads: 0 })).rejects.toThrow(RangeError);
  });
});

describe("renderBatch() with a sound bank", () => {
  const bytes = new Uint8Array(BasicSoundBank.getSampleSoundBankFile());

  test("plays it, says what it lacks, and needs its file only at the start", async () => {
    const bank = join(folder, "bank.sf2");
    writeFileSync(bank, bytes);
    const result = await built.node.renderBatch(listed(JOBS), {
      folder: join(folder, "out"),
      bank,
      onProgress: () => rmSync(bank, { force: true }),
    });
    const { files } = made(result);
    expect(result.ok && result.advice.map(({ code }) => code)).toContain("SOUND_BANK_WITHOUT_INSTRUMENT");
    const own = made(await built.node.renderBatch(listed(JOBS.slice(0, 1)), { folder: join(folder, "own") }));
    expect(files[0]!.sha256).not.toBe(own.files[0]!.sha256);
    expect(files[0]!.from).not.toBe(own.files[0]!.from);
  });

  test("says that there is none, or none that can be read: SOUND_BANK_NOT_FOUND, SOUND_BANK_NOT_READ; nothing is written", async () => {
    const bank = join(folder, "bank.sf2");
    const into = join(folder, "out");
    expect(codes(await built.node.renderBatch(listed(JOBS), { folder: into, bank }))).toEqual(["SOUND_BANK_NOT_FOUND"]);
    writeFileSync(bank, bytes.subarray(0, 300));
    const result = await built.node.renderBatch(listed(JOBS), { folder: into, bank });
    expect(result.ok ? [] : result.problems.map(({ code, where }) => [code, where.file])).toEqual([
      ["SOUND_BANK_NOT_READ", bank],
    ]);
    expect(existsSync(into)).toBe(false);
    expect(codes(await built.node.openSoundBank(folder))).toEqual(["SOUND_BANK_NOT_FOUND"]);
  });
});
