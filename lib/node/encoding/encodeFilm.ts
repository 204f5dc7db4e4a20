import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { failure, problemsOf, success } from "../../base/index.js";
import type { Label } from "../../formats/sound/index.js";
import {
  type FilmChapter,
  type FilmDrawing,
  FRAME_RATE,
  frameAt,
  framesOver,
  isDemonstration,
  paintMark,
} from "../../render/film/index.js";
import type { Sound } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";
import { nodeCodes } from "../codes.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { encodeSound } from "./encodeSound.js";
import { DRAWER, lackingHere } from "./ffmpegHere.js";
import { ENCODED, type Encoding } from "./formats.js";
import { HEAD_START, withoutHeadStart } from "./opusHeadStart.js";
import { type FfmpegRun, runFfmpeg } from "./runFfmpeg.js";
import { chapterText, tagText } from "./tagText.js";

const problem = problemsOf(nodeCodes);

/** A kind of film that the program `ffmpeg` writes. */
export type FilmFormat = "mp4" | "webm";

/**
 * How each kind is encoded. The qualities are our choice: music in print shows no fringes at them, two cores encode faster than the film runs, and frames
 * that are the same come out the same, pixel for pixel: a viewer sees no flicker in a silence.
 */
const FILMS: Readonly<
  Record<
    FilmFormat,
    { readonly encoder: string; readonly sound: Encoding; readonly quality: string; readonly file: string }
  >
> = {
  mp4: {
    encoder: "libx264",
    sound: "m4a",
    // One quality for all frames and a better one (ipratio) for those that stand for themselves, so that the frames after them have nothing to add.
    quality: "-preset superfast -qp 20 -bf 0 -x264-params no-deblock=1:no-psy=1:ipratio=2:subme=0",
    // The index stands first, so that a browser plays before it has all.
    file: "-f mp4 -movflags +faststart",
  },
  webm: {
    encoder: "libvpx-vp9",
    sound: "opus",
    // Lossless: with any loss this encoder goes on to better a picture that stands.
    quality: "-lossless 1 -deadline realtime -cpu-used 8 -row-mt 1 -lag-in-frames 0 -auto-alt-ref 0",
    file: "-f webm",
  },
};
/** Most frames between two that stand for themselves, at which a player can begin: five seconds, our choice. */
const MOST_BETWEEN = 5 * FRAME_RATE;
/** A run of ffmpeg may take so many times the length of the film, and a minute; our choice: it is stopped when it hangs. */
const PATIENCE = 30;

/** What a film is made of. */
export interface FilmParts {
  readonly score: Score;
  readonly drawing: FilmDrawing;
  /** The score as `renderSound` renders it, at 48 kHz. */
  readonly sound: Sound;
  readonly label: Label;
  readonly chapters: readonly FilmChapter[];
  /** dBTP. */
  readonly peak: number;
}

/**
 * Whether this machine writes films of a kind. Problem: FILM_ENCODER_MISSING without ffmpeg, or where it lacks an encoder or what draws.
 *
 * @example
 * const here = await filmsHere("webm");
 * if (!here.ok) console.log(here.problems[0].remedy);
 */
export async function filmsHere(as: FilmFormat): Promise<Result<void>> {
  const { encoder, sound } = FILMS[as];
  const lacks = await lackingHere([encoder, ENCODED[sound].encoder, DRAWER]);
  if (lacks?.length === 0) return success(undefined);
  const has = lacks === undefined ? ("nothing" as const) : ("program" as const);
  const asked = { format: as, has, lacks: lacks?.join(", ") ?? "" };
  const message = sayProblem("node-problem.film-encoder-missing", asked);
  const remedy = sayProblem("node-problem.film-encoder-missing-remedy", asked);
  return failure(problem("FILM_ENCODER_MISSING", message, {}, remedy));
}

/**
 * Encodes a film: a picture of each phrase, drawn once by ffmpeg, with the mark painted into it frame by frame, 30 a second, and the sound. The picture of a
 * phrase is drawn when it comes. Frames that show the same are the same pixels. `signal` stops it, which is a failure too. Problems: FILM_ENCODING_FAILED, SOUND_ENCODING_FAILED.
 *
 * @example
 * const film = await encodeFilm("mp4", { score, drawing, sound, label, chapters, peak: -1 });
 * if (film.ok) await writeFile("half-bar.mp4", film.value);
 */
