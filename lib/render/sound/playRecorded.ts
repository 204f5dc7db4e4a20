import { type LaidStretch, layRecording, type ReadyRecording, readyFor } from "../../recording/index.js";
import type { RecordedStretch, Score } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import { soundProblem } from "./codes.js";
import { integratedLoudness } from "./level/loudness.js";
import { sayProblem } from "./say.js";
import type { Timeline } from "./timeline.js";
import type { Bus } from "./voices/playBuiltIn.js";

/** Loudness to which each recording is brought before the parts are mixed, LUFS: between the drums (-25.7 to -23.8) and the basses (-23.6 to -22.1) of the shipped courses by the built-in voices, measured. */
const AS_LOUD_AS_BUILT_IN = -24;

/** RECORDED_PART_NOT_GIVEN for each file that a score plays and that was not given. */
export function recordingsMissing({ parts }: Score, ready: readonly ReadyRecording[]): readonly Problem[] {
  const missing = new Map(
    parts.flatMap(({ name, recorded = [] }) =>
      recorded.filter((stretch) => readyFor(stretch, ready) === undefined).map(({ file }) => [file, name] as const),
    ),
  );
  return [...missing].map(([file, part]) => {
    const message = sayProblem("sound-problem.recorded-part-not-given", { file, part });
    const remedy = sayProblem("sound-problem.recorded-part-not-given-remedy");
    return soundProblem("RECORDED_PART_NOT_GIVEN", message, {}, remedy);
  });
}

/** Adds the recordings of every part to a mix; all must have been given. `round` is the length of what is played round and round, in samples. */
export function playRecorded(
  bus: Bus,
  { parts }: Pick<Score, "parts">,
  {
    line: { rate, downbeat },
    ready,
    round,
  }: { line: Timeline; ready: readonly ReadyRecording[]; round: number | undefined },
): void {
  for (const { recorded = [] } of parts)
    layRecording(bus, laidStretches(recorded, ready, rate), { rate, origin: downbeat, round });
}

/** The stretches of a part in samples; the recording of each must have been given. */
export function laidStretches(
  recorded: readonly RecordedStretch[],
  ready: readonly ReadyRecording[],
  rate: number,
): readonly LaidStretch[] {
  return recorded.map((stretch) => {
    const recording = readyFor(stretch, ready)!;
    return {
      from: Math.round(stretch.from * rate),
      to: Math.round(stretch.to * rate),
      start: Math.round(((stretch.start - recording.from) / stretch.speed) * rate),
      recording,
      gain: gainOf(recording),
    };
  });
}

/** The gains found, as every phrase and every mix plays the same recordings. */
const gains = new WeakMap<ReadyRecording, number>();

/** The gain that makes a recording as loud as the built-in parts; 1 for silence. */
function gainOf(recording: ReadyRecording): number {
  const known = gains.get(recording);
  if (known !== undefined) return known;
  const loudness = integratedLoudness(recording.channels, recording.rate);
  const gain = loudness === undefined ? 1 : 10 ** ((AS_LOUD_AS_BUILT_IN - loudness) / 20);
  gains.set(recording, gain);
  return gain;
}
