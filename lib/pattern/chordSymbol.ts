import type { Problem } from "../base/index.js";
import { problem } from "./codes.js";
import type { Interval, Pitch } from "./model.js";
import { accidentals, alterOf, transposePitch } from "./pitch.js";

const NO_CHORD = /^N\.?C\.?$/i;
const PARTS = /^([A-G])(bb?|##?|♭♭?|♯♯?)?([^/]*)(?:\/([A-G])(bb?|##?|♭♭?|♯♯?)?)?$/;
/** Qualities, extensions and alterations in general use; anything else is advice, since hands write chords in many ways. */
const USUAL =
  /^(maj|min|mi|ma|m|M|dim|aug|sus[24]?|add[2469]|add1[13]|alt|omit[35]|no[35]|Δ|ø|°|o|\+|-|[b#♭♯]?(?:5|6|7|9|11|13)|6\/9|69|2|4|\(|\)|,)*$/;

/** Problems of one chord symbol: CHORD_NOT_READ (no root), CHORD_UNUSUAL (advice). "N.C." is a chord: none. */
export function chordProblems(text: string, offset: number): readonly Problem[] {
  if (NO_CHORD.test(text)) return [];
  const match = PARTS.exec(withoutSixNine(text));
  if (!match) {
    const message = `a chord symbol begins with a letter from A to G, and a bass after / does too; found ${JSON.stringify(text.slice(0, 20))}`;
    return [
      problem("CHORD_NOT_READ", message, { pointer: "", offset }, "write for instance Dm7, Bb7 or G7/B; N.C. for none"),
    ];
  }
  if (USUAL.test(match[3]!)) return [];
  return [problem("CHORD_UNUSUAL", `the chord symbol ${text} is unusual: check its spelling`, { pointer: "", offset })];
}

/** The chord symbol moved by an interval: root and bass move, the quality stays. A text that is no chord symbol comes back as it is. */
export function chordTransposed(text: string, interval: Interval): string {
  const match = NO_CHORD.test(text) ? null : PARTS.exec(withoutSixNine(text));
  if (!match) return text;
  const quality = /6\/9/.test(text) ? match[3]!.replace("69", "6/9") : match[3]!;
  const bass = match[4] === undefined ? "" : `/${moved(match[4], match[5], interval)}`;
  return moved(match[1]!, match[2], interval) + quality + bass;
}

function moved(letter: string, signs: string | undefined, interval: Interval): string {
  const root: Pitch = { letter: letter as Pitch["letter"], alter: alterOf(signs ?? ""), octave: 4 };
  const there = transposePitch(root, interval);
  return there.letter + accidentals(there.alter);
}

/** 6/9 is a quality, not a bass. */
function withoutSixNine(text: string): string {
  return text.replace("6/9", "69");
}
