import { problemsIn, resultOf } from "../base/index.js";
import { compileDrill, type Drill } from "../drill/index.js";
import {
  compileInstrument,
  INSTRUMENTS,
  type Instrument,
  instrumentNamed,
  type Pattern,
  parseOwnScale,
  parseTuning,
  readPattern,
  unknownInstrument,
} from "../pattern/index.js";
import { pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { colonForgotten } from "./colonForgotten.js";
import { octaveForCourse, withCoursePlayers } from "./coursePlayers.js";
import { formerNames } from "./editions/formerNames.js";
import { type FileReaders, filesOf } from "./files.js";
import { formerKey } from "./formerKeys.js";
import {
  MOST_COMPARED,
  MOST_KEPT,
  MOST_NOTES_IN_PATTERN,
  mostNotes,
  mostWork,
  noteEstimate,
  workEstimate,
} from "./limits.js";
import { formMeant } from "./meant.js";
import type { Curriculum } from "./model.js";
import { needsProblems } from "./needs.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";
import { isKeyed, type WellFormedPart, type WholeDocument, wellFormedPart } from "./wellFormed.js";
import { writtenPitchAdvice } from "./writtenPitch.js";

/** Compiles the data of a document, of a text of this length, to a course, or to every problem in it. Problems carry a JSON pointer. */
export function courseOf(value: unknown, length: number, readers: FileReaders): Result<Curriculum> {
  const { document, problems: shape, removed } = wellFormedPart(value);
  const problems = problemList(removed, [...namesIn(value, "instruments")]);
  problems.addAll(colonForgotten(shape, value).map(formerKey));
  const instruments = instrumentsOf(document, problems);
  const scales = scalesOf(document, problems);
  const tuning = document.tuning === undefined ? undefined : parseTuning(document.tuning);
  if (tuning) problems.add(problemsIn(tuning, "/tuning"));
  const { patterns, outlines } = patternsOf(document, {
    instruments,
    readers,
    problems,
    mostNotes: mostNotes(length),
    ...(tuning?.ok ? { tuning: tuning.value } : {}),
  });
  const written = Object.fromEntries(namesIn(value, "patterns").map((pattern) => [pattern, undefined]));
  const drills = drillsOf(document, {
    instruments,
    scales,
    patterns: { ...written, ...patterns },
    outlines,
    problems,
    mostWork: mostWork(length),
  });
  problems.add(playerProblems(document, namesIn(value, "instruments")));
  problems.add(writtenPitchAdvice({ document, drills, scales }));
  const former = formerNames(document.drills);
  problems.add(needsProblems(document.drills, namesIn(value, "drills")));
  problems.add(former.problems);
  const { curriculum: name, edition, title, about } = document;
  const course: Curriculum = {
    name,
    edition,
    title,
    ...(about === undefined ? {} : { about }),
    ...imprintOf(document),
    instruments,
    patterns,
    drills,
    formerly: former.names,
  };
  return resultOf(
    course,
    problems.listed.map((each) => formMeant(octaveForCourse(each, document, drills), value)),
  );
}

function imprintOf(document: WholeDocument): Pick<Curriculum, "imprint"> {
  const named = (["author", "arranger", "copyright", "licence", "address", "logo", "language"] as const).flatMap(
    (key) => (document[key] === undefined ? [] : [[key, document[key]] as const]),
  );
  return named.length === 0 ? {} : { imprint: Object.fromEntries(named) };
}

interface PatternSurroundings {
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly readers: FileReaders;
  /** Hertz of A4, where the course says it. */
  readonly tuning?: number;
  readonly problems: ProblemList;
  readonly mostNotes: number;
}

/** Compiles the patterns: those without errors, by name; and of the others what could be read, for the drills over them. */
function patternsOf(
  document: WholeDocument,
  { instruments, readers, problems, mostNotes, tuning }: PatternSurroundings,
): Readonly<Record<"patterns" | "outlines", Readonly<Record<string, Pattern>>>> {
  const files = filesOf(document.patterns, readers);
  const refused = new Set(files.problems.map((each) => each.where.pointer));
  problems.add(files.problems);
  const patterns: [string, Pattern][] = [];
  const outlines: [string, Pattern][] = [];
  let notes = 0;
  for (const [name, written] of Object.entries(document.patterns)) {
    if (notes >= mostNotes) {
      problems.add([tooManyNotes(name, mostNotes)]);
      break;
    }
    const { pattern, problems: found } = readPattern(name, written, {
      instruments,
      files: (path) => files.bytes.get(path),
      recordings: (path) => files.recordings.get(path),
      mostNotes: Math.min(MOST_NOTES_IN_PATTERN, mostNotes - notes),
      ...(tuning === undefined ? {} : { tuning }),
    });
    const compiled = pattern === undefined ? { ok: false as const, problems: found } : resultOf(pattern, found);
    // A file that was refused is not reported as missing too.
    problems.add(placedAt(compiled, ["patterns", name]).filter((each) => !refused.has(each.where.pointer)));
    // Of a pattern that lacks something no drill is judged.
    if (pattern !== undefined && !problems.isCut(["patterns", name]))
      (compiled.ok ? patterns : outlines).push([name, pattern]);
    notes += compiled.ok ? notesIn(compiled.value) : Math.min(noteEstimate(written), MOST_NOTES_IN_PATTERN);
  }
  return { patterns: Object.fromEntries(patterns), outlines: Object.fromEntries(outlines) };
}

interface DrillSurroundings {
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly scales: Readonly<Record<string, readonly number[]>>;
  /** By every name written; `undefined` for a pattern with problems. */
  readonly patterns: Readonly<Record<string, Pattern | undefined>>;
  /** What could be read of patterns with problems. */
  readonly outlines: Readonly<Record<string, Pattern>>;
  readonly problems: ProblemList;
  readonly mostWork: number;
}

/** Names compared with one that is unknown, once too many were compared. */
const FEW_NAMES = 100;

/** Compiles the drills: those without errors, in the order written. */
function drillsOf(
  document: WholeDocument,
  { instruments, scales, patterns, outlines, problems, mostWork }: DrillSurroundings,
): readonly Drill[] {
  const drills: Drill[] = [];
  const names = Object.keys(patterns);
  let work = 0;
  let unknown = 0;
  for (const [name, written] of Object.entries(document.drills)) {
    const own = written.players !== undefined;
    const completed = own ? written : { ...written, players: document.players ?? [] };
    const pattern = Object.hasOwn(patterns, completed.pattern) ? patterns[completed.pattern] : undefined;
    work += pattern === undefined ? 0 : workEstimate(completed, pattern);
    if (problems.isFull()) return drills;
    if (!Object.hasOwn(patterns, completed.pattern)) unknown += 1;
    const offered = unknown * names.length > MOST_COMPARED ? names.slice(0, FEW_NAMES) : names;
    if (work > mostWork) {
      problems.add([tooLarge(name)]);
      return drills;
    }
    const compiled = compileDrill(name, completed, { instruments, scales, patterns, outlines, offered });
    const found = placedAt(compiled, ["drills", name]);
    problems.add(own ? found : found.map((each) => withCoursePlayers(each, name)));
    if (compiled.ok) drills.push(compiled.value);
  }
  return drills;
}

/**
 * INSTRUMENT_UNKNOWN for each player of the course whose instrument is neither in the table nor described, also when no drill can be read.
 * `own` are the names of the described instruments.
 */
function playerProblems(document: WholeDocument, own: readonly string[]): readonly Problem[] {
  return (document.players ?? []).flatMap((player, i) => {
    const name = typeof player === "string" ? player : player.instrument;
    if (own.includes(name) || instrumentNamed(name, {}) !== undefined) return [];
    const pointer = pointerTo(typeof player === "string" ? ["players", i] : ["players", i, "instrument"]);
    return [unknownInstrument(name, Object.fromEntries(own.map((each) => [each, ANY_INSTRUMENT])), pointer)];
  });
}

/** Value for described instruments: only their names count here. */
const ANY_INSTRUMENT: Instrument = INSTRUMENTS.piano!;

/** Problems in the order found: at most MOST_KEPT errors and as much advice, counted apart, so that advice never displaces errors. */
interface ProblemList {
  readonly listed: readonly Problem[];
  /** Adds problems, without those that follow from what was taken out: errors of its holders, and advice about their entry. */
  add(problems: readonly Problem[]): void;
  /** Adds problems as they are. */
  addAll(problems: readonly Problem[]): void;
  /** Whether further errors are not kept. */
  isFull(): boolean;
  /** Whether something other than an unknown key was taken out of an entry. */
  isCut(path: readonly string[]): boolean;
}

/** `instruments`: the names of those that the course describes, well or not. */
function problemList(removed: WellFormedPart["removed"] = [], instruments: readonly string[] = []): ProblemList {
  const isIn = (pointer: string, holder: string): boolean => pointer === holder || pointer.startsWith(`${holder}/`);
  const entryOf = (pointer: string): string => pointer.split("/", 3).join("/");
  const follows = ({ code, severity, where: { pointer = "" }, words }: Problem): boolean =>
    removed.some(
      (cut) => isIn(cut.pointer, pointer) || (severity === "advice" && entryOf(cut.pointer) === entryOf(pointer)),
    ) ||
    (code === "INSTRUMENT_UNKNOWN" &&
      instruments.some((name) => words?.message?.parameters.found === JSON.stringify(name.slice(0, 80))));
  const listed: Problem[] = [];
  const counts = { error: 0, advice: 0 };
  return {
    listed,
    isFull: () => counts.error > MOST_KEPT,
    isCut(path) {
      const entry = pointerTo(path);
      return removed.some((cut) => !cut.isUnknownKey && isIn(cut.pointer, entry));
    },
    add(problems) {
      this.addAll(problems.filter((problem) => problem.where.pointer === undefined || !follows(problem)));
    },
    addAll(problems) {
      for (const problem of problems) {
        counts[problem.severity] += 1;
        if (counts[problem.severity] <= MOST_KEPT) listed.push(problem);
      }
    },
  };
}

/** The problems and advice of a part of the course, with pointers from the root of the course. */
function placedAt(result: Result<unknown>, path: readonly string[]): readonly Problem[] {
  return problemsIn(result, pointerTo(path));
}

function instrumentsOf(document: WholeDocument, problems: ProblemList): Readonly<Record<string, Instrument>> {
  const instruments: [string, Instrument][] = [];
  for (const [name, described] of Object.entries(document.instruments ?? {})) {
    const compiled = compileInstrument(name, described);
    problems.add(placedAt(compiled, ["instruments", name]));
    if (compiled.ok) instruments.push([name, compiled.value]);
  }
  return Object.fromEntries(instruments);
}

/** The scales of the course by name: semitones above the tonic. */
function scalesOf(document: WholeDocument, problems: ProblemList): Readonly<Record<string, readonly number[]>> {
  const scales: [string, readonly number[]][] = [];
  for (const [name, notes] of Object.entries(document.scales ?? {})) {
    const read = parseOwnScale(notes);
    problems.add(placedAt(read, ["scales", name]));
    if (read.ok) scales.push([name, read.value]);
  }
  return Object.fromEntries(scales);
}

function namesIn(value: unknown, section: string): readonly string[] {
  const entries = isKeyed(value) && Object.hasOwn(value, section) ? value[section] : undefined;
  return isKeyed(entries) ? Object.keys(entries) : [];
}

function tooManyNotes(pattern: string, most: number): Problem {
  const message = say("curriculum-problem.course-too-large-notes", {
    most,
    pattern: JSON.stringify(pattern),
  });
  const where = { pointer: pointerTo(["patterns", pattern]) };
  return problem("COURSE_TOO_LARGE", message, where, say("curriculum-problem.split-course"));
}

function notesIn(pattern: Pattern): number {
  return pattern.parts.flatMap((part) => Object.values(part.variants)).reduce((sum, notes) => sum + notes.length, 0);
}

function tooLarge(drill: string): Problem {
  const message = say("curriculum-problem.course-too-large", { drill: JSON.stringify(drill) });
  const remedy = say("curriculum-problem.course-too-large-remedy");
  return problem("COURSE_TOO_LARGE", message, { pointer: pointerTo(["drills", drill]) }, remedy);
}
