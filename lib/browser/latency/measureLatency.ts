import { failure, type Result } from "../../base/index.js";
import { CALIBRATION_CLICKS, calibrationSound, type Latency, latencyFrom, listenFor } from "../../listen/index.js";
import { browserProblem } from "../codes.js";
import type { Input, Microphone } from "../input/model.js";
import type { ScorePlayer } from "../player/model.js";
import { say } from "../say.js";
import type { LatencyMeasured, LatencyOptions } from "./model.js";

/** Fewest clicks: those that a latency needs, and some that were missed. */
const FEWEST = 16;
/** Seconds from the call to the start of the clicks' sound, and after the last click until it has come back: our choices. */
const SOON = 0.2;
const RETURNS = 0.7;
/** Milliseconds between two looks. */
const LOOKS = 100;

/**
 * The round trip of a device, from its output to its input: clicks are played, and the microphone hears them. Show the cautions before; headphones
 * belong on the table, by the microphone, and off the ears. It takes half a minute, or less with fewer clicks.
 *
 * Problems: LATENCY_UNCLEAR, LATENCY_STOPPED, SOUND_NOT_ALLOWED. Throws `RangeError` for fewer than 16 clicks or more than there are.
 *
 * @example
 * const measured = await measureLoop(player, microphone, { clicks: 24 });
 */
export function measureLoop(
  player: Pick<ScorePlayer, "context" | "clock">,
  microphone: Microphone,
  options: LatencyOptions = {},
): LatencyMeasured {
  return withClicks(player, options, "loop", (start, heard) => {
    const listener = listenFor({ family: "percussive" });
    let from: number | undefined;
    const leave = microphone.onBlock(({ frame, rate, samples }) => {
      if (frame / rate < start) return;
      from ??= frame / rate - start;
      for (const { at } of listener.push({ rate, channels: [samples] })) heard(at + from);
    });
    return () => {
      leave();
      return listener.finish().onsets.map(({ at }) => at + (from ?? 0));
    };
  });
}

/**
 * How late taps or MIDI arrive, by somebody who taps along with clicks. What people themselves are early or late cannot be told from it, and is in its
 * standard error. Problems and throws as `measureLoop`.
 *
 * @example
 * const measured = await measureTapping(player, taps);
 */
export function measureTapping(
  player: Pick<ScorePlayer, "context" | "clock">,
  input: Input,
  options: LatencyOptions = {},
): LatencyMeasured {
  return withClicks(player, options, "clap", (start, heard) => {
    const onsets: number[] = [];
    const leave = input.onNote(({ at }) => {
      onsets.push(at - start);
      heard(at - start);
    });
    return () => {
      leave();
      return onsets;
    };
  });
}

/** Plays the clicks while something listens: `begin` is told the second of the context at which their sound starts, and gives what ends it. */
async function withClicks(
  { context, clock }: Pick<ScorePlayer, "context" | "clock">,
  { clicks = CALIBRATION_CLICKS.count, onProgress, signal }: LatencyOptions,
  way: "loop" | "clap",
  begin: (start: number, heard: (at: number) => void) => () => readonly number[],
): Promise<Result<Latency>> {
  if (!(Number.isInteger(clicks) && clicks >= FEWEST && clicks <= CALIBRATION_CLICKS.count))
    throw new RangeError(`clicks are ${FEWEST} to ${CALIBRATION_CLICKS.count}, got ${clicks}`);
  const stopped = failure(browserProblem("LATENCY_STOPPED", say("browser.problem.latency-stopped")));
  const isStopped = (): boolean => signal?.aborted === true;
  if (isStopped()) return stopped;
  await context.resume();
  const source = context.createBufferSource();
  source.buffer = await context.decodeAudioData(Uint8Array.from(calibrationSound()).buffer);
  source.connect(context.destination);
  const start = context.currentTime + SOON;
  const { first, apart } = CALIBRATION_CLICKS;
  const last = start + first + (clicks - 1) * apart;
  const delays: number[] = [];
  const finish = begin(start, (at) => {
    const delay = (at - first) % apart;
    delays.push(delay > apart / 2 ? delay - apart : delay);
  });
  source.start(start);
  source.stop(last + apart / 2);
  await new Promise<void>((resolve) => {
    let told = -1;
    const timer = setInterval(() => {
      const now = clock.heardAt();
      const done = Math.max(0, Math.min(clicks, Math.floor((now - start - first) / apart) + 1));
      if (done !== told) onProgress?.({ clicks: done, of: clicks, delays: [...delays] });
      told = done;
      if (!isStopped() && now < last + RETURNS) return;
      clearInterval(timer);
      resolve();
    }, LOOKS);
  });
  const onsets = finish();
  source.stop();
  source.disconnect();
  return isStopped() ? stopped : latencyFrom([onsets], { way });
}
