import {
  add,
  compare,
  equals,
  type Fraction,
  fraction,
  multiply,
  negate,
  type Problem,
  type Result,
  resultOf,
  ZERO,
} from "../base/index.js";
import { barLength, type Meter, meterText } from "../time/index.js";
import { type Cell, cellsOf } from "./barLines.js";
import { problem } from "./codes.js";
import { type Frame, lengthText, MOST_NOTES_IN_LINE } from "./compile/bars.js";
import type { Note } from "./model.js";
import { type NoteWord, readWords, type Word, writtenLength } from "./noteWords.js";
import { midiNumber, pitchText } from "./pitch.js";

/**
 * Reads a line of notes against the bars of a pattern.
 *
 * A note is a pitch and a value (`D4/8`), a chord joins pitches (`D4+F4/8`), a rest is `r/8`, a rest that fills its bar is `r` alone. After the
 * value come dots (`/4.`, `/4..`), then `^` for an accent and `~` for a tie to the next note. `3[D4/8 E4/8 F4/8]` is a triplet, `5:4[...]` five
 * in the time of four. `|` is a bar line, `%` alone in a bar repeats the bar before. A pick-up is before the first bar line.
 *
 * Notes are in order of time, with ties joined; notes of a pick-up have negative positions. Problems carry an offset into the line: those of
 * bar lines, of words and of ties, PICKUP_LENGTH_DIFFERS, BAR_TOO_SHORT, BAR_TOO_LONG, NOTE_PAST_BAR_LINE, TOO_MANY_NOTES.
 * @example parseNotes("D4/4 r/4 F4/2~ | F4/1", frame)
 */
export function parseNotes(line: string, frame: Frame): Result<readonly Note[]> {
  const { cells, problems: found } = cellsOf(line, frame, (text) =>
    equals(lengthOf(readWords(text, 0).words), frame.pickup),
  );
  const problems: Problem[] = [...found];
  const placed: PlacedWord[] = [];
  const unread = new Set<number>();
  for (const cell of cells) {
    const bar = frame.bars[Math.max(0, cell.bar - 1)]!;
    const wanted = cell.bar === 0 ? frame.pickup : barLength(bar.meter);
    // A problem in a bar is reported where the bar is written and not again where it is repeated.
    if (cell.repeats !== undefined && unread.has(cell.repeats)) continue;
    const read = readWords(cell.text, cell.offset);
    if (read.problems.length > 0) {
      unread.add(cell.bar);
      problems.push(...read.problems);
      continue;
    }
    const start = cell.bar === 0 ? negate(frame.pickup) : bar.position;
    const events = placedWords(read.words, start, wanted, cell);
    const wrongLength = lengthProblem(events, { cell, start, wanted, meter: bar.meter });
    if (wrongLength) {
      unread.add(cell.bar);
      problems.push(wrongLength);
    }
    for (const event of events) placed.push(event);
    if (placed.length > MOST_NOTES_IN_LINE) {
      const message = `a line holds at most ${MOST_NOTES_IN_LINE} notes, repeated bars included`;
      return {
        ok: false,
        problems: [...problems, problem("TOO_MANY_NOTES", message, { pointer: "", offset: cell.offset })],
      };
    }
  }
  const joined = joinTies(placed);
  // Ties into a bar that could not be read are not judged.
  if (unread.size === 0 && found.length === 0) problems.push(...joined.problems);
  return resultOf(joined.notes, problems);
}

/** A word with its position in the pattern; without a word it is a rest. */
interface PlacedWord {
  readonly word: NoteWord | undefined;
  readonly position: Fraction;
  readonly length: Fraction;
  readonly offset: number;
}

/**
 * Sounding notes of written words: tied notes become one note, rests are left out, a chord becomes notes at one position, lowest first.
 *
 * Problems: TIE_PITCHES_DIFFER, TIE_ENDS_NOWHERE, ACCENT_AFTER_TIE (advice).
 */
function joinTies(placed: readonly PlacedWord[]): {
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

function placedWords(words: readonly Word[], start: Fraction, wanted: Fraction, cell: Cell): PlacedWord[] {
  const events: PlacedWord[] = [];
  let position = start;
  const place = (word: NoteWord | undefined, offset: number, length: Fraction): void => {
    // A word that a simile repeats is not in the text at that place: its offset is that of the %.
    events.push({ word, position, length, offset: cell.repeats === undefined ? offset : cell.offset });
    position = add(position, length);
  };
  for (const word of words) {
    if (word.kind === "bar rest") place(undefined, word.offset, wanted);
    else if (word.kind === "note") place(word, word.offset, writtenLength(word));
    else {
      const ratio = fraction(word.inTimeOf, word.count);
      for (const note of word.notes) place(note, note.offset, multiply(writtenLength(note), ratio));
    }
  }
  return events;
}

function lengthProblem(
  events: readonly PlacedWord[],
  bar: { cell: Cell; start: Fraction; wanted: Fraction; meter: Meter },
): Problem | undefined {
  const { cell, start, wanted, meter } = bar;
  const length = events.reduce((sum, event) => add(sum, event.length), ZERO);
  if (equals(length, wanted)) return undefined;
  const where = { pointer: "", offset: cell.offset };
  const sizes = `${lengthText(length, meter)} long`;
  if (cell.bar === 0) {
    const message = `the notes before the first bar line fill the pick-up of ${lengthText(wanted, meter)}; they are ${sizes}`;
    return problem(
      "PICKUP_LENGTH_DIFFERS",
      message,
      where,
      "begin the line with | when this part rests in the pick-up",
    );
  }
  if (compare(length, wanted) < 0) {
    return problem(
      "BAR_TOO_SHORT",
      `bar ${cell.bar} is ${sizes}; its meter ${meterText(meter)} wants ${lengthText(wanted, meter)}`,
      where,
    );
  }
  const end = add(start, wanted);
  const crossing = events.find((event) => compare(add(event.position, event.length), end) > 0)!;
  const at = { pointer: "", offset: crossing.offset };
  const rings = crossing === events.at(-1) && compare(crossing.position, end) < 0;
  if (rings && crossing.word && crossing.word.pitches.length > 0) {
    const message = `the last note of bar ${cell.bar} rings past the bar line: the bar is ${sizes}, its meter ${meterText(meter)} wants ${lengthText(wanted, meter)}`;
    return problem(
      "NOTE_PAST_BAR_LINE",
      message,
      at,
      "end it at the bar line and tie it (~) to the rest of it in the next bar",
    );
  }
  return problem(
    "BAR_TOO_LONG",
    `bar ${cell.bar} is ${sizes}; its meter ${meterText(meter)} wants ${lengthText(wanted, meter)}`,
    at,
  );
}

function lengthOf(words: readonly Word[]): Fraction {
  return words.reduce((sum, word) => {
    if (word.kind === "bar rest") return sum;
    if (word.kind === "note") return add(sum, writtenLength(word));
    return add(sum, multiply(lengthOf(word.notes), fraction(word.inTimeOf, word.count)));
  }, ZERO);
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
  const [left, right] = [pitchTexts(from.word!), pitchTexts(to.word)];
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

function pitchTexts(word: NoteWord): string {
  return word.pitches.map(pitchText).sort().join("+");
}
