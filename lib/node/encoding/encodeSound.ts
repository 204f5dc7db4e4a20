import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { failure, problemsOf, success } from "../../base/index.js";
import { encodeWav, type Label, type StereoSound } from "../../formats/sound/index.js";
import { integratedLoudness, truePeak } from "../../render/sound/index.js";
import { nodeCodes } from "../codes.js";
import type { Problem, Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { ENCODED, type EncodedFormat, type Encoding } from "./formats.js";
import { runFfmpeg } from "./runFfmpeg.js";
import { COVER_SIZE, tagText } from "./tagText.js";

const problem = problemsOf(nodeCodes);

/** Most times a file is encoded again because its peaks came out too high; our choice, one is enough as a rule. */
const TRIES = 4;
/** Lowered by this much more than the excess, dB; our choice: the encoder decides anew each time. */
const MORE = 0.1;

/** A compressed file, and what was measured in it when it was decoded again. */
export interface EncodedSound {
  readonly bytes: Uint8Array;
  /** LUFS; `undefined` for silence. */
  readonly loudness: number | undefined;
  /** dBTP; `undefined` for silence. */
  readonly peak: number | undefined;
}

/**
 * Encodes a sound by ffmpeg, with its tags and its cover (SVG; drawn by ffmpeg). Encoders change the shape of waves and raise peaks: the file is
 * decoded again, and encoded softer until its true peak is at most `peak`. Problems: SOUND_ENCODING_FAILED, SOUND_COVER_NOT_DRAWN (advice).
 */
export async function encodeSound(
  sound: StereoSound,
  { as, label, peak, cover }: { as: Encoding; label: Label; peak: number; cover: string | undefined },
): Promise<Result<EncodedSound>> {
  const folder = await mkdtemp(join(tmpdir(), "leeway-encoding-"));
  try {
    const picture = cover === undefined ? undefined : await drawn(cover, folder);
    await writeFile(join(folder, "tags"), tagText(as, label, picture));
    let gain = 1;
    for (let i = 0; ; i++) {
      const louder = sound.channels.map((channel) => channel.map((value) => value * gain));
      const wav = encodeWav({ rate: sound.rate, channels: [louder[0]!, louder[1]!] }, { samples: "float" });
      const made = await encodedOnce(wav, { as, folder, hasPicture: picture !== undefined });
      if (!made.ok) return made;
      const level = await levelOf(made.value, sound.rate);
      const excess = (level.peak ?? Number.NEGATIVE_INFINITY) - peak;
      if (excess <= 0 || i === TRIES)
        return success(
          { bytes: made.value, ...level },
          cover !== undefined && !picture ? [coverNotDrawn("gave-up")] : [],
        );
      gain *= 10 ** (-(excess + MORE) / 20);
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Files that could have had a picture have none: the program was built without what draws it, or gave up. */
export function coverNotDrawn(why: "built" | "gave-up"): Problem {
  const message = sayProblem("node-problem.sound-cover-not-drawn", { why });
  return problem("SOUND_COVER_NOT_DRAWN", message, {}, sayProblem("node-problem.sound-cover-not-drawn-remedy"));
}

/** The cover as a PNG file of one size, the picture in its middle on white; `undefined` when it could not be drawn. */
async function drawn(svg: string, folder: string): Promise<Uint8Array | undefined> {
  const size = `${COVER_SIZE}:${COVER_SIZE}`;
  const frame = `scale=${size}:force_original_aspect_ratio=decrease,pad=${size}:(ow-iw)/2:(oh-ih)/2:white,format=rgb24`;
  await writeFile(join(folder, "cover.svg"), svg);
  const words = ["-f", "svg_pipe", "-keep_ar", "1", "-width", String(COVER_SIZE), "-height", String(COVER_SIZE)];
  const ends = ["-frames:v", "1", "-f", "image2pipe", "-c:v", "png", "pipe:1"];
  const made = await runFfmpeg([...words, "-i", join(folder, "cover.svg"), "-vf", frame, ...ends]);
  if (!made.ok || made.output.length === 0) return undefined;
  await writeFile(join(folder, "cover.png"), made.output);
  return made.output;
}

async function encodedOnce(
  wav: Uint8Array,
  { as, folder, hasPicture }: { as: Encoding; folder: string; hasPicture: boolean },
): Promise<Result<Uint8Array>> {
  const { encoder, muxer, quality, picture, file }: EncodedFormat = ENCODED[as];
  const target = join(folder, "sound");
  const isStream = hasPicture && picture === "stream";
  const inputs = ["-f", "wav", "-i", "pipe:0", "-f", "ffmetadata", "-i", join(folder, "tags")];
  const covers = isStream ? ["-f", "png_pipe", "-i", join(folder, "cover.png")] : [];
  const streams = isStream ? ["-map", "2:v:0", "-c:v", "copy", "-disposition:v:0", "attached_pic"] : [];
  // Without the date, a random number and the versions of the encoder: the same sound makes the same bytes.
  const bits = ["-fflags", "+bitexact", "-flags:a", "+bitexact"];
  const made = await runFfmpeg(
    [
      ...inputs,
      ...covers,
      "-map",
      "0:a:0",
      ...streams,
      "-map_metadata",
      "1",
      "-c:a",
      encoder,
      ...quality,
      ...bits,
      ...file,
      "-f",
      muxer,
      target,
    ],
    { input: wav },
  );
  if (made.ok) return success(await readFile(target));
  const message = sayProblem("node-problem.sound-encoding-failed", { format: as, error: made.told });
  return failure(
    problem("SOUND_ENCODING_FAILED", message, {}, sayProblem("node-problem.sound-encoding-failed-remedy")),
  );
}

/** Loudness and true peak of a file as it sounds, at its own rate. */
async function levelOf(bytes: Uint8Array, rate: number): Promise<Pick<EncodedSound, "loudness" | "peak">> {
  const words = ["-i", "pipe:0", "-map", "0:a:0", "-ac", "2", "-ar", String(rate), "-f", "f32le", "pipe:1"];
  // MP4 has to be searched from its end unless its index stands first, as it does here.
  const { output } = await runFfmpeg(words, { input: bytes });
  const samples = new Float32Array(output.slice().buffer, 0, Math.floor(output.length / 4));
  const channels = [0, 1].map((c) => Float32Array.from({ length: samples.length >> 1 }, (_, i) => samples[2 * i + c]!));
  const highest = truePeak(channels);
  return {
    loudness: integratedLoudness(channels, rate),
    peak: highest === 0 ? undefined : 20 * Math.log10(highest),
  };
}
