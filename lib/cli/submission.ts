import {
  assess,
  type Curriculum,
  type Decision,
  type Drill,
  decide,
  drillStanding,
  effectOfEdition,
  failure,
  findMix,
  findRung,
  nearestName,
  type Problem,
  problemsIn,
  problemsOf,
  type Result,
  type Rung,
  type Score,
  type Standing,
  scoreOf,
  success,
  type Take,
  takeIn,
} from "../index.js";
import { type JournalKey, record, type Store } from "../store/index.js";
import { fileCodes } from "./codes.js";
import { effectText } from "./effectText.js";
import { findingText } from "./findingText.js";
import { keepCourse, openKeptCourse, readCourseText } from "./keptCourse.js";
import { openJournal } from "./openJournal.js";
import { type Outcome, printJson, refuse, type Setting, tellProblems } from "./outcome.js";
import { plain } from "./plain.js";
import { nextText } from "./standingText.js";
import { outcomeOf, type StoreOptions, withStore } from "./storePlace.js";
import { takeName } from "./takeName.js";
import { type NamedTake, readTakes, type TakeOptions } from "./takes.js";
import { type TimeOptions, timeFor } from "./time.js";

const problem = problemsOf(fileCodes);

export interface SubmissionOptions extends StoreOptions, TimeOptions, TakeOptions {
  /** A course file, or the name of a course the student is in. */
  readonly course?: string;
  readonly drill?: string;
  readonly rung?: string;
  readonly mix?: string;
}

/**
 * `leeway submit STUDENT TAKE...`: assesses takes at the rung the student is on, keeps what they showed, and says what happens next. All takes of one
 * command were played to the rung the student was on before it.
 */
export function submission(
  setting: Setting,
  [student, ...takes]: readonly [string, ...string[]],
  options: SubmissionOptions,
): Promise<Outcome> | Outcome {
  const at = timeFor(setting, options);
  if (typeof at === "number") return at;
  return withStore(setting, { ...options, create: false }, async (store) => {
    const begun = await begin(setting, store, { student, at, options });
    if (!begun.ok) return refuse(setting, begun.problems);
    const work = { ...begun.value, at, options };
    const problems: Problem[] = [];
    let standing = begun.value.standing;
    for (const argument of takes) {
      for (const named of await readTakes(argument, options, { machine: setting.machine, ...playedTo(work) })) {
        const done = await submitOne(setting, store, { ...work, standing, named });
        if (done.ok) standing = done.value;
        else problems.push(...done.problems);
      }
    }
    if (!setting.json) setting.machine.print(nextText(standing));
    return outcomeOf(problems);
  });
}

/** Where takes go: the journal, the course, and the rung they were played to. */
export interface Work {
  readonly key: JournalKey;
  readonly course: Curriculum;
  readonly drill: Drill;
  readonly rung: Rung;
  readonly standing: Standing;
}

export interface Asked {
  readonly student: string;
  readonly at: string;
  readonly options: SubmissionOptions;
}

/** Opens journal and course, takes the student over to the course's edition, and finds the rung. */
export async function begin(setting: Setting, store: Store, { student, at, options }: Asked): Promise<Result<Work>> {
  const isFile = options.course !== undefined && /\.ya?ml$/i.test(options.course);
  const file = isFile ? readCourseText(options.course!, setting.sources) : undefined;
  if (file?.ok === false) return file;
  const journal = await openJournal(store, student, file === undefined ? options.course : file.value.course.name);
  if (!journal.ok) return journal;
  const before = await openKeptCourse(store, journal.value.standing);
  if (file !== undefined) await keepCourse(setting, store, file.value.text);
  else if (!before.ok) return before;
  const course = file?.value.course ?? (before.ok ? before.value : undefined)!;
  const key = { student, curriculum: course.name };
  const taken = await record(store, key, ({ standing: held } = journal.value) =>
    effectOfEdition(course, held!, { at, ...(before.ok ? { before: before.value } : {}) }),
  );
  const { standing } = taken;
  // Takes are asked for here, not a change of edition: it is said beside them.
  if (taken.events.length > 0)
    setting.machine.tell(
      `${plain(student)}  edition changed from ${plain(taken.from)} to ${plain(taken.to)}\n${effectText(taken)}`,
    );
  const drill = drillFor(course, standing, options.drill);
  if (!drill.ok) return drill;
  const mix = options.mix === undefined ? undefined : findMix(drill.value, options.mix);
  if (mix?.ok === false) return mix;
  const rung = rungFor(drill.value, standing, options.rung);
  return rung.ok ? success({ key, course, drill: drill.value, rung: rung.value, standing }) : rung;
}

