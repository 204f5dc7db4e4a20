import type { Problem } from "../base/index.js";
import { compileDrill, type Drill } from "../drill/index.js";
import type { Instrument, Pattern } from "../pattern/index.js";
import { type CurriculumDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { type Keeper, placedAt } from "./keeper.js";
import { MOST_WORK } from "./limits.js";
import { workOf } from "./work.js";

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
