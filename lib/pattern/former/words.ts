import { add, type Fraction, fraction, multiply, ZERO } from "../../base/index.js";
import type { Pitch } from "../model.js";
import { dots } from "../note/token.js";
import { parsePitch } from "../pitch.js";
import { USUAL_TUPLETS } from "../usualTuplets.js";

/** A word of a bar in the former spelling, and where it lies in the bar's text. */
export type FormerWord = FormerNote | FormerTuplet;

/** A note, chord or rest: `D4/4.^~`, `C4+Eb4/8`, `r/8`, or `r` alone for a rest that fills its bar. */
export interface FormerNote {
  readonly kind: "note";
  /** Several: a chord. None: a rest. */
  readonly pitches: readonly Pitch[];
  /** The pitches as written, "Bb3+D4"; "" for a rest. */
  readonly name: string;
  /** In whole notes; absent for a rest that fills its bar. */
  readonly length?: Fraction;
  readonly accent: boolean;
  readonly tied: boolean;
  readonly from: number;
  readonly to: number;
}

/** `3[...]` or `5:4[...]`: `count` notes in the time of `inTimeOf`. */
export interface FormerTuplet {
  readonly kind: "tuplet";
  readonly count: number;
  readonly inTimeOf: number;
  readonly notes: readonly FormerNote[];
  readonly from: number;
  readonly to: number;
}

/** Reads the words of a bar in the former spelling; `undefined` when one of them is none. */
export function formerWords(text: string): readonly FormerWord[] | undefined {
  const words: FormerWord[] = [];
  let open: { count: number; inTimeOf: number; notes: FormerNote[]; from: number } | undefined;
  for (const match of text.matchAll(/(\d+)(?::(\d+))?\[|[[\]]|[^\s[\]]+/g)) {
    const [token, count, inTimeOf] = match;
    const [from, to] = [match.index, match.index + token.length];
    if (token.endsWith("[")) {
      const notes = Number(count ?? 0);
      const time = inTimeOf === undefined ? (USUAL_TUPLETS.get(notes) ?? 0) : Number(inTimeOf);
      if (open || notes < 2 || time < 1 || notes === time || Math.max(notes, time) > 16) return undefined;
      open = { count: notes, inTimeOf: time, notes: [], from };
    } else if (token === "]") {
      if (!open || open.notes.length === 0) return undefined;
      words.push({ kind: "tuplet", ...open, to });
      open = undefined;
    } else {
      const note = formerNote(token, from);
      if (!note || (note.length === undefined && text !== "r")) return undefined;
      (open?.notes ?? words).push(note);
    }
  }
  return open ? undefined : words;
}

/** The length of words in whole notes; rests that fill a bar count 0. */
export function formerLength(words: readonly FormerWord[]): Fraction {
  return words.reduce((sum, word) => {
    if (word.kind === "note") return word.length === undefined ? sum : add(sum, word.length);
    return add(sum, multiply(formerLength(word.notes), fraction(word.inTimeOf, word.count)));
  }, ZERO);
}

/** Whether a token is written in the former spelling: `D4/8`, `r/4.`, `3[`, `D4^`, `r`. */
export function isFormerToken(token: string): boolean {
  return (
    /^(r|[A-Ga-g][b#♭♯]{0,2}-?\d{1,2}(\+[A-Ga-g][b#♭♯]{0,2}-?\d{1,2})*)(\/\d+\.*)?[\^~]*$/.test(token) &&
    /^r|[/^]/.test(token)
  );
}

/** One note, chord or rest in the former spelling, at `from` in its bar. */
export function formerNote(token: string, from: number): FormerNote | undefined {
  const to = from + token.length;
  if (token === "r") return { kind: "note", pitches: [], name: "", accent: false, tied: false, from, to };
  const [, name = "", value = "", dotted = "", marks = ""] =
    /^([^/^~]+)\/(\d{1,2})(\.{0,2})([\^~]*)$/.exec(token) ?? [];
  const isValue = /^(1|2|4|8|16|32|64)$/.test(value);
  const isRest = name === "r";
  const pitches = isRest ? [] : name.split("+").map(parsePitch);
  if (!isValue || pitches.some((each) => !each.ok) || new Set(marks).size < marks.length) return undefined;
  if (isRest && marks !== "") return undefined;
  return {
    kind: "note",
    pitches: pitches.flatMap((each) => (each.ok ? [each.value] : [])),
    name: isRest ? "" : name,
    length: multiply(fraction(1, Number(value)), dots(dotted.length)),
    accent: marks.includes("^"),
    tied: marks.includes("~"),
    from,
    to,
  };
}