/** The drill named, or the only one that is open. */
function drillFor(course: Curriculum, standing: Standing, name: string | undefined): Result<Drill> {
  const named = (wanted: string): Drill | undefined => course.drills.find((drill) => drill.name === wanted);
  if (name !== undefined) {
    const names = course.drills.map((drill) => drill.name);
    const nearest = nearestName(name, names);
    const message = `there is no drill "${name}"; the drills are ${names.join(", ")}`;
    const found = named(name);
    return found === undefined
      ? failure(problem("NO_SUCH_DRILL", message, {}, nearest && `write ${nearest}`))
      : success(found);
  }
  const open = standing.drills.filter(({ drill, state }) => state === "open" && named(drill) !== undefined);
  if (open.length === 1) return success(named(open[0]!.drill)!);
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
function playedTo({ drill, rung, options }: Work & { readonly options: SubmissionOptions }) {
  const players = drill.players.map(({ instrument }) => instrument.name);
  return { players, score: scoreOf(rung, options.mix) };
}

interface Submitted extends Work {
  readonly at: string;
  readonly options: SubmissionOptions;
  readonly named: NamedTake;
}

async function submitOne(setting: Setting, store: Store, work: Submitted): Promise<Result<Standing>> {
  const { take, name } = work.named;
  if (!take.ok) {
    if (setting.json) printJson(setting, { take: name, problems: take.problems });
    else tellProblems(setting, take.problems);
    return take;
  }
  const id = take.value.id ?? takeName(name, take.value);
  const { score, finding } = assessed(work, id, take.value);
  const decision = await record(store, work.key, (journal) =>
    decide(work.course, journal?.standing ?? work.standing, finding, work.at),
  );
  const { what, drill, from, to, reason, evidence, opened, events, problems } = decision;
  if (setting.json)
    printJson(setting, {
      take: id,
      finding,
      decision: { what, drill, from, to, reason, evidence, opened },
      events,
      problems,
    });
  else {
    tellProblems(setting, [...problemsIn(take), ...problems]);
    setting.machine.print(findingText(finding, score, setting.machine.colours.print));
    setting.machine.print(decisionText(decision));
  }
  return outcomeOf(problems) === 0 ? success(decision.standing) : { ok: false, problems };
}

/** What a take showed: at the rung it was counted for, if it was counted before, else at the one it was played to. */
function assessed(
  { course, drill, rung, standing, options }: Submitted,
  id: string,
  take: Take,
): { readonly score: Score; readonly finding: ReturnType<typeof assess> } {
  const counted = takeIn(standing, id);
  const home = course.drills.find((each) => each.name === counted?.drill);
  const before = home && counted && findRung(home, counted.rung);
  const played = before?.ok ? before.value : rung;
  const isOther = before?.ok === true && home !== drill;
  const score: Score = {
    curriculum: course.name,
    edition: course.edition,
    ...scoreOf(played, isOther ? undefined : options.mix),
  };
  return { score, finding: { ...assess(score, take), take: id } };
}

function decisionText({ what, reason }: Decision): string {
  return `  ${what}: ${plain(reason)}\n\n`;
}
