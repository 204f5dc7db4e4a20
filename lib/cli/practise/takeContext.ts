import { type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, findMix, findRung, type Rung, scoreOf } from "../../drill/index.js";
import { chooseDrill, takeOver, useFor } from "../../practice/index.js";
import type { Score, Standing } from "../../schema/index.js";
import type { Store } from "../../store/index.js";
import { type TimeOptions, timeFor } from "../options/optionValues.js";
import { type Outcome, refuse, type Setting } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { type Enrolled, openEnrolled } from "../store/enrolledJournal.js";
import { keepCourse } from "../store/keepCourse.js";
import { type StoreOptions, withStore } from "../store/openStore.js";

export interface WorkOptions extends StoreOptions, TimeOptions {
  /** A course file, or the name of a course the student is in. */
  readonly course?: string;
  readonly drill?: string;
  readonly rung?: string;
  readonly mix?: string;
}

/** The context of takes: the time, the journal, the course, and the rung that was played. */
export interface Work {
  /** In the language of the course. */
  readonly setting: Setting;
  readonly at: string;
  readonly student: string;
  readonly course: Curriculum;
  /** The edition the student was in, when the store keeps it. */
  readonly before?: Curriculum;
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
    const enrolled = await openEnrolled(setting, store, { student, course: options.course });
    if (!enrolled.ok) return refuse(setting, enrolled.problems);
    const begun = await begin(store, enrolled.value, { student, at, options });
    return begun.ok ? job(store, begun.value) : refuse(enrolled.value.setting, begun.problems);
  });
}

interface Asked {
  readonly student: string;
  readonly at: string;
  readonly options: WorkOptions;
}

/** Moves the student to the edition of the course, and finds the rung. */
async function begin(store: Store, enrolled: Enrolled, { student, at, options }: Asked): Promise<Result<Work>> {
  const { setting, kept, text, journal } = enrolled;
  if (text !== undefined) await keepCourse(setting, store, text);
  const use = useFor(journal.standing, { course: enrolled.course, ...(kept && { before: kept }) });
  if (!use.ok) return use;
  const { course } = use.value;
  const before = use.value.before === undefined ? {} : { before: use.value.before };
  if (course !== enrolled.course) {
    const named = { student, edition: course.edition, found: enrolled.course.edition, command: "leeway enrol" };
    setting.terminal.tell(`${plain(setting.words.say("cli.edition-stays", named))}\n`);
  }
  const taken = await takeOver(store, student, { course, ...before, at });
  if (!taken.ok) return taken;
  const { standing, events, from, to } = taken.value;
  // The command is about takes; a change of edition is reported beside them.
  if (events.length > 0)
    setting.terminal.tell(
      `${plain(setting.words.say("cli.edition-changed", { student, from, to }))}\n${effectText(taken.value, setting.words)}`,
    );
  const chosen = chooseDrill(course, standing, options.drill);
  if (!chosen.ok) return chosen;
  const { drill } = chosen.value;
  const mix = options.mix === undefined ? undefined : findMix(drill, options.mix);
  if (mix?.ok === false) return mix;
  const rung = options.rung === undefined ? success(chosen.value.rung) : findRung(drill, options.rung);
  return rung.ok ? success({ setting, at, student, course, ...before, drill, rung: rung.value, standing }) : rung;
}

/** The context for listening to recordings of a rung. */
export function playedTo(
  { drill, rung }: Pick<Work, "drill" | "rung">,
  mix?: string,
): { readonly players: readonly string[]; readonly score: Score } {
  const players = drill.players.map(({ instrument }) => instrument.name);
  return { players, score: scoreOf(rung, mix) };
}
