import { add, divide, type Fraction, fraction } from "../../base/index.js";
import { type Meter, meterOf, parseDecimal } from "../../time/index.js";
import type { MusicXmlNote } from "./musicXmlFile.js";
import { child, childrenOf, type Element, textOf } from "./readXml.js";

/** Attributes of a part that hold from bar to bar. */
export interface StaffState {
  /** Whole notes to one unit of `duration`; undefined before `divisions`. */
  quarter: Fraction | undefined;
  meter: Meter | undefined;
  /** Length of a bar whose time signature has no meter in leeway. */
  length: Fraction | undefined;
  transposition: MusicXmlNote["transposition"];
  /** The dynamic mark in force. */
  loudness: MusicXmlNote["loudness"];
  /** Slurs that have begun and not ended: number and voice, "1 2". */
  readonly slurs: Set<string>;
}

/** The state before the first bar: no divisions, no meter, sounding as written. */
export function freshStaff(): StaffState {
  return {
    quarter: undefined,
    meter: undefined,
    length: undefined,
    transposition: { diatonic: 0, chromatic: 0 },
    loudness: undefined,
    slurs: new Set(),
  };
}

/** Applies an `attributes` element to the state. */
export function readAttributes(element: Element, state: StaffState): void {
  // Divisions are parts of a quarter note (MusicXML 4.0).
  const divisions = parseDecimal(textOf(element, "divisions") ?? "");
  if (divisions) state.quarter = divisions.n > 0 ? divide(fraction(1, 4), divisions) : undefined;
  const time = child(element, "time");
  if (time) readTime(time, state);
  const transpose = child(element, "transpose");
  if (transpose) state.transposition = readTranspose(transpose);
}

function readTime(time: Element, state: StaffState): void {
  state.meter = undefined;
  state.length = undefined;
  if (child(time, "senza-misura")) return;
  const beats = childrenOf(time, "beats").map((b) => b.text.trim().split("+").map(Number));
  const types = childrenOf(time, "beat-type").map((t) => Number(t.text.trim()));
  const isCount = (n: number): boolean => Number.isInteger(n) && n >= 1 && n <= 64;
  if (beats.length === 0 || beats.length !== types.length || ![...beats.flat(), ...types].every(isCount)) return;
  state.length = beats.reduce(
    (sum, groups, i) =>
      add(
        sum,
        fraction(
          groups.reduce((a, b) => a + b, 0),
          types[i]!,
        ),
      ),
    fraction(0),
  );
  // Mixed signatures (3/8 + 2/4) are counted in their shortest note value.
  const lower = Math.max(...types);
  if (types.every((type) => Number.isInteger(Math.log2(type)))) {
    state.meter = meterOf(
      beats.flatMap((groups, i) => groups.map((size) => (size * lower) / types[i]!)),
      lower,
    );
  }
}

/** `chromatic` and `diatonic` are without octaves; `octave-change` has these (MusicXML 4.0). */
function readTranspose(element: Element): MusicXmlNote["transposition"] {
  const number = (name: string): number | undefined => {
    const text = textOf(element, name);
    return text !== undefined && /^-?\d{1,2}$/.test(text) ? Number(text) : undefined;
  };
  const octaves = number("octave-change") ?? 0;
  const chromatic = number("chromatic") ?? 0;
  // Without `diatonic`: seven steps for twelve semitones.
  const diatonic = number("diatonic") ?? Math.round((chromatic * 7) / 12);
  return { diatonic: diatonic + 7 * octaves, chromatic: chromatic + 12 * octaves };
}
