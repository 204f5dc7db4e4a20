import { type Result, resultOf } from "../base/index.js";
import { compileInstrument, type Instrument } from "../pattern/index.js";
import type { CurriculumDocument } from "../schema/index.js";
import { drillsOf } from "./drills.js";
import type { ReadFile } from "./files.js";
import { formerNames } from "./formerly.js";
import { type Keeper, keeper, placedAt } from "./keeper.js";
import type { Curriculum } from "./model.js";
import { needsProblems } from "./needs.js";
import { patternsOf } from "./patterns.js";
import { playerProblems } from "./players.js";
import { isKeyed, soundPart } from "./sound.js";

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
