import { spawnSync } from "node:child_process";
import type { SoundStream } from "../../lib/formats/sound/soundStream.js";
import { hearBeside, placeOf, surveyBoth } from "../../lib/listen/backing/index.js";
import type { InstrumentFamily } from "../../lib/listen/families.js";
import { findOnsets } from "../../lib/listen/onset/findOnsets.js";
import type { HeardOnsets } from "../../lib/listen/onset/heardOnset.js";

/** What was heard, and how long it took the processor. */
export interface Heard {
  readonly at: readonly number[];
  readonly noiseMs: number;
  readonly milliseconds: number;
}

/** Onsets by this library; with the backing taken out when it is told. */
export async function hearOurs(
  samples: Float32Array,
  { rate, family, backing }: { rate: number; family: InstrumentFamily; backing?: Float32Array },
): Promise<Heard> {
  const open = (what: Float32Array) => () => streamOf(what, rate);
  const before = process.cpuUsage();
  const heard = backing === undefined ? undefined : await withoutBacking(open(samples), open(backing), family);
  const found = heard ?? (await findOnsets(streamOf(samples, rate), { family }));
  const { user, system } = process.cpuUsage(before);
  return { at: found.onsets.map(({ at }) => at), noiseMs: found.noiseMs, milliseconds: (user + system) / 1000 };
}

async function withoutBacking(
  recording: () => SoundStream,
  backing: () => SoundStream,
  family: InstrumentFamily,
): Promise<HeardOnsets | undefined> {
  const sounds = await surveyBoth(recording, backing);
  const place = sounds && placeOf(sounds.recording, sounds.backing);
  return place?.found
    ? (await hearBeside(sounds!.recording.open, sounds!.backing.open, { place, family })).heard
    : undefined;
}

/** Samples as a recording that is read block by block. */
export async function* streamOf(samples: Float32Array, rate: number): SoundStream {
  for (let from = 0; from < samples.length; from += 16_384)
    yield { rate, channels: [samples.subarray(from, from + 16_384)] };
}

/** Onsets by the native detector, its reading of the file and its start included in the time. */
export function hearPeer(file: string, method: string): Omit<Heard, "noiseMs"> {
  const script = 'TIMEFORMAT="%U %S"; time aubioonset -r 0 -O "$0" -i "$1"';
  const { stdout, stderr } = spawnSync("bash", ["-c", script, method, file], { encoding: "utf8" });
  const [user, system] = (stderr.trim().split("\n").at(-1) ?? "").split(" ").map(Number);
  const at = stdout
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map(Number);
  return { at, milliseconds: 1000 * ((user ?? 0) + (system ?? 0)) };
}
