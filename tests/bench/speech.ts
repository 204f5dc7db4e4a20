/** Speech of which every word is ours: shuffled words about a harbour, said by Debian's espeak-ng in several languages, speeds and heights. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { random } from "../../lib/base/index.js";

const WORDS =
  "the quay was quiet in the morning and boats lay still while gulls argued about breakfast on the harbour wall and nobody asked when the rehearsal would begin because rope and valve oil and a loaf of bread had to be bought first".split(
    " ",
  );
const VOICES = ["en-gb", "en-us", "de", "fr", "es", "it", "pt", "nl"];

export const speechIsThere = spawnSync("espeak-ng", ["--version"]).error === undefined;

/** At least so many seconds of speech, peak 0.5, at the rate asked for (hertz). */
export function speech(seconds: number, rate: number, seed: string): Float32Array {
  const chance = random(`${seed}/speech`);
  const folder = mkdtempSync(join(tmpdir(), "leeway-speech-"));
  try {
    const file = join(folder, "said.wav");
    const voice = VOICES[chance.below(VOICES.length)]!;
    const [speed, height] = [100 + chance.below(100), 30 + chance.below(41)];
    // Not slower than three words a second: more than enough is said, and the rest is cut.
    const count = Math.ceil(6 * seconds);
    const sentences = Array.from({ length: count }, (_, i) => {
      const word = WORDS[chance.below(WORDS.length)]!;
      return i % 9 === 8 ? `${word}.` : word;
    });
    const said = spawnSync("espeak-ng", [
      "-v",
      voice,
      "-s",
      `${speed}`,
      "-p",
      `${height}`,
      "-w",
      file,
      sentences.join(" "),
    ]);
    if (said.status !== 0) throw new Error(`espeak-ng failed: ${said.stderr}`);
    const resampled = join(folder, "resampled.wav");
    const made = spawnSync("ffmpeg", ["-v", "error", "-i", file, "-ar", `${rate}`, "-f", "f32le", resampled]);
    if (made.status !== 0) throw new Error(`ffmpeg failed: ${made.stderr}`);
    const bytes = readFileSync(resampled);
    const samples = new Float32Array(new Uint8Array(bytes).buffer).slice(0, Math.ceil(seconds * rate));
    if (samples.length < Math.ceil(seconds * rate)) throw new Error("less was said than was asked for");
    const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 1e-9);
    return samples.map((sample) => (0.5 * sample) / peak);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
