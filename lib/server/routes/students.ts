import { failure, success } from "../../base/index.js";
import { type CourseInUse, openStudent, planFor, reportOf, takeOver } from "../../practice/index.js";
import { changeEdition, type EditionEffect, effectOfEdition, placeByTeacher } from "../../progress/index.js";
import type { Standing } from "../../schema/index.js";
import { exportJournals, importJournals, type ReadLine, record } from "../../store/index.js";
import { notThere } from "../access/mayAsk.js";
import { toldOutside } from "../answer/problemAnswer.js";
import { withoutMessages } from "../answer/withoutMessages.js";
import { serverProblem } from "../codes.js";
import type { Answer, Call } from "../model.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import type { Handlers } from "./handler.js";
import { bodyOf, inUse, requireMatch, useOf } from "./reading.js";

/** One student: where they are, what is next, what is kept, and what a teacher changes. */
export const students: Handlers<
  | "pause"
  | "erase"
  | "standing"
  | "plan"
  | "report"
  | "journal"
  | "mergeJournal"
  | "setRung"
  | "foreseeEdition"
  | "takeOver"
> = {
  pause: async ({ school, parameters, body, at }) => {
    const { paused } = bodyOf<{ readonly paused: boolean }>(body);
    await school.register.pause(parameters.student!, paused ? at : undefined);
    return success({});
  },
  erase: (call) => erase(call),
  standing: async (call) => {
    const open = await inUse(call, (use) => openStudent(call.school.store, call.parameters.student!, use));
    return open.ok ? success({ content: open.value.standing }) : open;
  },
  plan: async (call) => {
    const day = call.at.slice(0, 10);
    const {
      minutes = 20,
      today = day,
      seed = today,
    } = call.query as {
      readonly minutes?: number;
      readonly today?: string;
      readonly seed?: string;
    };
    const plan = await inUse(call, (use) =>
      planFor(call.school.store, call.parameters.student!, { ...use, today, minutes, seed }),
    );
    return plan.ok ? success({ content: withoutMessages(plan.value) }) : plan;
  },
  report: async ({ school, parameters, at }) => {
    const reported = await reportOf(school.store, {
      at,
      students: [parameters.student!],
      curriculum: parameters.course!,
      courseOf: school.kept.find,
    });
    return reported.ok ? success({ content: reported.value.report }) : notThere();
  },
  journal: async ({ school, parameters }) => {
    const { student, course } = parameters;
    return success({ lines: exportJournals(school.store, { student: student!, curriculum: course! }) });
  },
  mergeJournal: async (call) => {
    const { student, course } = call.parameters;
    const lines = linesOf(call).filter(({ value }) => isOf(value, student!, course!));
    const others = linesOf(call).length - lines.length;
    if (others > 0) return notThere();
    const { added, known, problems } = await importJournals(call.school.store, lines);
    return success({ content: { added, known, problems: problems.map(toldOutside) } });
  },
  setRung: (call) => setRung(call),
  foreseeEdition: async (call) => {
    const { school, parameters, at } = call;
    const use = await useOf(call);
    if (!use.ok) return use;
    const { course } = use.value;
    const journal = await school.store.open({ student: parameters.student!, curriculum: course.name });
    if (journal?.standing === undefined) return notThere();
    const options = { at, ...beforeOf(use.value, journal.standing) };
    return success({ content: effectShown(effectOfEdition(course, journal.standing, options)) });
  },
  takeOver: async (call) => {
    const { school, parameters, at } = call;
    const use = await useOf(call);
    if (!use.ok) return use;
    const open = await openStudent(school.store, parameters.student!, use.value);
    const matched = open.ok ? requireMatch(call, open.value.standing) : open;
    if (!matched.ok) return matched;
    const taken = await takeOver(school.store, parameters.student!, { ...use.value, at });
    return taken.ok ? success({ content: effectShown(taken.value) }) : taken;
  },
};

async function erase({ school, person, parameters, query }: Call): Promise<Result<Answer>> {
  const student = parameters.student!;
  if (query.confirm !== student) {
    const message = sayProblem("server-problem.erasing-not-confirmed");
    const remedy = sayProblem("server-problem.erasing-not-confirmed-remedy");
    return failure(serverProblem("ERASING_NOT_CONFIRMED", message, { pointer: "/confirm" }, remedy));
  }
  const own = new Set((await school.register.classesOf(person!.name)).map(({ name }) => name));
  const theirs = await school.register.classesOf(student);
  if (theirs.some(({ name }) => !own.has(name))) {
    const message = sayProblem("server-problem.student-in-other-class");
    const remedy = sayProblem("server-problem.student-in-other-class-remedy");
    return failure(serverProblem("STUDENT_IN_OTHER_CLASS", message, {}, remedy));
  }
  const { journals, events, elsewhere } = await school.store.erase(student);
  return success({
    content: { journals, events, elsewhere: [...elsewhere, "journals that the student's devices keep"] },
  });
}

async function setRung(call: Call): Promise<Result<Answer>> {
  const { school, parameters, person, at } = call;
  const use = await useOf(call);
  if (!use.ok) return use;
  const { course, before } = use.value;
  const { drill, rung, reason } = bodyOf<{ readonly drill: string; readonly rung: string; readonly reason: string }>(
    call.body,
  );
  const key = { student: parameters.student!, curriculum: course.name };
  const { result } = await record(school.store, key, (journal) => {
    if (journal?.standing === undefined) return { events: [], result: notThere() };
    // Another process has taken them to another edition since they were looked up.
    if (![course, before].some((each) => each?.edition === journal.standing?.edition))
      return { events: [], result: requireMatch({ ...call, ifMatch: "" }, journal.standing) as Result<Answer> };
    const changed = changeEdition(course, journal.standing, { at, ...beforeOf(use.value, journal.standing) });
    const matched = requireMatch(call, changed.standing);
    if (!matched.ok) return { events: [], result: matched };
    const wish = { drill, rung, at, teacher: person!.name, because: reason };
    const placed = placeByTeacher(course, changed.standing, wish);
    if (!placed.ok) return { events: [], result: placed };
    const events = [...changed.events, ...placed.value.events];
    return { events, result: success<Answer>({ content: placed.value.standing }) };
  });
  return result;
}

function linesOf({ body }: Call): readonly ReadLine[] {
  if (body === undefined || !("bytes" in body)) throw new TypeError("a journal is bytes");
  return new TextDecoder()
    .decode(body.bytes)
    .split("\n")
    .flatMap((text, i) => (text.trim() === "" ? [] : [{ value: jsonIn(text), line: i + 1 }]));
}

/** The value of a line; what is no JSON is no event, and is told so by its line. */
function jsonIn(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Whether a line is not an event of somebody else. */
function isOf(value: unknown, student: string, curriculum: string): boolean {
  if (value === null || typeof value !== "object") return true;
  const said = value as { readonly student?: unknown; readonly curriculum?: unknown };
  return (said.student ?? student) === student && (said.curriculum ?? curriculum) === curriculum;
}

/** The edition of a standing, where it is the one that was in use before. */
function beforeOf({ before }: CourseInUse, { edition }: Standing): Pick<CourseInUse, "before"> {
  return before?.edition === edition ? { before } : {};
}

function effectShown({ from, to, isAffected, opened, drills }: EditionEffect): object {
  return { from, to, isAffected, opened, drills };
}
