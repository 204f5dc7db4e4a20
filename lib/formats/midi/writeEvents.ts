import { endOfTrack } from "./metaEvents.js";
import { variableLength } from "./variableLength.js";

/** An event of a track as it is written: its bytes, and when. */
export interface TimedMessage {
  /** Whole number from 0. */
  readonly ticks: number;
  readonly bytes: readonly number[];
}

/** A track as it is written. */
export interface TrackMessages {
  /** In any order; messages at the same tick keep theirs. */
  readonly messages: readonly TimedMessage[];
  /** Where the track ends; its last message at the earliest. */
  readonly endTicks: number;
}

/** The events of a track as bytes, each with the ticks since the one before; the end-of-track event last. No running status. */
export function writeEvents({ messages, endTicks }: TrackMessages): readonly number[] {
  const written: number[] = [];
  let now = 0;
  const write = (ticks: number, bytes: readonly number[]): void => {
    written.push(...variableLength(ticks - now), ...bytes);
    now = ticks;
  };
  // Sorting is stable, so messages at one tick stay in order.
  for (const { ticks, bytes } of [...messages].sort((a, b) => a.ticks - b.ticks)) write(ticks, bytes);
  write(Math.max(now, endTicks), endOfTrack());
  return written;
}
