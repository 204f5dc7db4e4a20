import { type Problem, placedUnder, problemsIn, type Result, resultOf } from "../base/index.js";
import { compileDrill, type Drill } from "../drill/index.js";
import {
  compileInstrument,
  compilePattern,
  INSTRUMENTS,
  type Instrument,
  instrumentNamed,
  type Pattern,
  unknownInstrument,
} from "../pattern/index.js";
import { type CurriculumDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { formerNames } from "./editions/formerNames.js";
import { filesOf, type ReadFile } from "./files.js";
import { MOST_KEPT, MOST_NOTES, MOST_NOTES_IN_PATTERN, MOST_WORK, notesWritten, workOf } from "./limits.js";
import type { Curriculum } from "./model.js";
import { needsProblems } from "./needs.js";
import { isKeyed, soundPart } from "./wellFormed.js";

/** The course that a document's data describes, or every problem with it; problems say by pointer where they are. */
export function courseOf(value: unknown, readFile: ReadFile): Result<Curriculum> {
  const { document, problems: shape } = soundPart(value);
  const problems = keeper();
  problems.keep(shape);
  const instruments = instrumentsOf(document, problems);
  const patterns = patternsOf(document, { instruments, readFile, problems });
  const written = Object.fromEntries(namesIn(value, "patterns").map((pattern) => [pattern, undefined]));
  const drills = drillsOf(document, { instruments, patterns: { ...written, ...patterns }, problems });
  problems.keep(playerProblems(document, namesIn(value, "instruments")));
  const former = formerNames(document.drills);
  problems.keep(needsProblems(document.drills, namesIn(value, "drills")));
  problems.keep(former.problems);
  const { curriculum: name, edition, title, about } = document;
  const course: Curriculum = {
    name,
    edition,
    title,
    ...(about === undefined ? {} : { about }),
    instruments,
    patterns,
    drills,
    formerly: former.names,
  };
  return resultOf(course, problems.kept);
}

interface PatternSurroundings {
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly readFile: ReadFile;
  readonly problems: Keeper;
}

/** The patterns without errors, by name. */
export function patternsOf(
  document: CurriculumDocument,
  { instruments, readFile, problems }: PatternSurroundings,
): Readonly<Record<string, Pattern>> {
  const files = filesOf(document.patterns, readFile);
  const refused = new Set(files.problems.map((each) => each.where.pointer));
  problems.keep(files.problems);
  const patterns: [string, Pattern][] = [];
  let notes = 0;
  for (const [name, written] of Object.entries(document.patterns)) {
    if (notes >= MOST_NOTES) {
      problems.keep([tooManyNotes(name)]);
      return Object.fromEntries(patterns);
    }
    const mostNotes = Math.min(MOST_NOTES_IN_PATTERN, MOST_NOTES - notes);
    const compiled = compilePattern(name, written, { instruments, files: (path) => files.bytes.get(path), mostNotes });
    // A file that was refused is not missing as well.
    problems.keep(placedAt(compiled, ["patterns", name]).filter((each) => !refused.has(each.where.pointer)));
    if (compiled.ok) patterns.push([name, compiled.value]);
    notes += compiled.ok ? notesIn(compiled.value) : Math.min(notesWritten(written), MOST_NOTES_IN_PATTERN);
  }
  return Object.fromEntries(patterns);
}

interface DrillSurroundings {
  readonly instruments: Readonly<Record<string, Instrument>>;
  /** By every name written; `undefined` for those with problems. */
  readonly patterns: Readonly<Record<string, Pattern | undefined>>;
  readonly problems: Keeper;
}

/** The drills without errors, in the order written. */
export function drillsOf(
  document: CurriculumDocument,
  { instruments, patterns, problems }: DrillSurroundings,
): readonly Drill[] {
  const drills: Drill[] = [];
  let work = 0;
  for (const [name, written] of Object.entries(document.drills)) {
    const own = written.players !== undefined;
    const completed = own ? written : { ...written, players: document.players ?? [] };
    const pattern = Object.hasOwn(patterns, completed.pattern) ? patterns[completed.pattern] : undefined;
    work += pattern === undefined ? 0 : workOf(completed, pattern);
    if (work > MOST_WORK) {
      problems.keep([tooLarge(name)]);
      return drills;
    }
    const compiled = compileDrill(name, completed, { instruments, patterns });
    const found = placedAt(compiled, ["drills", name]);
    problems.keep(own ? found : found.map((each) => withCoursePlayers(each, name)));
    if (compiled.ok) drills.push(compiled.value);
  }
  return drills;
}

/** Players of the course whose instrument is neither in the table nor written, also when no drill can be read; `own` are the names written. */
export function playerProblems(document: CurriculumDocument, own: readonly string[]): readonly Problem[] {
  return (document.players ?? []).flatMap((player, i) => {
    const name = typeof player === "string" ? player : player.instrument;
    if (own.includes(name) || instrumentNamed(name, {}) !== undefined) return [];
    const pointer = pointerTo(typeof player === "string" ? ["players", i] : ["players", i, "instrument"]);
    return [unknownInstrument(name, Object.fromEntries(own.map((each) => [each, ANY_INSTRUMENT])), pointer)];
  });
}

/** Stands for an instrument of which only the name matters. */
const ANY_INSTRUMENT: Instrument = INSTRUMENTS.piano!;

/** Gathers problems up to a number beyond which nobody needs more; errors do not give way to advice. */
export interface Keeper {
  readonly kept: readonly Problem[];
  keep(problems: readonly Problem[]): void;
}

export function keeper(): Keeper {
  const kept: Problem[] = [];
  const counts = { error: 0, advice: 0 };
  return {
    kept,
    keep(problems) {
      for (const problem of problems) {
        counts[problem.severity] += 1;
        if (counts[problem.severity] <= MOST_KEPT) kept.push(problem);
      }
    },
  };
}

/** The problems or advice of a piece of the course, with pointers from the course's root. */
export function placedAt(result: Result<unknown>, path: readonly string[]): readonly Problem[] {
  return problemsIn(result).map((each) => placedUnder(each, pointerTo(path)));
}

function instrumentsOf(document: CurriculumDocument, problems: Keeper): Readonly<Record<string, Instrument>> {
  const instruments: [string, Instrument][] = [];
  for (const [name, described] of Object.entries(document.instruments ?? {})) {
    const compiled = compileInstrument(name, described);
    problems.keep(placedAt(compiled, ["instruments", name]));
    if (compiled.ok) instruments.push([name, compiled.value]);
  }
  return Object.fromEntries(instruments);
}

function namesIn(value: unknown, section: string): readonly string[] {
  const entries = isKeyed(value) && Object.hasOwn(value, section) ? value[section] : undefined;
  return isKeyed(entries) ? Object.keys(entries) : [];
}

function tooManyNotes(pattern: string): Problem {
  const message = `all patterns of a course together hold ${MOST_NOTES} notes, variants and repeated bars included; before ${JSON.stringify(pattern)} they already do`;
  return problem("COURSE_TOO_LARGE", message, { pointer: pointerTo(["patterns", pattern]) }, "split the course");
}

function notesIn(pattern: Pattern): number {
  return pattern.parts.flatMap((part) => Object.values(part.variants)).reduce((sum, notes) => sum + notes.length, 0);
}

function tooLarge(drill: string): Problem {
  const message = `patterns, ladders and players of all drills together multiply to more than is checked in one course; with ${JSON.stringify(drill)} they do`;
  const remedy = "use shorter patterns and lists, or split the course";
  return problem("COURSE_TOO_LARGE", message, { pointer: pointerTo(["drills", drill]) }, remedy);
}

/** A problem with a player of a drill that has none of its own is one with a player of the course. */
function withCoursePlayers(problem: Problem, drill: string): Problem {
  const inDrill = pointerTo(["drills", drill]);
  const { pointer = "" } = problem.where;
  if (!pointer.startsWith(`${inDrill}/players/`)) return problem;
  // An unknown name is the same problem in every drill; a range depends on what the drill has played.
  const message = problem.code === "INSTRUMENT_UNKNOWN" ? problem.message : `in the drill ${drill}: ${problem.message}`;
  return { ...problem, message, where: { ...problem.where, pointer: pointer.slice(inDrill.length) } };
}
