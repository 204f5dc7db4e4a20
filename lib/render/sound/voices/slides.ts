/** A slide of pitch into a note or off it: how many semitones below, over how long at most (seconds), and over which share of the note at most. Our choice, as a player bends a note that is in time. */
const SCOOP = { semitones: 2, seconds: 0.11, share: 1 / 3 };
const FALL = { semitones: 7, seconds: 0.3, share: 1 / 2 };
/** Gain at the end of a fall; our choice, a note that falls off is let go. */
const LEFT = 0.25;

/** Where a note of `held` samples slides. */
export interface Slides {
  readonly scoop: boolean;
  readonly fall: boolean;
  readonly held: number;
}

/** Bends a tone in place: it is read more slowly where it is lower, so that its beginning stays where it is. */
export function slide(sound: Float32Array, { scoop, fall, held }: Slides, rate: number): void {
  if (!scoop && !fall) return;
  const still = sound.slice();
  const into = Math.min(SCOOP.seconds * rate, held * SCOOP.share);
  const off = Math.min(FALL.seconds * rate, held * FALL.share);
  let at = 0;
  for (let i = 0; i < sound.length; i++) {
    const below = scoop && i < into ? SCOOP.semitones * (1 - i / into) : 0;
    const fallen = fall ? Math.max(0, Math.min(1, (i - (held - off)) / off)) : 0;
    sound[i] = readBetween(still, at) * (1 - (1 - LEFT) * fallen);
    at += 2 ** (-(below + FALL.semitones * fallen ** 2) / 12);
  }
}

/** The value of a sound between its samples: a cubic through the two on either side (Catmull and Rom 1974). */
export function readBetween(sound: Float32Array, at: number): number {
  const k = Math.floor(at);
  const [a, b, c, d] = [sound[k - 1] ?? 0, sound[k] ?? 0, sound[k + 1] ?? 0, sound[k + 2] ?? 0];
  const x = at - k;
  return b + 0.5 * x * (c - a + x * (2 * a - 5 * b + 4 * c - d + x * (3 * (b - c) + d - a)));
}
