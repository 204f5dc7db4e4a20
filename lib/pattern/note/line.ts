import { add, compare, equals, type Fraction, negate, resultOf, subtract, ZERO } from "../../base/index.js";
import { barLength, type Meter, meterText } from "../../time/index.js";
import { type Cell, cellsOf } from "../barLines.js";
import { problem } from "../codes.js";
import { type Frame, lengthText, MOST_NOTES_IN_LINE } from "../compile/bars.js";
import { formerSpelling } from "../former/problem.js";
import type { Note, Pitch } from "../model.js";
import { midiNumber } from "../pitch.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";
import { type Heard, heardInTuplets } from "../tuplets.js";
import { readWords } from "./lineWords.js";
import { type Line, lineFrom, type Placed, placedWords } from "./places.js";
import { MIDDLE, octavesIn } from "./token.js";

/**
 * Reads a line of notes against the bars of a pattern.
 *
 * Tokens are separated by blanks. A length (`1/8`, `3/8`, `1/4+1/16`, `1/1`) holds until the next one. Then notes (`D4`), chords (`C4+Eb4`),
 * silence (`-` or `rest`; alone in a bar it is the whole bar) and `tie`, which goes on sounding. Marks follow the note: `!` accent, `.` short,
 * `_` held (tenuto), `~` slurred to the note after it, `-scoop` and `-fall` slide up into it and off it;
 * `(D4)` is a ghost note; `pp` to `ff` are loudness. `3 in 2 [1/8 D4 E4 F4]` is a tuplet; after it the length before it holds again. `|` is
 * a bar line, `same` the bar before, `...` at the end repeats the bars so far. A pick-up stands before the first bar line (`rest |` when empty).
 *
 * Notes are in order of time, with ties joined; notes of a pick-up have negative positions. Problems carry an offset into the line: those of
 * bar lines and of words, NOTE_LENGTH_MISSING, TIE_WITHOUT_NOTE, SLUR_WITHOUT_NOTE, SLUR_ON_ONE_PITCH, PICKUP_LENGTH_DIFFERS, BAR_TOO_SHORT, BAR_TOO_LONG, NOTE_PAST_BAR_LINE,
 * TOO_MANY_NOTES; FORMER_SPELLING alone, with the line in the new spelling. A note without an octave is answered with that nearest to its neighbours, or,
 * where no note has one, to `middle`, a MIDI number.
 * @example parseNotes("1/4 D4! - 1/2 F4 | 1/1 tie", frame)
 */
export function parseNotes(line: string, frame: Frame, middle: number = MIDDLE): Result<readonly Note[]> {
  const former = formerSpelling("notes", line, frame);
  if (former) return { ok: false, problems: [former] };
  const { cells, problems: found } = cellsOf(line, frame, (text) => isPickup(text, frame));
  const problems: Problem[] = [...found];
  const bars = new Map<number, { readonly events: readonly Placed[]; readonly judged: boolean }>();
  const events: Placed[] = [];
  const state: Line = lineFrom();
  const octaveAt = octavesIn(line, middle);
  for (const cell of cells) {
    const { meter, position } = frame.bars[Math.max(0, cell.bar - 1)]!;
    const wanted = cell.bar === 0 ? frame.pickup : barLength(meter);
    if (cell.repeats === undefined) {
      const read = readWords(cell.text, cell.offset, octaveAt);
      const placed = placedWords(read.words, state);
      // After a word that was not read, what is missing mostly follows from it.
      problems.push(...(read.problems.length > 0 ? read.problems : placed.problems));
      const judged = read.problems.length + placed.problems.length === 0 && !placed.unknown;
      bars.set(cell.bar, { events: placed.events, judged });
    }
    const bar = bars.get(cell.repeats ?? cell.bar)!;
    // A problem in a bar is reported where the bar is written and not again where it is repeated.
    if (!bar.judged) continue;
    const start = cell.bar === 0 ? negate(frame.pickup) : position;
    const inBar = placedIn(bar.events, { start, wanted, cell });
    const wrongLength = lengthProblem(inBar, { cell, start, wanted, meter });
    if (wrongLength) {
      bars.set(cell.bar, { events: bar.events, judged: false });
      problems.push(wrongLength);
    }
    for (const event of inBar) events.push(event);
    if (events.length > MOST_NOTES_IN_LINE) {
      const message = say("pattern-problem.too-many-notes-in-line", { most: MOST_NOTES_IN_LINE });
      const remedy = say("pattern-problem.too-many-notes-remedy");
      const tooMany = problem("TOO_MANY_NOTES", message, { pointer: "", offset: cell.offset }, remedy);
      return { ok: false, problems: [...problems, tooMany] };
    }
  }
  const heard = heardInTuplets(events.map(asWritten), frame);
  const joined = joinTies(events, heard);
  // A tie after a bar that could not be read is not judged.
  if (problems.length === 0) problems.push(...joined.problems);
  return resultOf(joined.notes, problems);
}

/** The events of a bar at their place in the pattern. A rest without length fills the bar. */
function placedIn(
  events: readonly Placed[],
  { start, wanted, cell }: { start: Fraction; wanted: Fraction; cell: Cell },
): Placed[] {
  return events.map((event) => ({
    ...event,
    position: add(start, event.position),
    length: event.length ?? wanted,
    ...(event.tuplet && { tuplet: { from: add(start, event.tuplet.from), to: add(start, event.tuplet.to) } }),
    // A word of a repeated bar is not in the text at that place: its offset is that of the same or the ...
    offset: cell.repeats === undefined ? event.offset : cell.offset,
  }));
}