export async function encodeFilm(as: FilmFormat, parts: FilmParts, signal?: AbortSignal): Promise<Result<Uint8Array>> {
  const { encoder, sound: soundAs, quality, file } = FILMS[as];
  const { score, drawing, sound, label, chapters } = parts;
  const heard = await encodedFor(soundAs, parts);
  if (!heard.ok) return heard;
  const seconds = 60 + (PATIENCE * framesOver(sound)) / FRAME_RATE;
  let undrawn: string | undefined;
  const gaveUp = (told: string): void => {
    undrawn = told;
  };
  const folder = await mkdtemp(join(tmpdir(), "leeway-film-"));
  try {
    const [target, tags, heardIn] = ["film", "tags", "sound"].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    await writeFile(heardIn, heard.value);
    await writeFile(tags, tagText(soundAs, label, undefined) + chapterText(chapters));
    const { width, height } = drawing.size;
    const seen = `-f rawvideo -pix_fmt yuv420p -s ${width}x${height} -r ${FRAME_RATE} -i pipe:0`.split(" ");
    const streams = `-map 0:v -map 1:a -map_metadata 2 -map_chapters 2 -c:a copy -c:v ${encoder} ${quality}`.split(" ");
    const colours = "-colorspace bt709 -color_primaries bt709 -color_trc bt709 -color_range tv".split(" ");
    // A frame that stands for itself where a silence begins and where it ends: what does not move is then the same picture throughout.
    const edges = silenceEdges(score, sound).map((frame) => (frame / FRAME_RATE).toFixed(6));
    const keys = edges.length === 0 ? [] : ["-force_key_frames", edges.join(",")];
    const bits = "-fflags +bitexact -flags:v +bitexact".split(" ");
    const made = await runFfmpeg(
      [
        ...seen,
        ...["-i", heardIn, "-f", "ffmetadata", "-i", tags],
        ...streams,
        ...colours,
        ...["-g", String(MOST_BETWEEN), ...keys, ...bits, ...file.split(" "), target],
      ],
      { input: frames(parts, { folder, gaveUp }), seconds, signal },
    );
    if (undrawn !== undefined || !made.ok) return failed(as, undrawn ?? made.told);
    return success(await readFile(target), heard.advice);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The sound of a film, which is heard to the sample when its picture says: it begins with silence, of which Opus goes without the first 6.5 ms. */
async function encodedFor(as: Encoding, { sound, label, peak }: FilmParts): Promise<Result<Uint8Array>> {
  const [left, right] = sound.channels;
  const isOpus = as === "opus";
  const from = isOpus ? HEAD_START : 0;
  const encoded = await encodeSound(
    { rate: sound.rate, channels: [left.subarray(from), right.subarray(from)] },
    { as, label, peak, cover: undefined },
  );
  if (!encoded.ok) return encoded;
  const { bytes } = encoded.value;
  return success(isOpus ? withoutHeadStart(bytes) : bytes, encoded.advice);
}

function silenceEdges({ dropouts }: Score, { downbeat, rate }: Sound): readonly number[] {
  const edges = dropouts.flatMap(({ from, to }) => [from, to]);
  return [...new Set(edges.map((at) => Math.ceil((at + downbeat / rate) * FRAME_RATE - 1e-4)))].filter((at) => at > 0);
}

/**
 * The pixels of each frame of a film, in order; the same bytes are given again as long as nothing moves, and are written over when it does. Ends early, and
 * says why, when a picture cannot be drawn.
 */
async function* frames(
  parts: FilmParts,
  { folder, gaveUp }: { readonly folder: string; readonly gaveUp: (told: string) => void },
): AsyncGenerator<Uint8Array> {
  const { score, sound, drawing } = parts;
  const of = { lead: sound.downbeat / sound.rate, demonstrates: isDemonstration(score) };
  const planes = new Uint8Array(bytesOf(drawing));
  let picture: { readonly phrase: number; readonly planes: Uint8Array } | undefined;
  let last = "";
  for (let i = 0; i < framesOver(sound); i++) {
    const shown = frameAt(score, i, of);
    if (picture?.phrase !== shown.phrase) {
      const drawn = await drawnPhrase(drawing, shown.phrase, folder);
      if (!drawn.ok) return gaveUp(drawn.told);
      picture = { phrase: shown.phrase, planes: drawn.output };
    }
    const mark = drawing.mark(shown);
    const now = `${shown.phrase} ${mark?.waits} ${mark?.x.toFixed(2)} ${mark?.top}`;
    if (now !== last) {
      planes.set(picture.planes);
      if (mark !== undefined) paintMark({ ...drawing.size, planes }, mark, drawing.ink);
      last = now;
    }
    yield planes;
  }
}

/** The picture of a phrase as pixels. */
async function drawnPhrase(drawing: FilmDrawing, phrase: number, folder: string): Promise<FfmpegRun> {
  const { width, height } = drawing.size;
  // ffmpeg reads a drawing from a file only.
  const file = join(folder, "phrase.svg");
  await writeFile(file, drawing.phrase(phrase));
  const size = `-f svg_pipe -width ${width} -height ${height} -i`;
  const pixels = "-frames:v 1 -vf scale=out_color_matrix=bt709:out_range=tv,format=yuv420p -f rawvideo pipe:1";
  const drawn = await runFfmpeg([...size.split(" "), file, ...pixels.split(" ")]);
  return { ...drawn, ok: drawn.output.length === bytesOf(drawing) };
}

/** Bytes of a frame: one for the brightness of each pixel, two for the colour of each four. */
function bytesOf({ size: { width, height } }: FilmDrawing): number {
  return (width * height * 3) / 2;
}

function failed(as: FilmFormat, told: string): Result<never> {
  const message = sayProblem("node-problem.film-encoding-failed", { format: as, error: told });
  return failure(problem("FILM_ENCODING_FAILED", message, {}, sayProblem("node-problem.film-encoding-failed-remedy")));
}
