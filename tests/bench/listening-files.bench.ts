// One hour of sound in every kind of file: how fast it is decoded, and how much memory the process takes while it is; then takes beside a backing
// that was played aloud. Made by ffmpeg in a folder for passing files (about 1 GB, removed afterwards).
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { findOnsets, type SoundBlock, type SoundStream, takeFromSound } from "../../lib/listen/index.js";
import { openSoundFile, type SoundFile } from "../../lib/node/index.js";

const HOUR = 3600;
/** MB that must not be exceeded. */
const MOST = 300;
/** When a backing begins in the recording, ms. */
const LATE = 750;
const FILES: readonly (readonly [name: string, words: readonly string[]])[] = [
  ["hour.wav", []],
  ["hour.flac", []],
  ["hour.mp3", ["-c:a", "libmp3lame", "-b:a", "192k"]],
  ["hour.ogg", ["-c:a", "libvorbis"]],
  ["hour.m4a", ["-c:a", "aac"]],
  ["hour.webm", ["-c:a", "libopus"]],
];

if (spawnSync("ffmpeg", ["-version"]).status !== 0)
  console.log("skipped: ffmpeg, which makes the files, is not installed");
else await measure();

async function measure(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "leeway-hour-"));
  try {
    // A tone twice a second over noise, the same in every run.
    const source = `aevalsrc='0.4*sin(2*PI*440*t)*exp(-8*mod(t,0.5))':s=44100:d=${HOUR}[a];anoisesrc=a=0.02:seed=7:r=44100:d=${HOUR}[b];[a][b]amix,aformat=channel_layouts=stereo`;
    const first = join(folder, FILES[0]![0]);
    spawnSync("ffmpeg", ["-v", "error", "-f", "lavfi", "-i", source, "-ac", "2", first], { stdio: "inherit" });
    console.log("one hour, stereo, 44.1 kHz   file MB   x real time   peak MB resident");
    for (const [name, words] of FILES) {
      const path = join(folder, name);
      if (path !== first) spawnSync("ffmpeg", ["-v", "error", "-i", first, ...words, path], { stdio: "inherit" });
      await measureFile(path, name);
      if (path === first) await measureFile(path, "hour.wav, listened to", listened);
      if (path !== first) rmSync(path);
    }
    rmSync(first);
    console.log("\nbeside a backing, WAV, mono, 44.1 kHz   x real time   peak MB resident   start off");
    // The hour first, while no other has left anything behind.
    for (const seconds of [HOUR, 1200, 60, 60]) await measureBeside(folder, seconds);
  } finally {
    rmSync(folder, { force: true, recursive: true });
  }
}

/** Finds the onsets while the blocks go by. */
async function listened(file: SoundFile, each: (block: SoundBlock) => void): Promise<void> {
  const tapped = async function* (): SoundStream {
    for await (const block of file.open()) {
      each(block);
      yield block;
    }
  };
  await findOnsets(tapped(), { family: "plucked" });
}

async function decoded(file: SoundFile, each: (block: SoundBlock) => void): Promise<void> {
  for await (const block of file.open()) each(block);
}

async function measureFile(path: string, name: string, go = decoded): Promise<void> {
  const begun = performance.now();
  const file = await openSoundFile(path);
  if (!file.ok) return console.log(name, file.problems);
  let seconds = 0;
  let peak = 0;
  await go(file.value, ({ rate, channels }) => {
    seconds += channels[0]!.length / rate;
    peak = Math.max(peak, process.memoryUsage.rss() / 1e6);
  });
  const speed = (1000 * seconds) / (performance.now() - begun);
  const size = statSync(path).size / 1e6;
  const found = file.value.problems().map(({ code }) => code);
  const verdict = peak <= MOST ? "" : `  MORE THAN ${MOST}`;
  console.log(
    `${name.padEnd(26)}${size.toFixed(0).padStart(10)}${speed.toFixed(0).padStart(14)}${peak.toFixed(0).padStart(19)}${verdict}  ${Math.abs(seconds - HOUR) < 0.1 ? "" : `${seconds} s`}${found.join(" ")}`,
  );
}

/** A take of so many seconds from a recording and its backing: strokes of noise in two tempi at once, and a player's notes over them. */
async function measureBeside(folder: string, seconds: number): Promise<void> {
  const [recording, backing] = [join(folder, "recording.wav"), join(folder, "backing.wav")];
  const make = (words: readonly string[]): void => {
    spawnSync("ffmpeg", ["-v", "error", "-y", ...words], { stdio: "inherit" });
  };
  const strokes = `aevalsrc='0.6*(random(0)-0.5)*(exp(-12*mod(t,0.9))+exp(-12*mod(t,1.27)))':s=44100:d=${seconds}`;
  make(["-f", "lavfi", "-i", strokes, backing]);
  const notes = `aevalsrc='0.4*sin(2*PI*440*t)*exp(-8*mod(t,0.5))+0.0005*random(1)':s=44100:d=${seconds + 1}`;
  const mixed = `[0:a]volume=0.5,adelay=${LATE}[a];[a][1:a]amix=normalize=0`;
  make(["-i", backing, "-f", "lavfi", "-i", notes, "-filter_complex", mixed, recording]);
  const [heard, known] = [await openSoundFile(recording), await openSoundFile(backing)];
  if (!heard.ok || !known.ok) throw new Error(`${recording} or ${backing} was not made`);
  let peak = 0;
  const watched = (file: SoundFile) =>
    async function* (): SoundStream {
      for await (const block of file.open()) {
        peak = Math.max(peak, process.memoryUsage.rss() / 1e6);
        yield block;
      }
    };
  const begun = performance.now();
  const take = await takeFromSound(watched(heard.value), { family: "plucked", backing: watched(known.value) });
  const speed = (1000 * seconds) / (performance.now() - begun);
  const place = take.ok ? take.value.backing : undefined;
  const off = place?.found ? `${(1000 * place.start - LATE).toFixed(3)} ms` : "not found";
  const verdict = peak <= MOST ? "" : `  MORE THAN ${MOST}`;
  console.log(
    `${`${seconds} s`.padEnd(34)}${speed.toFixed(0).padStart(17)}${peak.toFixed(0).padStart(19)}${off.padStart(12)}${verdict}`,
  );
}
