import { divide, fraction, placedUnder, problemsIn, resultOf } from "../../base/index.js";
import { type PatternDocument, pointerTo } from "../../schema/index.js";
import { parseSwing, type Swing, swingText } from "../../time/index.js";
import { parseChords } from "../chords.js";
import { problem } from "../codes.js";
import { parseKey } from "../key.js";
import type { Instrument, Part, Pattern } from "../model.js";
import { CONCERT_A_HERTZ } from "../pitch.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";
import { parseTuning } from "../tuning.js";
import { compileFrame, type Frame } from "./bars.js";
import { compilePart } from "./part.js";
import { type FindRecording, pacesOf } from "./recording.js";

/** What a pattern document refers to. */
export interface PatternContext {
  /** Instruments beside the table, by name. */
  readonly instruments: Readonly<Record<string, Instrument>>;
  /** Scales beside the table, by name: semitones above the tonic. */
  readonly scales?: Readonly<Record<string, readonly number[]>>;
  /** The bytes of a file, by the path as written; undefined when it is not there or lies outside the folder. */
  readonly files: (path: string) => Uint8Array | undefined;
  /** What is known of a sound file, by the path as written; `undefined` when it is not there or lies outside the folder. None is there when absent. */
  readonly recordings?: FindRecording;
  /** Hertz of A4 in a pattern that does not say another; 440 when absent. */
  readonly tuning?: number;
  /** How many notes the pattern may hold, variants and repeated bars included; 20,000 when absent. */
  readonly mostNotes?: number;
}

/** Most notes of a pattern. Our choice: ten parts in four variants of 500 notes. */
const MOST_NOTES = 20_000;

/**
 * Compiles a pattern document to a pattern, or to all problems in it.
 *
 * Pointers are relative to the document; problems inside a line carry an offset into it. A pattern without a key is in C major.
 * On repeats the pick-up of a phrase sounds at the end of the phrase before, so a pitched part with a pick-up must be silent there.
 */
export function compilePattern(name: string, document: PatternDocument, context: PatternContext): Result<Pattern> {
  const { pattern, problems } = readPattern(name, document, context);
  return pattern === undefined ? { ok: false, problems } : resultOf(pattern, problems);
}

/**
 * What can be read of a pattern document, with all problems in it: its bars, and its parts by name, with the notes that could be read. `undefined` when its
 * bars cannot be read.
 */
export function readPattern(
  name: string,
  document: PatternDocument,
  context: PatternContext,
): { readonly pattern: Pattern | undefined; readonly problems: readonly Problem[] } {
  const frame = compileFrame(document);
  const key = parseKey(document.key ?? "C major", context.scales);
  const swing = document.swing === undefined ? undefined : parseSwing(document.swing);
  const tuning = document.tuning === undefined ? undefined : parseTuning(document.tuning);
  const problems: Problem[] = [
    ...problemsIn(frame),
    ...(tuning ? problemsIn(tuning, "/tuning") : []),
    ...problemsIn(key, "/key"),
    ...(swing ? problemsIn(swing, "/swing") : []),
  ];
  const documents = Object.entries(document.parts);
  if (documents.length === 0) {
    problems.push(
      problem("PATTERN_WITHOUT_PARTS", say("pattern-problem.pattern-without-parts"), { pointer: "/parts" }),
    );
  }
  // Without bars no line can be read.
  if (!frame.ok) return { pattern: undefined, problems };
  const chords = document.chords === undefined ? undefined : parseChords(document.chords, frame.value);
  if (chords) problems.push(...problemsIn(chords, "/chords"));
  if (swing?.ok) problems.push(...swingProblems(swing.value, frame.value));
  const swung: Frame = { ...frame.value, ...(swing?.ok ? { swing: swing.value } : {}) };
  const keyInForce = key.ok ? key.value : { tonic: { letter: "C" as const, alter: 0 }, mode: "major" };
  const parts: Part[] = [];
  // Of chords that could not be read none is missed.
  const struck = chords === undefined ? [] : chords.ok ? chords.value : undefined;
  const mostNotes = context.mostNotes ?? MOST_NOTES;
  const room = { notes: mostNotes };
  for (const [part, music] of documents) {
    const { files, instruments, recordings = () => undefined } = context;
    const surroundings = { frame: swung, key: keyInForce, chords: struck, files, recordings, instruments, room };
    const compiled = compilePart(part, music, surroundings);
    const pointer = pointerTo(["parts", part]);
    problems.push(...compiled.problems.map((p) => placedUnder(p, pointer)));
    parts.push(compiled.part);
    if (room.notes < 0) {
      const message = say("pattern-problem.too-many-notes-in-pattern", { most: mostNotes });
      problems.push(problem("TOO_MANY_NOTES", message, { pointer }));
      break;
    }
  }
  const pattern: Pattern = {
    name,
    ...(document.title === undefined ? {} : { title: document.title }),
    ...(document.author === undefined ? {} : { author: document.author }),
    ...(document.arranger === undefined ? {} : { arranger: document.arranger }),
    ...frame.value,
    key: keyInForce,
    ...tunedTo(tuning?.ok ? tuning.value : context.tuning),
    ...(swing?.ok ? { swing: swing.value } : {}),
    chords: chords?.ok ? chords.value : [],
    parts,
    ...pacesIn(parts, frame.value, problems),
  };
  return { pattern, problems };
}

/** The pace of the bars, by the recording whose bar lines are given: one at most. Problem: BAR_LINES_TWICE. */
function pacesIn(parts: readonly Part[], frame: Frame, problems: Problem[]): Pick<Pattern, "paces"> {
  const followed = parts.flatMap(({ name, recorded = {} }) =>
    Object.values(recorded).flatMap((takes) => takes.flatMap((take) => (take.lines ? [{ name, take }] : []))),
  );
  const [grid, other] = followed;
  if (grid === undefined) return {};
  if (other !== undefined) {
    const message = say("pattern-problem.bar-lines-twice", { part: grid.name, other: other.name });
    const where = { pointer: pointerTo(["parts", other.name]) };
    problems.push(problem("BAR_LINES_TWICE", message, where, say("pattern-problem.bar-lines-twice-remedy")));
  }
  return { paces: pacesOf(grid.take, frame) };
}

/** A pattern at the usual pitch says nothing of its tuning, whether it was written or not. */
function tunedTo(hertz: number | undefined): Pick<Pattern, "tuning"> {
  return hertz === undefined || hertz === CONCERT_A_HERTZ ? {} : { tuning: hertz };
}

function swingProblems(swing: Swing, frame: Frame): Problem[] {
  const pair = fraction(2 * swing.subdivision.n, swing.subdivision.d);
  const uneven = frame.bars.find(({ meter }) =>
    meter.groups.some((size) => divide(fraction(size, meter.lower), pair).d !== 1),
  );
  if (!uneven) return [];
  const message = say("pattern-problem.swing-leaves-note-over", { swing: swingText(swing), bar: uneven.number });
  const remedy = say("pattern-problem.swing-leaves-note-over-remedy");
  return [problem("SWING_LEAVES_NOTE_OVER", message, { pointer: "/swing" }, remedy)];
}