/** Sounding notes: ties joined, rests left out, a chord as notes at one position, lowest first. Problems: TIE_WITHOUT_NOTE, SLUR_WITHOUT_NOTE, SLUR_ON_ONE_PITCH. */
function joinTies(
  events: readonly Placed[],
  heard: readonly Heard[],
): {
  readonly notes: readonly Note[];
  readonly problems: readonly Problem[];
} {
  const notes: Note[] = [];
  const problems: Problem[] = [];
  let sounding = 0;
  /** The sound that is slurred to the one after it. */
  let slurred: Placed | undefined;
  for (const [at, event] of events.entries()) {
    const length = event.length!;
    if (event.kind === "rest") {
      sounding = 0;
      if (slurred) problems.push(slurProblem("SLUR_WITHOUT_NOTE", slurred));
      slurred = undefined;
    } else if (event.kind === "tie") {
      if (sounding === 0) problems.push(tieProblem(event.offset));
      for (let i = notes.length - sounding; i < notes.length; i++) {
        const { endLate: _, ...begun } = notes[i]!;
        const { endLate } = heard[at]!;
        notes[i] = { ...begun, ...(endLate && { endLate }), length: add(begun.length, length) };
      }
    } else {
      const { accent, marks } = event.sound;
      const pitches = [...event.sound.pitches].sort((a, b) => midiNumber(a) - midiNumber(b));
      const again = pitches.every((pitch) => notes.slice(notes.length - sounding).some((n) => isOne(n.pitch!, pitch)));
      if (slurred && again) problems.push(slurProblem("SLUR_ON_ONE_PITCH", slurred));
      slurred = marks.slurred ? event : undefined;
      sounding = pitches.length;
      for (const pitch of pitches) {
        notes.push({
          position: event.position,
          length,
          ...heard[at]!,
          pitch,
          accent,
          ...marks,
          ...(event.loudness === undefined ? {} : { loudness: event.loudness }),
        });
      }
    }
  }
  if (slurred) problems.push(slurProblem("SLUR_WITHOUT_NOTE", slurred));
  return { notes, problems };
}

/** A tie or a note of a line ends in the tuplet in which it begins. */
function asWritten({ position, length, tuplet }: Placed): Parameters<typeof heardInTuplets>[0][number] {
  return { position, length: length!, tuplet, endsIn: tuplet };
}

function isOne(a: Pitch, b: Pitch): boolean {
  return midiNumber(a) === midiNumber(b);
}

/** A slur that leads to silence or to the end of the pattern, or to a note that its own is one with. */
function slurProblem(code: "SLUR_WITHOUT_NOTE" | "SLUR_ON_ONE_PITCH", { offset }: Placed): Problem {
  const key = code === "SLUR_WITHOUT_NOTE" ? ("slur-without-note" as const) : ("slur-on-one-pitch" as const);
  const remedy = say(`pattern-problem.${key}-remedy`);
  return problem(code, say(`pattern-problem.${key}`), { pointer: "", offset }, remedy);
}

function lengthProblem(
  events: readonly Placed[],
  bar: { cell: Cell; start: Fraction; wanted: Fraction; meter: Meter },
): Problem | undefined {
  const { cell, start, wanted, meter } = bar;
  const length = events.reduce((sum, event) => add(sum, event.length!), ZERO);
  if (equals(length, wanted)) return undefined;
  const where = { pointer: "", offset: cell.offset };
  const sizes = { length: lengthText(length, meter), wanted: lengthText(wanted, meter) };
  if (cell.bar === 0) {
    const message = say("pattern-problem.pickup-length-differs", sizes);
    return problem("PICKUP_LENGTH_DIFFERS", message, where, say("pattern-problem.pickup-length-differs-remedy"));
  }
  const given = { bar: cell.bar, meter: meterText(meter), ...sizes };
  const message = say("pattern-problem.bar-length-differs", given);
  if (compare(length, wanted) < 0) {
    const missing = lengthText(subtract(wanted, length), meter);
    return problem("BAR_TOO_SHORT", message, where, say("pattern-problem.bar-too-short-remedy", { missing }));
  }
  const end = add(start, wanted);
  const crossing = events.find((event) => compare(add(event.position, event.length!), end) > 0)!;
  const at = { pointer: "", offset: crossing.offset };
  if (crossing !== events.at(-1) || compare(crossing.position, end) >= 0 || crossing.kind === "rest") {
    const over = lengthText(subtract(length, wanted), meter);
    return problem("BAR_TOO_LONG", message, at, say("pattern-problem.bar-too-long-remedy", { over }));
  }
  const ringing = say("pattern-problem.note-past-bar-line", given);
  return problem("NOTE_PAST_BAR_LINE", ringing, at, say("pattern-problem.note-past-bar-line-remedy"));
}

function tieProblem(offset: number): Problem {
  const message = say("pattern-problem.tie-without-note");
  const remedy = say("pattern-problem.tie-without-note-remedy");
  return problem("TIE_WITHOUT_NOTE", message, { pointer: "", offset }, remedy);
}

/** Whether a text is a pick-up: silence alone, or notes as long as the pick-up. */
function isPickup(text: string, frame: Frame): boolean {
  const { events, unknown } = placedWords(readWords(text, 0).words, lineFrom());
  if (unknown) return false;
  const length = events.reduce((sum, event) => add(sum, event.length ?? frame.pickup), ZERO);
  return equals(length, frame.pickup);
}
