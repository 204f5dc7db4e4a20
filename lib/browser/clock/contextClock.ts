import type { OutputLatency, SoundClock } from "./model.js";

/** Readings whose median is taken: browsers' own readings bounce about by milliseconds; our choice, a second and a half of ticks. */
const READINGS = 31;
/** Latencies above this are not believed, seconds; our choice: wireless ear-pieces stay below half of it. */
const MOST = 1;

/** A sound clock that is told to look at its context now and then. */
export interface ContextClock extends SoundClock {
  /** Takes another reading. */
  read(): void;
}

/** The used part of an audio context. */
export interface ClockedContext {
  readonly currentTime: number;
  readonly state: string;
  readonly outputLatency?: number;
  readonly getOutputTimestamp?: () => { readonly contextTime?: number; readonly performanceTime?: number };
}

/**
 * The clock of what is heard from a context. The offset between the context's seconds and moments is the median of the last readings of
 * `getOutputTimestamp`, or, in a browser without it, of `currentTime` less the output latency. `now` gives moments, as `performance.now`.
 */
export function contextClock(context: ClockedContext, now: () => number = () => performance.now()): ContextClock {
  const readings: number[] = [];
  let offset: number | undefined;
  const fromTime = (): number => context.currentTime - (believed(context.outputLatency) ?? 0) - now() / 1000;
  const read = (): void => {
    if (context.state !== "running" || context.currentTime === 0) return;
    const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
    readings.push(contextTime > 0 && performanceTime > 0 ? contextTime - performanceTime / 1000 : fromTime());
    if (readings.length > READINGS) readings.shift();
    offset = [...readings].sort((a, b) => a - b)[readings.length >> 1]!;
  };
  const between = (): number => {
    if (offset === undefined) read();
    return offset ?? fromTime();
  };
  return {
    read,
    heardAt: (moment = now()) => Math.min(context.currentTime, moment / 1000 + between()),
    momentOf: (seconds) => 1000 * (seconds - between()),
    get outputLatency(): OutputLatency {
      const seconds = believed(context.outputLatency);
      return seconds === undefined ? { known: false } : { known: true, seconds };
    },
  };
}

function believed(latency: number | undefined): number | undefined {
  return latency !== undefined && latency > 0 && latency <= MOST ? latency : undefined;
}
