import type { Score, Take } from "../schema/index.js";
import { readPlayed } from "./assess.js";
import { latencyStandardErrorOf, playedOnsets } from "./onsets.js";
import type { TrackedReading } from "./state/landings.js";
import type { Reading, ReadingOptions } from "./state/reading.js";
import { smoothOver } from "./state/smoother.js";

/** Where the player's time was at one instant of a take. */
export interface TracePoint {
  /** Seconds from the downbeat of bar 1. */
  readonly at: number;
  /** How late the player was, constant offset included: positive late, negative early. */
  readonly asynchronyMs: number;
  /** Standard deviation of what is believed of it. */
  readonly sdMs: number;
}

/**
 * The asynchrony along a take, smoothed over all of it, with its uncertainty: the model, pairing and noise of `assess`, the uncertainty of the
 * noise included.
 *
 * One point at every expected onset, beat that sounds, and start or end of a silence, in order of time. An empty list when the take is empty.
 * Where the player slipped for certain (came in a beat early and played on, say), what follows is told against the notes as written. Throws
 * `RangeError` when a time is not a finite number.
 */
export function traceTake(score: Score, take: Take): TracePoint[] {
  const played = playedOnsets(score, take);
  if (played.at.some((at) => !Number.isFinite(at)))
    throw new RangeError("an onset of the take is not at a finite number of seconds");
  if (played.at.length === 0) return [];
  const options: ReadingOptions = {
    floorMs: take.motorFloorMs ?? 0,
    latencyStandardErrorMs: latencyStandardErrorOf(take),
  };
  const { tracked, step } = readPlayed(score, played, options);
  const read = traceOf(tracked.reading);
  const trace =
    step === undefined
      ? read
      : read.map((point) =>
          1000 * point.at < step.from - step.ms - 1 ? point : { ...point, asynchronyMs: point.asynchronyMs + step.ms },
        );
  return tracked.places === undefined ? trace : withSlips(trace, tracked, tracked.places);
}

/** Mean and spread over the noise settings the take allows. */
function traceOf({ guide, asynchrony, fit, prior }: Reading): TracePoint[] {
  const passes = fit.points.map(({ noise, weight }) => ({ weight, ...smoothOver(guide, asynchrony, noise, prior) }));
  return Array.from(passes[0]!.at, (at, i) => {
    const mean = passes.reduce((sum, pass) => sum + pass.weight * pass.mean[i]!, 0);
    const variance = passes.reduce(
      (sum, pass) => sum + pass.weight * (pass.variance[i]! + (pass.mean[i]! - mean) ** 2),
      0,
    );
    return { at: at / 1000, asynchronyMs: mean, sdMs: Math.sqrt(variance) };
  });
}

/** The trace told in the score's own time: who is displaced early by a beat is at a place of the score a beat before it is due. */
function withSlips(
  trace: readonly TracePoint[],
  { reading: { guide, asynchrony }, displacements }: TrackedReading,
  places: Int32Array,
): TracePoint[] {
  const told: TracePoint[] = [];
  let place = 0;
  let shift = 0;
  for (const { at, asynchronyMs, sdMs } of trace) {
    for (; place < places.length && guide.expected[place]! <= 1000 * at + 1e-3; place++)
      if (!Number.isNaN(asynchrony[place]!)) shift = displacements.ms[places[place]!]!;
    const writtenAt = at - shift / 1000;
    // Who waits goes back over places already told.
    while (told.length > 0 && told.at(-1)!.at >= writtenAt) told.pop();
    told.push({ at: writtenAt, asynchronyMs: asynchronyMs + shift, sdMs });
  }
  return told;
}
