import {
  type Curriculum,
  type Drill,
  drillStanding,
  effectOfEdition,
  failure,
  findDrill,
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

/** Where takes go: the time, the journal, the course, and the rung they were played to. */
export interface Work {
  readonly at: string;
  readonly key: JournalKey;
  readonly course: Curriculum;
  readonly drill: Drill;
  readonly rung: Rung;
  readonly standing: Standing;
}

/** Does what a student's takes are for, on the store that has their journal; what keeps it from beginning is answered with its problems. */
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

/** Opens journal and course, takes the student over to the course's edition, and finds the rung. */
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
  // Takes are asked for here, not a change of edition: it is said beside them.
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

/** The drill named, or the only one that is open. */
function drillFor(course: Curriculum, standing: Standing, name: string | undefined): Result<Drill> {
  if (name !== undefined) return findDrill(course, name);
  const open = standing.drills.filter(({ drill, state }) => state === "open" && findDrill(course, drill).ok);
  if (open.length === 1) return findDrill(course, open[0]!.drill);
  const names = open.map(({ drill }) => drill);
  const message =
    names.length === 0
      ? `${standing.student} has no drill open`
      : `${standing.student} works on ${names.join(", ")}, and a take does not say which it is of`;
  return failure(problem("DRILL_NOT_CHOSEN", message, {}, "name the drill with --drill"));
}

/** The rung named, or the one the student is on, or the last one when the drill is complete. */
function rungFor(drill: Drill, standing: Standing, name: string | undefined): Result<Rung> {
  const held = drillStanding(standing, drill.name)?.rung;
  return findRung(drill, name ?? held ?? "0");
}

/** What helps to listen to recordings of a rung. */
export function playedTo(
  { drill, rung }: Pick<Work, "drill" | "rung">,
  mix?: string,
): { readonly players: readonly string[]; readonly score: Score } {
  const players = drill.players.map(({ instrument }) => instrument.name);
  return { players, score: scoreOf(rung, mix) };
}
