import type { Attack } from "../families.js";
import type { AttackTime } from "./attackTime.js";
import type { HeardOnset, HeardOnsets } from "./heardOnset.js";

/** A note below this share of the loudest amplitude (-46 dB) is not the player's. Our choice: below the dynamic range of a phone in a room. */
const FAINTEST = 1 / 200;
/** An onset within so many seconds of the end may be the click of a sound that is cut off: half a window of the flux. */
const CUT_OFF = 1024 / 44100;
const LOUDEST_VELOCITY = 127;

/** The onsets found so far, in order of time. */
export interface OnsetList {
  /** Adds the onset of an attack, unless it is too near to the one before; gives what was added. */
  readonly add: (rise: AttackTime, of: { strength: number; rate: number }) => readonly HeardOnset[];
  readonly finish: (seconds: number) => HeardOnsets;
}

interface Note extends HeardOnset {
  readonly amplitude: number;
}

export function onsetList(attack: Attack): OnsetList {
  const notes: Note[] = [];
  let loudest = 0;
  const heard = ({ amplitude, ...note }: Note): HeardOnset => ({ ...note, velocity: velocityOf(amplitude / loudest) });
  return {
    add: (rise, { strength, rate }) => {
      const at = rise.at / rate - attack.bias;
      if (at - (notes.at(-1)?.at ?? Number.NEGATIVE_INFINITY) < attack.apart) return [];
      const amplitude = Math.sqrt(rise.height);
      loudest = Math.max(loudest, amplitude);
      const note = { at, strength, noiseMs: noiseMsOf(strength, attack), velocity: 0, amplitude };
      notes.push(note);
      return [heard(note)];
    },
    finish: (seconds) => {
      const onsets = notes
        .filter(({ amplitude, at }) => amplitude >= FAINTEST * loudest && at <= seconds - CUT_OFF)
        .map(heard);
      const clamped = onsets.map((onset) => ({ ...onset, at: Math.max(0, onset.at) }));
      return { onsets: clamped, noiseMs: wholeNoiseMs(clamped), seconds };
    },
  };
}

/** The velocity a General MIDI instrument would have been played with: amplitude goes with its square (recommended practice, from memory). */
function velocityOf(share: number): number {
  return Math.max(1, Math.round(LOUDEST_VELOCITY * Math.sqrt(share)));
}

/** Standard deviation of the time of an onset, ms: the steeper and clearer it is, the stronger its flux and the better it is timed. */
function noiseMsOf(strength: number, { noise }: Pick<Attack, "noise">): number {
  return noise.ms * Math.max(1, strength) ** -noise.falls;
}

/** Root mean square of the onsets' noises; 0 without onsets. */
export function wholeNoiseMs(onsets: readonly HeardOnset[]): number {
  if (onsets.length === 0) return 0;
  return Math.sqrt(onsets.reduce((sum, { noiseMs }) => sum + noiseMs ** 2, 0) / onsets.length);
}
