import type { Value } from "./pieces.js";

/** The name of a note value in MusicXML 4.0: "quarter", "16th". */
export function typeName({ value }: Value): string {
  return NAMES[value] ?? `${value}th`;
}

const NAMES: Readonly<Record<number, string>> = {
  0.5: "breve",
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  32: "32nd",
};
