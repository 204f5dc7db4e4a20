import type { Instrument } from "../../../lib/pattern/index.js";
import { SEMITONES_SOUNDING } from "../../reference/semitonesSounding.js";

/** From memory, beside those with a source. */
const FROM_MEMORY: readonly (readonly [string, number])[] = [
  ["cornet", -2],
  ["flugelhorn", -2],
  ["electric bass", -12],
  ["guitar", -12],
  ["tenor voice", -12],
  // Courses' own, as they say: a minor second and a fifth lower.
  ["deep pipe", -1],
  ["quay horn", -7],
];
const KNOWN = new Map([...SEMITONES_SOUNDING, ...FROM_MEMORY]);

/** Semitones from what the player of an instrument reads to what sounds; 0 for all that are not known to transpose, and for nobody. */
export function semitonesOf(instrument: Instrument | undefined): number {
  return KNOWN.get(instrument?.name ?? "") ?? 0;
}

/** Whether what an instrument sounds is known here too, or it sounds as written. */
export function isKnownHere({ name, transposition }: Instrument): boolean {
  return KNOWN.has(name) || transposition.chromatic === 0;
}
