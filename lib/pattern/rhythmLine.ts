import { add, compare, resultOf } from "../base/index.js";
import { rootOf } from "./chordSymbol.js";
import { chordTones } from "./chordTones.js";
import { problem } from "./codes.js";
import type { Frame } from "./compile/bars.js";
import type { ChordSymbol, Note, Pitch } from "./model.js";
import { parseNotes } from "./note/line.js";
import { midiNumber, transposePitch } from "./pitch.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";

/** What a stroke stands for while its line is read as a line of notes; one letter longer than the x. */
const STROKE = "C4";

/** Each note of a chord sounds in the octave from here up, so that what two chords share stays where it is: our choice, the middle of the keyboard. */
const LOWEST = 53;

/**
 * Reads the rhythm in which a part strikes the chords of its pattern: a line of notes with `x` for the chord that is written where the note begins
 * ("1/4 - x! 1/8 - x 1/4 tie"). The notes of a chord lie in the octave from F3 up.
 *
 * No note when the chords could not be read. Problems: those of `parseNotes`, with offsets; NOTE_NOT_READ for a pitch; RHYTHM_WITHOUT_CHORD where none is written, or "N.C.".
 *
 * @example parseRhythm("1/4 x - x -", frame, chords)
 */
export function parseRhythm(
  line: string,
  frame: Frame,
  chords: readonly ChordSymbol[] | undefined,
): Result<readonly Note[]> {
  const pitches = [...line.matchAll(/(?<![^\s|([])\(?([A-Ha-h][b#♭♯]*-?\d\S*)/g)];
  if (pitches.length > 0) return { ok: false, problems: pitches.map((found) => pitchProblem(found[1]!, found.index)) };
  const strokes = [...line.matchAll(/(?<![^\s|([])x(?=[!._)\]\s|]|$)/g)].map(({ index }) => index);
  const read = parseNotes(line.replace(/(?<![^\s|([])x(?=[!._)\]\s|]|$)/g, STROKE), frame);
  const problems = (read.ok ? read.advice : read.problems).map((each) => inLine(each, strokes));
  if (!read.ok) return { ok: false, problems };
  if (chords === undefined) return resultOf([], problems);
  const notes: Note[] = [];
  const bare = new Set<number>();
  for (const note of read.value) {
    const symbol = chords.find(
      ({ position, length }) =>
        compare(position, note.position) <= 0 && compare(note.position, add(position, length)) < 0,
    );
    const root = symbol && rootOf(symbol.text);
    if (root === undefined) bare.add(frame.bars.filter(({ position }) => compare(position, note.position) <= 0).length);
    else notes.push(...voiced(root.pitch, root.quality).map((pitch) => ({ ...note, pitch })));
  }
  for (const bar of bare) {
    const message = say("pattern-problem.rhythm-without-chord", { bar });
    problems.push(
      problem("RHYTHM_WITHOUT_CHORD", message, { pointer: "" }, say("pattern-problem.rhythm-without-chord-remedy")),
    );
  }
  return resultOf(notes, problems);
}

/** The notes of a chord, each in the octave from LOWEST up, lowest first. */
function voiced(root: Pitch, quality: string): readonly Pitch[] {
  const pitches = chordTones(quality).map((interval) => {
    const pitch = transposePitch(root, interval);
    return { ...pitch, octave: pitch.octave - Math.floor((midiNumber(pitch) - LOWEST) / 12) };
  });
  return pitches.sort((a, b) => midiNumber(a) - midiNumber(b));
}

/** A problem at its place in the line as it was written. */
function inLine(found: Problem, strokes: readonly number[]): Problem {
  const { offset } = found.where;
  if (offset === undefined) return found;
  const before = strokes.filter((stroke, i) => stroke + i < offset).length;
  const place = { ...found, where: { ...found.where, offset: offset - before } };
  if (found.code !== "NOTE_NOT_READ") return place;
  const { says, message } = say("pattern-problem.write-for-instance", { example: "1/4 x - 1/8 x! x" });
  return { ...place, remedy: says, words: { ...found.words, remedy: message } };
}

function pitchProblem(found: string, offset: number): Problem {
  const message = say("pattern-problem.rhythm-with-pitch", { found: JSON.stringify(found.slice(0, 30)) });
  const remedy = say("pattern-problem.write", { text: "x" });
  return problem("NOTE_NOT_READ", message, { pointer: "", offset }, remedy);
}
