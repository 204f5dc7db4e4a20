import {
  type Curriculum,
  type Drill,
  drillStanding,
  effectOfEdition,
  failure,
  findMix,
  findRung,
  problemsOf,
  type Result,
  type Rung,
  type Score,
  type Standing,
  scoreOf,
  success,
} from "../../index.js";
import { type JournalKey, record, type Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { drillNamed } from "../input/courseFile.js";
import { type TimeOptions, timeFor } from "../options/optionValues.js";
import { type Outcome, refuse, type Setting } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { openEnrolled } from "../store/enrolledJournal.js";
import { keepCourse } from "../store/keptCourse.js";
import { type StoreOptions, withStore } from "../store/openStore.js";

const problem = problemsOf(fileCodes);

export interface WorkOptions extends StoreOptions, TimeOptions {
  /** A course file, or the name of a course the student is in. */
  readonly course?: string;
  readonly drill?: string;
  readonly rung?: string;
  readonly mix?: string;
}

/** The context of takes: the time, the journal, the course, and the rung that was played. */
export interface Work {
  readonly at: string;
  readonly key: JournalKey;
  readonly course: Curriculum;
  readonly drill: Drill;
  readonly rung: Rung;
  readonly standing: Standing;
}

/** Runs an action with a student's takes on the store of their journal. Problems before it begins are printed. */
export function withWork(
  setting: Setting,
  { student, options }: { readonly student: string; readonly options: WorkOptions },
  job: (store: Store, work: Work) => Promise<Outcome>,
): Promise<Outcome> | Outcome {
  const at = timeFor(setting, options);
  if (typeof at === "number") return at;
  return withStore(setting, { ...options, create: false }, async (store) => {
    const begun = await begin(setting, store, { student, at, options });
    return begun.ok ? job(store, begun.value) : refuse(setting, begun.problems);
  });
}

interface Asked {
  readonly student: string;
  readonly at: string;
  readonly options: WorkOptions;
}

/** Opens journal and course, moves the student to the edition of the course, and finds the rung. */
async function begin(setting: Setting, store: Store, { student, at, options }: Asked): Promise<Result<Work>> {
  const enrolled = await openEnrolled(setting, store, { student, course: options.course });
  if (!enrolled.ok) return enrolled;
  const { journal, course, kept: before, text } = enrolled.value;
  if (text !== undefined) await keepCourse(setting, store, text);
  const key = { student, curriculum: course.name };
  const taken = await record(store, key, ({ standing: held } = journal) =>
    effectOfEdition(course, held!, { at, ...(before === undefined ? {} : { before }) }),
  );
  const { standing } = taken;
  // The command is about takes; a change of edition is reported beside them.
  if (taken.events.length > 0)
    setting.terminal.tell(
      `${plain(student)}  edition changed from ${plain(taken.from)} to ${plain(taken.to)}\n${effectText(taken)}`,
    );
  const drill = drillFor(course, standing, options.drill);
  if (!drill.ok) return drill;
  const mix = options.mix === undefined ? undefined : findMix(drill.value, options.mix);
  if (mix?.ok === false) return mix;
  const rung = rungFor(drill.value, standing, options.rung);
  return rung.ok ? success({ at, key, course, drill: drill.value, rung: rung.value, standing }) : rung;
}

/** The named drill, or the only open one. */
function drillFor(course: Curriculum, standing: Standing, name: string | undefined): Result<Drill> {
  if (name !== undefined) return drillNamed(course, name);
  const open = standing.drills.filter(({ drill, state }) => state === "open" && drillNamed(course, drill).ok);
  if (open.length === 1) return drillNamed(course, open[0]!.drill);
  const names = open.map(({ drill }) => drill);
  const message =
    names.length === 0
      ? `${standing.student} has no drill open`
      : `${standing.student} works on ${names.join(", ")}, and a take does not say which it is of`;
  return failure(problem("DRILL_NOT_CHOSEN", message, {}, "name the drill with --drill"));
}

/** The named rung, or the student's, or the last when the drill is complete. */
function rungFor(drill: Drill, standing: Standing, name: string | undefined): Result<Rung> {
  const held = drillStanding(standing, drill.name)?.rung;
  return findRung(drill, name ?? held ?? "1");
}

/** The context for listening to recordings of a rung. */
export function playedTo(
  { drill, rung }: Pick<Work, "drill" | "rung">,
  mix?: string,
): { readonly players: readonly string[]; readonly score: Score } {
  const players = drill.players.map(({ instrument }) => instrument.name);
  return { players, score: scoreOf(rung, mix) };
}
