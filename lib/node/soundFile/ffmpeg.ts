import { type ChildProcess, spawn } from "node:child_process";
import type { SoundFormat } from "../../formats/sound/index.js";

/** The demuxer for each kind of file: named, so that no file is taken for a play list that leads to others. */
const DEMUXERS: Readonly<Record<SoundFormat, string>> = {
  WAV: "wav",
  FLAC: "flac",
  MP3: "mp3",
  "Ogg Vorbis": "ogg",
  "Ogg Opus": "ogg",
  Ogg: "ogg",
  M4A: "mov",
  AAC: "aac",
  WebM: "matroska",
  AIFF: "aiff",
  CAF: "caf",
  AMR: "amr",
};

/** Broken stretches become silence where the times of packets leave a gap, seconds; shorter than a packet of AAC, longer than how exactly WebM states times. */
const FILLED = "aresample=async=1:min_hard_comp=0.015";

/** How a run of ffmpeg ended. */
export interface FfmpegEnd {
  /** Whether it reported anything broken. */
  readonly complained: boolean;
  /** It could not be started, gave nothing for too long, or ended with this code. */
  readonly failed: string | undefined;
}

/** Seconds without a byte after which a decoder is taken for stuck; our choice, decoding runs a hundred times faster than the sound. */
const PATIENCE = 60;

/**
 * The first sound track of a file as a WAV file of 32-bit floating point, decoded by the program `ffmpeg` while it is read. `told` is called once it has ended
 * by itself; it is stopped when nobody asks for bytes any more.
 */
export async function* ffmpegWav(
  path: string,
  format: SoundFormat,
  told: (end: FfmpegEnd) => void,
): AsyncGenerator<Uint8Array> {
  const words = `-v error -nostdin -protocol_whitelist file,pipe -f ${DEMUXERS[format]} -i`
    .split(" ")
    .concat(`file:${path}`);
  const output = `-map 0:a:0 -vn -sn -dn -af ${FILLED} -f wav -c:a pcm_f32le pipe:1`.split(" ");
  const child = spawn("ffmpeg", [...words, ...output], { stdio: ["ignore", "pipe", "pipe"] });
  const ended = endOf(child);
  let complained = false;
  child.stderr.on("data", () => {
    complained = true;
  });
  const watch = setTimeout(() => child.kill("SIGKILL"), PATIENCE * 1000);
  try {
    for await (const piece of child.stdout as AsyncIterable<Uint8Array>) {
      clearTimeout(watch);
      yield piece;
      watch.refresh();
    }
    told({ complained, failed: await ended });
  } finally {
    clearTimeout(watch);
    child.kill("SIGKILL");
  }
}

/** Whether ffmpeg can be run here. */
export async function hasFfmpeg(): Promise<boolean> {
  const child = spawn("ffmpeg", ["-version"], { stdio: "ignore" });
  return (await endOf(child)) === undefined;
}

/** Why a program did not do its work; `undefined` when it did. */
function endOf(child: ChildProcess): Promise<string | undefined> {
  return new Promise((resolve) => {
    child.on("error", (error: NodeJS.ErrnoException) =>
      resolve(`it could not be started (${error.code ?? "unknown"})`),
    );
    child.on("close", (code, signal) => resolve(code === 0 ? undefined : `it ended with ${code ?? signal}`));
  });
}
