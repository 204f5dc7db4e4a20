import { random } from "../../base/index.js";

/**
 * The luck of one student in one matter (a drill, the days, the traits), found by its address and not by the order in which it is asked for: asking once more,
 * or never, changes no other luck. Two policies that play the same take of the same student have the same luck in it.
 */
export interface Luck {
  /** Uniform on [0, 1), in steps of 2^-32, for take or day `nth` (from 0) and a purpose. */
  uniform(nth: number, purpose: Purpose): number;
  /** Standard normal. */
  normal(nth: number, purpose: Purpose): number;
}

/** What luck is for. Numbers are part of the address and never given to another purpose. */
export const PURPOSES = {
  verdict: 0,
  slip: 1,
  practises: 2,
  form: 3,
  trait: 4,
  choice: 5,
  landings: 6,
  omissions: 7,
} as const;
export type Purpose = (typeof PURPOSES)[keyof typeof PURPOSES];

/** Luck at an address: the seed of the rehearsal, the number of the student, and the matter. */
export function luckOf(seed: string, student: number, matter: string): Luck {
  const key = random(`${seed}/${student}/${matter}`);
  const low = key.below(2 ** 32) | 0;
  const high = key.below(2 ** 32) | 0;
  const uniform = (nth: number, purpose: number): number => {
    const place = finished((low + Math.imul(nth, 0x9e3779b1)) | 0);
    const mixed = finished(finished((place ^ Math.imul(purpose + 1, 0x85ebca77)) | 0) ^ high);
    return (mixed >>> 0) / 2 ** 32;
  };
  return {
    uniform,
    normal: (nth, purpose) => {
      // Box and Muller 1958, from two addresses of which the second is nobody else's.
      const radius = Math.sqrt(-2 * Math.log(1 - uniform(nth, purpose)));
      return radius * Math.cos(2 * Math.PI * uniform(nth, purpose + 1000));
    },
  };
}

/** The finisher of MurmurHash3 for 32 bits (Appleby, public domain; from memory): every bit of the input moves about half of the bits of the output. */
function finished(bits: number): number {
  let h = bits;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
