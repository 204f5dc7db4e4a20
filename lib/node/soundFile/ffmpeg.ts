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
  /** It could not be started, or ended with this code. */
  readonly failed: string | undefined;
  /** It stood still for too long and was stopped. */
  readonly isStuck: boolean;
}

/** Seconds without a byte after which a decoder is taken for stuck; our choice, decoding runs a hundred times faster than the sound. */
export const PATIENCE = 60;

/**
 * The first sound track of a file as a WAV file of 32-bit floating point, decoded by the program `ffmpeg` while it is read. `told` is called once it has
 * ended by itself or was taken for stuck: for `patience` seconds it gave no byte that was waited for, or did not end after its last. When nobody asks for
 * bytes any more it is stopped. It no longer runs when this returns.
 */
export async function* ffmpegWav(
  path: string,
  { format, patience }: { readonly format: SoundFormat; readonly patience: number },
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
  const watch = watchOver(child, patience);
  let failed: string | undefined;
  try {
    watch.start();
    for await (const piece of child.stdout as AsyncIterable<Uint8Array>) {
      // Who takes their time over a piece makes the decoder wait, not the other way round.
      watch.stop();
      yield piece;
      watch.start();
    }
    failed = await ended;
  } catch (error) {
    if (!watch.isStuck()) throw error;
  } finally {
    watch.stop();
    end(child);
    await ended;
  }
  told({ complained, failed, isStuck: watch.isStuck() });
}

/** Whether ffmpeg can be run here, within `patience` seconds. */
export async function probeFfmpeg(patience: number): Promise<"runs" | "missing" | "stuck"> {
  const child = spawn("ffmpeg", ["-version"], { stdio: "ignore" });
  const watch = watchOver(child, patience);
  watch.start();
  const failed = await endOf(child);
  watch.stop();
  if (watch.isStuck()) return "stuck";
  return failed === undefined ? "runs" : "missing";
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

/** Ends a program whose time between `start` and `stop` runs out. */
function watchOver(child: ChildProcess, patience: number) {
  let timer: NodeJS.Timeout | undefined;
  let last: NodeJS.Immediate | undefined;
  let isStuck = false;
  const giveUp = (): void => {
    isStuck = true;
    end(child);
  };
  return {
    start: () => {
      // After a time in which this process was busy timers come first: what has arrived meanwhile is looked at before the program is given up.
      timer = setTimeout(() => {
        last = setImmediate(giveUp);
      }, 1000 * patience);
    },
    stop: () => {
      clearTimeout(timer);
      clearImmediate(last);
    },
    isStuck: () => isStuck,
  };
}

/** Ends a program. Its pipes go too: they stay open as long as a program that it started holds them. */
function end(child: ChildProcess): void {
  child.kill("SIGKILL");
  child.stdout?.destroy();
  child.stderr?.destroy();
}
