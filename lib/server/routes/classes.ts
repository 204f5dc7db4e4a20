import { failure, success } from "../../base/index.js";
import { reportClass } from "../../practice/index.js";
import type { Person, SchoolClass } from "../../store/index.js";
import { digestOf } from "../access/digestOf.js";
import { notThere } from "../access/mayAsk.js";
import { serverProblem } from "../codes.js";
import { erasedFrom } from "../forgetUnseen.js";
import type { Call, School } from "../model.js";
import { sayProblem } from "../say.js";
import type { Handlers } from "./handler.js";
import { idOf, nameProblems } from "./people.js";
import { bodyOf, daysAfter } from "./reading.js";

/** Classes, who is in them, and how people come in. */
export const classes: Handlers<
  "classes" | "beginClass" | "students" | "removeStudent" | "classReport" | "invitations" | "invite" | "revoke"
> = {
  classes: async ({ school, person }) => {
    const items = (await school.register.classesOf(person!.name)).map(classShown);
    return success({ content: { items } });
  },
  beginClass: async ({ school, person, body }) => {
    const { course, ...rest } = bodyOf<Omit<SchoolClass, "curriculum"> & { readonly course: string }>(body);
    const named = nameProblems(rest.name);
    if (!named.ok) return named;
    if (!school.courses.has(course)) {
      const message = sayProblem("server-problem.course-not-served", { course });
      const remedy = sayProblem("server-problem.course-not-served-remedy", { courses: [...school.courses.keys()] });
      return failure(serverProblem("COURSE_NOT_SERVED", message, { pointer: "/course" }, remedy));
    }
    const made = { ...rest, curriculum: course };
    if (await school.register.beginClass(made, person!.name)) return success({ content: classShown(made) });
    const message = sayProblem("server-problem.class-taken");
    const remedy = sayProblem("server-problem.class-taken-remedy");
    return failure(serverProblem("CLASS_TAKEN", message, { pointer: "/name" }, remedy));
  },
  students: async (call) => {
    const { members, next } = await pageOf(call);
    return success({
      content: { items: members.map((each) => studentShown(call.school, each)), ...(next && { next }) },
    });
  },
  removeStudent: async ({ school, parameters }) => {
    const left = await school.register.leave(parameters.student!, parameters.class!);
    return left ? success({}) : notThere();
  },
  classReport: async (call) => {
    const { school, parameters, at } = call;
    const made = await school.register.classCalled(parameters.class!);
    const { members, next } = await pageOf(call);
    const report = await reportClass(school.store, {
      at,
      students: members.map(({ name }) => name),
      curriculum: made!.curriculum,
      courseOf: async (name, edition) => {
        const course = school.courses.get(name);
        return course?.edition === edition ? course : school.kept.find(name, edition);
      },
    });
    return success({ content: { report, ...(next && { next }) } });
  },
  invitations: async ({ school, parameters, at }) => {
    const items = (await school.register.invitationsTo(parameters.class!, at)).map(({ digest, role, name, until }) => ({
      id: idOf(digest),
      role,
      until,
      ...(name && { name }),
    }));
    return success({ content: { items } });
  },
  invite: async ({ school, parameters, body, at }) => {
    const {
      name,
      role = "student",
      days,
    } = bodyOf<{
      readonly name?: string;
      readonly role?: Person["role"];
      readonly days: number;
    }>(body);
    const named = name === undefined ? success(undefined) : nameProblems(name);
    if (!named.ok) return named;
    const secret = school.secret();
    const until = daysAfter(at, days);
    const digest = digestOf(secret);
    await school.register.invite({ digest, className: parameters.class!, role, until, ...(name && { name }) });
    const made = { id: idOf(digest), role, secret, link: `/class/#/join/${secret}`, until };
    return success({ content: { ...made, ...(name && { name }) } });
  },
  revoke: async ({ school, parameters, at }) => {
    const all = await school.register.invitationsTo(parameters.class!, at);
    const found = all.find(({ digest }) => idOf(digest) === parameters.invitation);
    if (found === undefined) return notThere();
    return (await school.register.revoke(found.className, found.digest)) ? success({}) : notThere();
  },
};

function classShown({
  curriculum,
  ...rest
}: SchoolClass): Omit<SchoolClass, "curriculum"> & { readonly course: string } {
  return { ...rest, course: curriculum };
}

function studentShown({ keepDays }: School, person: Person): object {
  const { name, since, seen, paused, warned } = person;
  const erased = warned === undefined ? {} : { erasedFrom: erasedFrom(person, keepDays).slice(0, 10) };
  return { name, since, seen, ...(paused && { paused }), ...erased };
}

async function pageOf({ school, parameters, query }: Call): Promise<{
  readonly members: readonly Person[];
  readonly next: string | undefined;
}> {
  const { after, limit } = query as { readonly after?: string; readonly limit: number };
  const from = after === undefined ? {} : { after: Buffer.from(after, "base64url").toString() };
  const found = await school.register.membersOf(parameters.class!, { role: "student", limit: limit + 1, ...from });
  const members = found.slice(0, limit);
  const next = found.length > limit ? Buffer.from(members.at(-1)!.name).toString("base64url") : undefined;
  return { members, next };
}
