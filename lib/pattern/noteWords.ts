import { add, divide, type Fraction, fraction, multiply, type Problem, ZERO } from "../base/index.js";
import { problem } from "./codes.js";
import type { Pitch } from "./model.js";
import { parsePitch, pitchText } from "./pitch.js";

/** A note, chord or rest as written. */
export interface NoteWord {
  readonly kind: "note";
  /** Several: a chord. None: a rest. */
  readonly pitches: readonly Pitch[];
  /** 1, 2, 4, ... 64. */
  readonly value: number;
  readonly dots: number;
  readonly accent: boolean;
  readonly tied: boolean;
  readonly offset: number;
}

/** `count` notes in the time of `inTimeOf`. */
interface TupletWord {
  readonly kind: "tuplet";
  readonly count: number;
  readonly inTimeOf: number;
  readonly notes: readonly NoteWord[];
  readonly offset: number;
}

/** A rest that fills its bar, whatever the meter. */
interface BarRestWord {
  readonly kind: "bar rest";
  readonly offset: number;
}

export type Word = NoteWord | TupletWord | BarRestWord;

/** Count of a tuplet -> the number of notes in whose time it is played, when only the count is written. Common practice, no source. */
export const USUAL_TUPLETS: ReadonlyMap<number, number> = new Map([
  [2, 3],
  [3, 2],
  [4, 3],
  [5, 4],
  [6, 4],
  [7, 4],
  [9, 8],
]);

/** The length of a word outside any tuplet, in whole notes: one dot adds a half, two dots add three quarters. */
export function writtenLength(word: NoteWord): Fraction {
  return multiply(fraction(1, word.value), fraction(2 ** (word.dots + 1) - 1, 2 ** word.dots));
}

/** The text of words as a line writes them: "D4/8 r/8 3[F4/8 G4/8 A4/8]". */
export function wordsText(words: readonly Word[]): string {
  return words.map(wordText).join(" ");
}

/** Most dots of a note. Our choice: two, as in nearly all printed music. */
const MOST_DOTS = 2;

/** Most notes of a tuplet. Our choice: a tuplet of more notes cannot be judged by ear. */
const MOST_IN_TUPLET = 16;

/** Most problems reported of one bar. Our choice: later ones mostly follow from the first. */
const MOST_PROBLEMS = 20;

