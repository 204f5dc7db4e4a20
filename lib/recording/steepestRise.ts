import type { RecordedSound } from "./model.js";

/** Seconds after a stroke begins within which its attack rises most; our choice, of drums. */
const WITHIN = 0.012;
/** Seconds of sound of which the energy is compared with that before it. */
const PIECE = 0.001;

/** Where the attack of a stroke that begins at `stroke` seconds rises most, seconds: from one millisecond of energy to the next. */
export function steepestRise({ rate, channels }: RecordedSound, stroke: number): number {
  const piece = Math.round(PIECE * rate);
  const energy = (from: number): number => {
    let sum = 0;
    for (const samples of channels) for (let i = from; i < from + piece; i++) sum += (samples[i] ?? 0) ** 2;
    return sum;
  };
  const begin = Math.round(stroke * rate);
  let [best, most] = [begin, 0];
  for (let at = begin; at < begin + WITHIN * rate; at += Math.ceil(piece / 8)) {
    const rise = energy(at) - energy(at - piece);
    if (rise > most) [best, most] = [at, rise];
  }
  return best / rate;
}
