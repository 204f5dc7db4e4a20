/**
 * How fast sound is made, in seconds of sound per second, beside the same synthesiser driven bare and a native one, in one run on one
 * machine; what a batch gains by its threads; memory. Needs Debian's fluidr3mono-gm-soundfont and fluidsynth for the rows that name them.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { writeMidi } from "midi-file";
import { SoundBankLoader, SpessaSynthProcessor } from "spessasynth_core";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import {
  encodeFlac,
  encodeWav,
  readSoundBank,
  renderSound,
  type Sound,
  soundJobs,
} from "../../lib/render/sound/index.js";
import { type Timeline, timeline } from "../../lib/render/sound/timeline.js";
import type { Score } from "../../lib/schema/index.js";
import { processorMs } from "./clock.js";

const BANK = "/usr/share/sounds/sf3/FluidR3Mono_GM.sf3";
const RATE = 44100;
/** Each row is the median of this many runs, after one that is not counted. */
const RUNS = 5;

const course = readCurriculum(readFileSync("curricula/quayside-first-course.yaml", "utf8"), {
  file: "quayside-first-course.yaml",
  readFile: () => undefined,
});
if (!course.ok) throw new Error("the shipped course cannot be read");
const drill = course.value.drills.find(({ name }) => name === "half-bar")!;
const score: Score = scoreOf(rungs(drill).at(0), "listen");
const line = timeline(score, RATE);
const seconds = line.length / RATE;
const notes = line.tracks.reduce((sum, track) => sum + track.notes.length, 0);
console.log(
  `half-bar, rung 0, mix listen: ${seconds.toFixed(1)} s, ${line.tracks.length} parts, ${notes} notes, ${line.clicks.length} clicks; median of ${RUNS}\n`,
);