const TOKEN = /\s+|(\d+)(?::(\d+))?\[|[[\]]|[^\s[\]]+/y;

/** Reads the words of one bar, with their problems. `offset` is the index of the bar's text in its line. */
export function readWords(
  text: string,
  offset: number,
): { readonly words: readonly Word[]; readonly problems: readonly Problem[] } {
  if (text === "r") return { words: [{ kind: "bar rest", offset }], problems: [] };
  const words: Word[] = [];
  const problems: Problem[] = [];
  let open: { count: number; inTimeOf: number; notes: NoteWord[]; offset: number } | undefined;
  TOKEN.lastIndex = 0;
  for (let match = TOKEN.exec(text); match; match = TOKEN.exec(text)) {
    if (problems.length >= MOST_PROBLEMS) return { words, problems };
    const at = offset + match.index;
    const token = match[0];
    if (token.trim() === "") continue;
    if (token.endsWith("[")) {
      if (open) problems.push(tupletProblem("tuplets do not stand inside each other", at));
      const count = Number(match[1] ?? 0);
      const inTimeOf = match[2] === undefined ? (USUAL_TUPLETS.get(count) ?? 0) : Number(match[2]);
      const good = [count, inTimeOf].every((n) => n >= 1 && n <= MOST_IN_TUPLET) && count > 1 && count !== inTimeOf;
      if (!good)
        problems.push(
          tupletProblem(`a tuplet is two numbers from 1 to 16 (3:2[), or 2 to 7 or 9 alone (3[); found ${token}`, at),
        );
      open = { count: good ? count : 1, inTimeOf: good ? inTimeOf : 1, notes: [], offset: at };
    } else if (token === "]") {
      if (!open) problems.push(tupletProblem("a ] closes no tuplet", at));
      else {
        words.push({ kind: "tuplet", ...open });
        problems.push(...tupletLengthProblems(open));
      }
      open = undefined;
    } else {
      const read = readNote(token, at);
      if ("word" in read) (open?.notes ?? words).push(read.word);
      else problems.push(...read.problems);
    }
  }
  if (open && open.count > 1) problems.push(tupletProblem("a tuplet is closed by ] before the bar line", open.offset));
  return { words, problems };
}

function wordText(word: Word): string {
  if (word.kind === "bar rest") return "r";
  if (word.kind === "tuplet") {
    const ratio = USUAL_TUPLETS.get(word.count) === word.inTimeOf ? "" : `:${word.inTimeOf}`;
    return `${word.count}${ratio}[${wordsText(word.notes)}]`;
  }
  const pitches = word.pitches.length === 0 ? "r" : word.pitches.map(pitchText).join("+");
  return `${pitches}/${word.value}${".".repeat(word.dots)}${word.accent ? "^" : ""}${word.tied ? "~" : ""}`;
}

function readNote(token: string, offset: number): { word: NoteWord } | { problems: readonly Problem[] } {
  const where = { pointer: "", offset };
  const match = /^([^/^~]+)(?:\/(\d{1,9})(\.*))?([\^~]*)$/.exec(token);
  const tail = match?.[4] ?? "";
  if (!match || (match[3] ?? "").length > MOST_DOTS || new Set(tail).size < tail.length) {
    const found = JSON.stringify(token.length > 30 ? `${token.slice(0, 30)}...` : token);
    const message = `a note is a pitch, / and its value, such as D4/8, D4/4. (dotted) or r/8 (rest), then ^ for an accent and ~ for a tie; found ${found}`;
    return { problems: [problem("NOTE_NOT_READ", message, where)] };
  }
  if (match[2] === undefined) {
    const message =
      match[1] === "r"
        ? "a rest without a value fills its bar and stands alone in it"
        : `the value of ${match[1]} is missing`;
    return { problems: [problem("NOTE_VALUE_MISSING", message, where, `write ${match[1]}/4 for a quarter`)] };
  }
  const value = Number(match[2]);
  const problems: Problem[] = [];
  if (value < 1 || value > 64 || !Number.isInteger(Math.log2(value))) {
    const message = `a note value is 1, 2, 4, 8, 16, 32 or 64; found ${match[2]} in ${token}`;
    problems.push(problem("NOTE_VALUE_NOT_POWER_OF_TWO", message, where, "for triplets write 3[D4/8 E4/8 F4/8]"));
  }
  const pitches = match[1] === "r" ? [] : readPitches(match[1]!, offset, problems);
  if (pitches.length === 0 && tail !== "") {
    const message = `a rest carries neither an accent nor a tie; found ${token}`;
    problems.push(...(match[1] === "r" ? [problem("NOTE_NOT_READ", message, where)] : []));
  }
  if (problems.length > 0) return { problems };
  const dots = (match[3] ?? "").length;
  const accent = tail.includes("^");
  return { word: { kind: "note", pitches, value, dots, accent, tied: tail.includes("~"), offset } };
}

function readPitches(text: string, offset: number, problems: Problem[]): Pitch[] {
  const pitches: Pitch[] = [];
  let start = offset;
  for (const name of text.split("+")) {
    const pitch = parsePitch(name);
    if (pitch.ok) pitches.push(pitch.value);
    else problems.push(...pitch.problems.map((p) => ({ ...p, where: { pointer: "", offset: start } })));
    start += name.length + 1;
  }
  return pitches;
}

function tupletLengthProblems(tuplet: { count: number; notes: readonly NoteWord[]; offset: number }): Problem[] {
  const sum = tuplet.notes.reduce((total, note) => add(total, writtenLength(note)), ZERO);
  const unit = divide(sum, fraction(tuplet.count));
  if (tuplet.count === 1 || (unit.n === 1 && Number.isInteger(Math.log2(unit.d)))) return [];
  const message = `a tuplet of ${tuplet.count} holds ${tuplet.count} notes of one value, or notes and rests of the same length together; these add up to ${sum.n}/${sum.d}`;
  return [problem("TUPLET_NOT_FILLED", message, { pointer: "", offset: tuplet.offset })];
}

function tupletProblem(message: string, offset: number): Problem {
  return problem(
    "TUPLET_NOT_READ",
    message,
    { pointer: "", offset },
    "write 3[D4/8 E4/8 F4/8] for a triplet of eighths",
  );
}
