import { PERCUSSION } from "../../pattern/index.js";

/** The place of a percussion voice on a five-line staff, named as in the treble clef, and its note head. */
export interface StaffPlace {
  readonly step: "A" | "B" | "C" | "D" | "E" | "F" | "G";
  readonly octave: number;
  readonly head: "normal" | "x" | "diamond" | "triangle";
}

/** Common practice for drum sets (kick in the lowest space, snare in the third, cymbals with crosses above); no source. By General MIDI key. */
const PLACES: Readonly<Record<number, StaffPlace>> = {
  35: at("F", 4),
  36: at("F", 4),
  37: at("C", 5, "x"),
  38: at("C", 5),
  39: at("C", 5, "x"),
  40: at("C", 5),
  41: at("G", 4),
  43: at("A", 4),
  45: at("B", 4),
  47: at("D", 5),
  48: at("D", 5),
  50: at("E", 5),
  42: at("G", 5, "x"),
  44: at("D", 4, "x"),
  46: at("G", 5, "x"),
  49: at("A", 5, "x"),
  51: at("F", 5, "x"),
  52: at("B", 5, "x"),
  53: at("F", 5, "diamond"),
  54: at("E", 5, "triangle"),
  55: at("B", 5, "x"),
  56: at("E", 5, "triangle"),
  57: at("A", 5, "x"),
  59: at("F", 5, "x"),
};
/** Other voices are on the middle line. */
const ELSEWHERE = at("B", 4);

/** The staff place of a percussion voice. */
export function staffPlace(voice: string): StaffPlace {
  return PLACES[PERCUSSION.get(voice) ?? -1] ?? ELSEWHERE;
}

function at(step: StaffPlace["step"], octave: number, head: StaffPlace["head"] = "normal"): StaffPlace {
  return { step, octave, head };
}
