import { add, type Fraction, type Problem } from "../base/index.js";
import { problem } from "./codes.js";
import type { Note } from "./model.js";
import type { NoteWord } from "./noteWords.js";
import { midiNumber, pitchText } from "./pitch.js";

/** A word at its place in the pattern; without a word it is a rest. */
export interface PlacedWord {
  readonly word: NoteWord | undefined;
  readonly position: Fraction;
  readonly length: Fraction;
  readonly offset: number;
}

/**
 * Sounding notes from written ones: tied notes become one, rests vanish, chords become notes that start together, lowest first.
 *
 * Problems: TIE_PITCHES_DIFFER, TIE_ENDS_NOWHERE, ACCENT_AFTER_TIE (advice).
 */
export function joinTies(placed: readonly PlacedWord[]): {
  readonly notes: readonly Note[];
  readonly problems: readonly Problem[];
} {
  const notes: Note[] = [];
  const problems: Problem[] = [];
  for (let i = 0; i < placed.length; i++) {
    const first = placed[i]!;
    if (!first.word || first.word.pitches.length === 0) continue;
    let length = first.length;
    let last = first;
    while (last.word?.tied) {
      const next = placed[i + 1];
      const found = tieProblem(last, next);
      if (found || !next) {
        if (found) problems.push(found);
        break;
      }
      if (next.word?.accent) problems.push(accentProblem(next));
      length = add(length, next.length);
      last = next;
      i++;
    }
    const { accent } = first.word;
    const pitches = [...first.word.pitches].sort((a, b) => midiNumber(a) - midiNumber(b));
    for (const pitch of pitches) notes.push({ position: first.position, length, pitch, accent });
  }
  return { notes, problems };
}

function tieProblem(from: PlacedWord, to: PlacedWord | undefined): Problem | undefined {
  const where = { pointer: "", offset: from.offset };
  if (!to?.word || to.word.pitches.length === 0) {
    const found = to ? "a rest follows" : "the line ends";
    return problem(
      "TIE_ENDS_NOWHERE",
      `a tie leads to a note of the same pitch; here ${found}`,
      where,
      "leave out the ~",
    );
  }
  const [left, right] = [names(from.word!), names(to.word)];
  if (left === right) return undefined;
  return problem(
    "TIE_PITCHES_DIFFER",
    `a tie joins notes of the same pitch; here ${left} and ${right}`,
    where,
    "leave out the ~",
  );
}

function accentProblem(at: PlacedWord): Problem {
  const message = "a tied note does not sound anew, so that its accent is not heard";
  return problem(
    "ACCENT_AFTER_TIE",
    message,
    { pointer: "", offset: at.offset },
    "put the ^ on the first of the tied notes",
  );
}

function names(word: NoteWord): string {
  return word.pitches.map(pitchText).sort().join("+");
}
