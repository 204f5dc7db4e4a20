import { lineThrough } from "../lineThrough.js";

/** A grid that goes through times: place k lies at `start + k * step` seconds. */
export interface TimeGrid {
  readonly start: number;
  readonly step: number;
  /** How well the times agree with it, 0 to 1: length of the mean vector (Mardia and Jupp, Directional Statistics, 2000). */
  readonly agreement: number;
}

/** How far the tempo may be from the stated one, and in which steps it is looked for; our choices. */
const WIDEST = 0.06;
const STEP = 0.0005;
/** What agreement must be gained for a tempo that is one per cent off the stated one; our choice: few notes agree with many tempi. */
const PRICE = 0.02;
/** Fewest notes, and places from the first to the last, that tell a tempo; our choices. */
const [FEWEST, SHORTEST] = [4, 6];

/** The grid near a stated one that times lie on best: its tempo where they agree most, then the straight line through them by least squares. */
export function gridThrough(times: readonly number[], stated: number): TimeGrid {
  const [first, last] = [times[0] ?? 0, times.at(-1) ?? 0];
  const isTold = times.length >= FEWEST && (last - first) / stated >= SHORTEST;
  const steps = isTold ? Math.round(WIDEST / STEP) : 0;
  let best = { worth: Number.NEGATIVE_INFINITY, step: stated };
  for (let i = -steps; i <= steps; i++) {
    const step = stated / (1 + i * STEP);
    const worth = phaseOf(times, step).agreement - PRICE * 100 * Math.abs(i * STEP);
    if (worth > best.worth) best = { worth, step };
  }
  const { phase, agreement } = phaseOf(times, best.step);
  const places = times.map((at) => Math.round(at / best.step - phase));
  if (!isTold) return { start: phase * best.step, step: best.step, agreement };
  const { start, slope } = lineThrough(places, times);
  return { start, step: slope, agreement };
}

/** The place on a grid that times share, as a part of its step, and how well they share it. */
function phaseOf(times: readonly number[], step: number): { readonly phase: number; readonly agreement: number } {
  let [cos, sin] = [0, 0];
  for (const at of times) {
    cos += Math.cos((2 * Math.PI * at) / step);
    sin += Math.sin((2 * Math.PI * at) / step);
  }
  return { phase: Math.atan2(sin, cos) / (2 * Math.PI), agreement: Math.hypot(cos, sin) / Math.max(1, times.length) };
}
