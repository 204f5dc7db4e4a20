import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

interface Probed {
  readonly streams: readonly Record<string, string | number>[];
  readonly chapters: readonly {
    readonly start_time: string;
    readonly end_time: string;
    readonly tags: { title: string };
  }[];
  readonly format: { readonly duration: string; readonly tags: Record<string, string> };
}

/** A film as ffprobe and ffmpeg read it: what is said in it, each frame's brightness, and its sound. */
export function readFilm(bytes: Uint8Array, as: string) {
  const folder = mkdtempSync(join(tmpdir(), "leeway-read-film-"));
  const path = join(folder, `film.${as}`);
  writeFileSync(path, bytes);
  const run = (program: string, words: readonly string[]): Buffer =>
    spawnSync(program, ["-v", "error", ...words], { maxBuffer: 1e9 }).stdout;
  const probed: Probed = JSON.parse(
    run("ffprobe", ["-show_streams", "-show_format", "-show_chapters", "-of", "json", path]).toString(),
  );
  const { width, height } = probed.streams.find(({ codec_type }) => codec_type === "video") as {
    width: number;
    height: number;
  };
  const raw = run("ffmpeg", [
    "-i",
    path,
    "-map",
    "0:v",
    "-vsync",
    "passthrough",
    "-f",
    "rawvideo",
    "-pix_fmt",
    "yuv420p",
    "-",
  ]);
  const size = (width * height * 3) / 2;
  const frames = Array.from({ length: raw.length / size }, (_, i) => raw.subarray(i * size, (i + 1) * size));
  // By the times that the file gives, from the beginning of the film on.
  const timed = ["-af", "aresample=async=1:first_pts=0"];
  const pcm = run("ffmpeg", ["-i", path, "-map", "0:a", ...timed, "-ac", "1", "-ar", "48000", "-f", "f32le", "-"]);
  rmSync(folder, { recursive: true });
  return { probed, width, height, frames, heard: new Float32Array(new Uint8Array(pcm).buffer) };
}

export type FilmRead = ReturnType<typeof readFilm>;

/** Where the mark stands in a frame: the middle of what is darker than the paper in the rows of its triangle, over the system. */
export function markIn(
  { width }: FilmRead,
  frame: Uint8Array,
  { top, tip }: { readonly top: number; readonly tip: number },
): number {
  let [sum, all] = [0, 0];
  for (let y = Math.ceil(top); y < Math.floor(tip); y++)
    for (let x = 0; x < width; x++) {
      const dark = Math.max(0, 225 - frame[y * width + x]!);
      sum += dark * (x + 0.5);
      all += dark;
    }
  return all === 0 ? Number.NaN : sum / all;
}

/** The lag at which the film's sound and the rendered one agree best about a place, samples, within 10 ms; by brute force. */
export function lagAt(heard: Float32Array, rendered: Float32Array, from: number): number {
  let [best, most] = [0, Number.NEGATIVE_INFINITY];
  for (let lag = -480; lag <= 480; lag++) {
    let sum = 0;
    for (let i = from; i < from + 4800; i++) sum += rendered[i]! * (heard[i + lag] ?? 0);
    if (sum > most) [best, most] = [lag, sum];
  }
  return best;
}
