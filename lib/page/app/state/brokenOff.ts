import { keep, recall, storage } from "./students.js";

const PLACE = "leeway.playing";

/** Whether the window is being left: what ends a take then is that, and the next visit says so. */
let isLeaving = false;
globalThis.addEventListener?.("pagehide", () => {
  isLeaving = true;
});
globalThis.addEventListener?.("pageshow", () => {
  isLeaving = false;
});

/** Notes that a take is being played, or that none is any more. */
export function notePlaying(isPlaying: boolean): void {
  if (isPlaying || !isLeaving) keep(PLACE, isPlaying, storage("sessionStorage"));
}

/** Whether this window was left or loaded again in the middle of a take; says so once. */
export function brokenOff(): boolean {
  const was = recall<boolean>(PLACE, storage("sessionStorage")) === true;
  if (was) notePlaying(false);
  return was;
}
