import { pitchBend, type TimedMessage } from "../../formats/midi/index.js";
import type { KeyedNote } from "./keyedNotes.js";

/** Bends: how far at most, of 8192 for two semitones; over which share of a note, and in how many steps. Our choice. */
const SCOOP = { bend: -8192, share: 1 / 4 };
const FALL = { bend: -8192, share: 1 / 2 };
const STEPS = 8;

/** Pitch bends of the notes that slide up to their pitch or fall off it. A bend is the channel's, so notes that sound together slide together. */
export function bendsOf(channel: number, notes: readonly KeyedNote[]): readonly TimedMessage[] {
  const all = new Map<number, number>();
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  for (const { ticks, endTicks, scoop, fall } of notes) {
    const length = endTicks - ticks;
    if (scoop)
      for (const step of steps)
        all.set(ticks + Math.round(length * SCOOP.share * step), Math.round(SCOOP.bend * (1 - step)) + 0);
    if (!fall) continue;
    for (const step of steps.slice(0, -1))
      all.set(endTicks - Math.round(length * FALL.share * (1 - step)), Math.round(FALL.bend * step * step) + 0);
    all.set(endTicks, 0);
  }
  return [...all].map(([ticks, bend]) => ({ ticks, bytes: pitchBend(channel, bend) }));
}
