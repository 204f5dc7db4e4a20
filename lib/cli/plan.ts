import { planCalendar } from "../plan/calendar/index.js";
import { type Deadline, type Plan, planSession, planText } from "../plan/index.js";
import { DONE, MISUSE, type Outcome, printJson, refuse, type Setting } from "./outcome.js";
import { plain } from "./plain.js";
import { type PlanSource, sourceInFiles, sourceInStore } from "./planSource.js";
import { type StoreOptions, withStore } from "./storePlace.js";

export interface PlanOptions extends StoreOptions {
  readonly minutes: number;
  /** A course file, or the name of a course the student is in. */
  readonly course?: string;
  /** A journal file, instead of a store. */
  readonly journal?: string;
  readonly today?: string;
  readonly seed: string;
  /** Per cent. */
  readonly aim?: number;
  readonly takingTurns?: true;
  readonly readyBy?: string;
  readonly drill?: string;
  readonly daysAWeek?: number;
  /** Time of day at which the session begins: answers with a calendar file. */
  readonly calendar?: string;
}

const CLOCK = /^([01]\d|2[0-3]):[0-5]\d$/;

/** `leeway plan STUDENT --minutes M`: what to practise in so many minutes, from a store or from a journal file with its course. */
export function planOut(setting: Setting, student: string, options: PlanOptions): Promise<Outcome> | Outcome {
  const { calendar, journal, course } = options;
  if (calendar !== undefined && !CLOCK.test(calendar))
    return misuse(setting, `--calendar must be a time of day such as 17:30, got ${plain(calendar)}`);
  if (journal === undefined)
    return withStore(setting, { ...options, create: false }, async (store) => {
      const source = await sourceInStore(setting, store, { student, course });
      return source.ok ? planFrom(setting, source.value, options) : refuse(setting, source.problems);
    });
  if (course === undefined) return misuse(setting, "--journal needs --course with the file of the course");
  const source = sourceInFiles(setting, student, { course, journal });
  return source.ok ? planFrom(setting, source.value, options) : refuse(setting, source.problems);
}

function planFrom(setting: Setting, source: PlanSource, options: PlanOptions): Outcome {
  const now = setting.machine.now();
  const plan = planSession({
    ...source,
    today: options.today ?? now.slice(0, 10),
    minutes: options.minutes,
    seed: options.seed,
    ...(options.aim === undefined ? {} : { target: options.aim / 100 }),
    ...(options.takingTurns === undefined ? {} : { order: "taking turns" as const }),
    ...(options.readyBy === undefined ? {} : { deadline: deadlineOf(options.readyBy, options) }),
  });
  if (!plan.ok) return refuse(setting, plan.problems);
  answer(setting, plan.value, options.calendar);
  return DONE;
}

function deadlineOf(on: string, { drill, daysAWeek }: PlanOptions): Deadline {
  return { on, ...(drill === undefined ? {} : { drill }), ...(daysAWeek === undefined ? {} : { daysAWeek }) };
}

/** As a calendar file when one is wanted and there is anything to put in it, as JSON, or as text. */
function answer(setting: Setting, plan: Plan, start: string | undefined): void {
  const { machine } = setting;
  if (start !== undefined && plan.lines.length > 0) machine.print(planCalendar(plan, { start, now: machine.now() }));
  else if (setting.json) printJson(setting, plan);
  else machine.print(planText(plan).split("\n").map(plain).join("\n"));
}

function misuse({ machine }: Setting, message: string): Outcome {
  machine.tell(`leeway: ${message}\n`);
  return MISUSE;
}
