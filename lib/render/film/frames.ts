import type { StereoSound } from "../../formats/sound/index.js";
import type { Score } from "../../schema/index.js";
import { type Screen, screenAt } from "./screenAt.js";

/** Frames a second. */
export const FRAME_RATE = 30;

/** A frame's beginning lies this much inside it, seconds, so that a silence that begins with a frame is in it: a score states seconds to the nanosecond. */
const INSIDE = 1e-6;

/** How many frames the film of a sound has: it is shown to its end. */
export function framesOver({ channels: [left], rate }: StereoSound): number {
  return Math.ceil((left.length / rate) * FRAME_RATE - INSIDE);
}

/** What a frame of a film shows, counted from 0; bar 1 begins `lead` seconds into it. A demonstration goes on through silences. */
export function frameAt(
  score: Score,
  index: number,
  { lead, demonstrates }: { readonly lead: number; readonly demonstrates: boolean },
): Screen {
  return screenAt(score, index / FRAME_RATE - lead + INSIDE, demonstrates);
}

/** Whether a score is heard as a demonstration: the student's part sounds in it. */
export function isDemonstration({ parts }: Score): boolean {
  return parts.some(({ student, does }) => student && does !== "off");
}