const scratch = mkdtempSync(join(tmpdir(), "leeway-bench-"));
try {
  const own = renderSound(score);
  if (!own.ok) throw new Error("the score cannot be rendered");
  await row("built-in voices, to -23 LUFS", () => void renderSound(score));
  if (existsSync(BANK)) await banked();
  else console.log(`skipped: the rows with a bank, because ${BANK} is not there`);
  await row("24-bit WAV written from samples", () => void encodeWav(own.value));
  await row("24-bit FLAC written from samples", () => void encodeFlac(own.value));
  await beside(own.value);
  await batches();
  console.log(`\nmemory of this process at its highest: ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/** Size and processor time of a FLAC file beside the format's own program at its usual level; both read and write whole files. */
async function beside(sound: Sound): Promise<void> {
  const wav = join(scratch, "beside.wav");
  writeFileSync(wav, encodeWav(sound));
  const native = (): number => {
    const made = spawnSync("bash", ["-c", `time flac -5 --silent --force -o ${join(scratch, "beside.flac")} ${wav}`], {
      encoding: "utf8",
    });
    return ["user", "sys"].reduce(
      (sum, kind) => sum + 1000 * Number(new RegExp(`${kind}\\s+0m([\\d.]+)s`).exec(made.stderr)![1]),
      0,
    );
  };
  if (spawnSync("which", ["flac"]).status !== 0) {
    console.log("skipped: FLAC beside its own program, because flac is not installed");
    return;
  }
  const theirs = Array.from({ length: 9 }, native).sort((a, b) => a - b)[4]!;
  const ours = processorMs(() => void encodeFlac(sound));
  const size = encodeFlac(sound).length / statSync(join(scratch, "beside.flac")).size;
  console.log(
    `FLAC beside flac -5: ${size.toFixed(3)} x its size, ${ours.toFixed(0)} ms and ${theirs.toFixed(0)} ms, ${(ours / theirs).toFixed(1)} x its processor time`,
  );
}

async function banked(): Promise<void> {
  const bytes = readFileSync(BANK);
  const bank = await readSoundBank(bytes);
  if (!bank.ok) throw new Error("the bank cannot be read");
  await row("bank, each part with its silences, to -23 LUFS", () => void renderSound(score, { bank: bank.value }));
  const content = SoundBankLoader.fromArrayBuffer(new Uint8Array(bytes).buffer);
  await row("the same synthesiser bare, one pass, no loudness", () => bare(content, line));
  if (spawnSync("which", ["fluidsynth"]).status !== 0) {
    console.log("skipped: the native synthesiser, because fluidsynth is not installed");
    return;
  }
  const midi = join(scratch, "score.mid");
  writeFileSync(midi, Uint8Array.from(writeMidi(midiFile(line))));
  // Alike but without a note: what starting up and reading the bank take.
  const silent = join(scratch, "silent.mid");
  writeFileSync(silent, Uint8Array.from(writeMidi(midiFile({ ...line, tracks: [], length: RATE / 10 }))));
  const native = (file: string): void => {
    const options = ["-R", "0", "-C", "0", "-r", String(RATE), "-F", join(scratch, "native.wav")];
    const { status, stderr } = spawnSync("fluidsynth", ["-ni", "-q", ...options, BANK, file], { encoding: "utf8" });
    if (status !== 0) throw new Error(stderr);
  };
  const whole = await row("fluidsynth (native), its start and its file included", () => native(midi));
  const start = await medianOf(() => native(silent));
  console.log(`${"fluidsynth, its start alone".padEnd(54)} ${start.toFixed(0).padStart(6)} ms`);
  const difference = ((seconds * 1000) / (whole - start)).toFixed(0).padStart(5);
  console.log(
    `${"fluidsynth without its start (difference)".padEnd(54)} ${(whole - start).toFixed(0).padStart(6)} ms  ${difference} x real time`,
  );
}

/** The notes as they are, all parts in one pass, in blocks of 128 samples. */
function bare(bank: ReturnType<typeof SoundBankLoader.fromArrayBuffer>, { tracks, length }: Timeline): void {
  const synth = new SpessaSynthProcessor(RATE, { effectsEnabled: false, eventsEnabled: false });
  synth.soundBankManager.addSoundBank(bank, "bank");
  const events = tracks.flatMap(({ program, notes: all }, i) => {
    const channel = program === undefined ? 9 : i;
    if (program !== undefined) synth.programChange(channel, program - 1);
    return all.flatMap(({ from, to, key }) => [
      { at: from, does: () => synth.noteOn(channel, key, 92) },
      { at: to, does: () => synth.noteOff(channel, key) },
    ]);
  });
  events.sort((a, b) => a.at - b.at);
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  let next = 0;
  for (let at = 0; at < length; at += 128) {
    while (next < events.length && events[next]!.at <= at) events[next++]!.does();
    synth.process(left, right, at, Math.min(128, length - at));
  }
}

/** The same notes for the native synthesiser: a millisecond a tick. */
function midiFile({ tracks, length }: Timeline): Parameters<typeof writeMidi>[0] {
  const tick = (sample: number): number => Math.round((sample / RATE) * 1000);
  const events = tracks.flatMap(({ program, notes: all }, channelOf) => {
    const channel = program === undefined ? 9 : channelOf;
    const patch = { at: 0, event: { type: "programChange", channel, programNumber: (program ?? 1) - 1 } };
    return [
      patch,
      ...all.flatMap(({ from, to, key }) => [
        { at: tick(from), event: { type: "noteOn", channel, noteNumber: key, velocity: 92 } },
        { at: tick(to), event: { type: "noteOff", channel, noteNumber: key, velocity: 64 } },
      ]),
    ];
  });
  events.sort((a, b) => a.at - b.at || (a.event.type === "noteOff" ? -1 : 1));
  let before = 0;
  const track = events.map(({ at, event }) => {
    const deltaTime = at - before;
    before = at;
    return { deltaTime, ...event };
  });
  const end = { deltaTime: tick(length) - before, meta: true, type: "endOfTrack" };
  return { header: { format: 0, numTracks: 1, ticksPerBeat: 500 }, tracks: [[...track, end]] } as unknown as Parameters<
    typeof writeMidi
  >[0];
}

/** A whole drill, every rung and mix, with one thread and with all. */
async function batches(): Promise<void> {
  const out = mkdtempSync(join("node_modules", ".bench-sound-"));
  try {
    const folder = "lib/node";
    const entryPoints = { index: `${folder}/index.ts`, worker: `${folder}/batch/worker.ts` };
    await build({
      entryPoints,
      bundle: true,
      packages: "external",
      platform: "node",
      format: "esm",
      outdir: out,
      logLevel: "error",
    });
    const { renderBatch } = (await import(
      pathToFileURL(join(out, "index.js")).href
    )) as typeof import("../../lib/node/index.js");
    const jobs = soundJobs(drill);
    if (!jobs.ok) throw new Error("the drill has too many files");
    console.log("");
    let alone = 0;
    for (const threads of [1, availableParallelism()]) {
      const into = join(scratch, `${threads}`);
      const start = performance.now();
      const made = await renderBatch(jobs.value, { folder: into, threads });
      const took = (performance.now() - start) / 1000;
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      alone ||= took;
      const sound = made.value.files.reduce((sum, { length, rate }) => sum + length / rate, 0);
      const files = readdirSync(into, { recursive: true }).filter((name) => String(name).endsWith(".wav")).length;
      console.log(
        `batch of ${files} files, ${sound.toFixed(0)} s, ${threads} thread(s): ${took.toFixed(1)} s, ${(sound / took).toFixed(0)} x real time, ${(alone / took).toFixed(2)} x one thread`,
      );
    }
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}

async function row(what: string, work: () => void | Promise<void>): Promise<number> {
  const median = await medianOf(work);
  const times = ((seconds * 1000) / median).toFixed(0).padStart(5);
  console.log(`${what.padEnd(54)} ${median.toFixed(0).padStart(6)} ms  ${times} x real time`);
  return median;
}

/** Milliseconds. */
async function medianOf(work: () => void | Promise<void>): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i <= RUNS; i++) {
    const start = performance.now();
    await work();
    if (i > 0) times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[RUNS >> 1]!;
}
