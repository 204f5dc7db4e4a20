import { failure, success } from "../../base/index.js";
import { enrol, studentNameProblems } from "../../practice/index.js";
import { digestOf } from "../access/digestOf.js";
import { notThere } from "../access/mayAsk.js";
import { serverProblem } from "../codes.js";
import type { Answer, Call, School } from "../model.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import type { Handlers } from "./handler.js";
import { bodyOf, daysAfter } from "./reading.js";

/** Days that a session and a token are valid; our choices: a term, and a school year. */
const SESSION_DAYS = 120;
const TOKEN_DAYS = 400;

/** Invitations, sessions and tokens: how people are known. */
export const people: Handlers<
  "showInvitation" | "acceptInvitation" | "me" | "signOut" | "tokens" | "addToken" | "removeToken"
> = {
  showInvitation: async ({ school, body, at }) => {
    const { secret } = bodyOf<{ readonly secret: string }>(body);
    const found = await school.register.invitation(digestOf(secret), at);
    const made = found && (await school.register.classCalled(found.className));
    if (found === undefined || made === undefined) return ended(school, secret, at);
    const { name, role, until } = found;
    const course = school.courses.get(made.curriculum)?.title ?? made.curriculum;
    const { consent } = school;
    return success({ content: { class: made.name, course, role, consent, ...(name && { name }), until } });
  },
  acceptInvitation: (call) => accept(call),
  me: async ({ school, person }) => {
    const classes = (await school.register.classesOf(person!.name)).map(({ curriculum, ...rest }) => ({
      ...rest,
      course: curriculum,
    }));
    const { name, role, paused } = person!;
    return success({ content: { name, role, classes, ...(paused && { paused }) } });
  },
  signOut: async ({ school, person, digest }) => {
    await school.register.removeKey(person!.name, digest!);
    return success({ session: { secret: "" } });
  },
  tokens: async ({ school, person, at }) => {
    const keys = await school.register.keysOf(person!.name, at);
    const items = keys.filter(({ kind }) => kind === "token").map(({ digest, until }) => ({ id: idOf(digest), until }));
    return success({ content: { items } });
  },
  addToken: async ({ school, person, at }) => {
    const token = school.secret();
    const until = daysAfter(at, TOKEN_DAYS);
    const digest = digestOf(token);
    await school.register.addKey({ digest, name: person!.name, kind: "token", until });
    return success({ content: { id: idOf(digest), token, until } });
  },
  removeToken: async ({ school, person, at, parameters }) => {
    const keys = await school.register.keysOf(person!.name, at);
    const found = keys.find(({ digest, kind }) => kind === "token" && idOf(digest) === parameters.token);
    if (found === undefined) return notThere();
    await school.register.removeKey(person!.name, found.digest);
    return success({});
  },
};

/** What names a secret in lists: the beginning of its digest, by which nobody gets in. */
export function idOf(digest: string): string {
  return digest.slice(0, 16);
}

async function accept({ school, body, at }: Call): Promise<Result<Answer>> {
  const answer = bodyOf<{ readonly secret: string; readonly as: "session" | "token"; readonly name?: string }>(body);
  const invitation = await school.register.invitation(digestOf(answer.secret), at);
  const made = invitation && (await school.register.classCalled(invitation.className));
  if (invitation === undefined || made === undefined) return ended(school, answer.secret, at);
  const name = answer.name ?? invitation.name;
  if (name === undefined) {
    const message = sayProblem("server-problem.name-not-chosen");
    const remedy = sayProblem("server-problem.name-taken-remedy");
    return failure(serverProblem("NAME_NOT_CHOSEN", message, { pointer: "/name" }, remedy));
  }
  const unusable = nameProblems(name);
  if (!unusable.ok) return unusable;
  const secret = school.secret();
  const until = daysAfter(at, answer.as === "session" ? SESSION_DAYS : TOKEN_DAYS);
  const key = { digest: digestOf(secret), name, kind: answer.as, until };
  const outcome = await school.register.accept(invitation, key, at);
  if (outcome === "gone") return ended(school, answer.secret, at);
  if (outcome === "taken") {
    const message = sayProblem("server-problem.name-taken");
    const remedy = sayProblem("server-problem.name-taken-remedy");
    return failure(serverProblem("NAME_TAKEN", message, { pointer: "/name" }, remedy));
  }
  const { role } = invitation;
  const course = school.courses.get(made.curriculum);
  if (role === "student" && course !== undefined) {
    const enrolled = await enrol(school.store, name, { course, at });
    if (!enrolled.ok) return enrolled;
  }
  return answer.as === "session"
    ? success({ content: { name, role, until }, session: { secret, until } })
    : success({ content: { name, role, until, token: secret } });
}

/** Whether an address can hold a name, and people can see it. Problems: NAME_NOT_ADDRESSABLE, and those of `studentNameProblems`. */
export function nameProblems(name: string): Result<void> {
  // An address leaves out segments of one or two dots, however they are written (WHATWG URL, "single-dot" and "double-dot" segments).
  if (name === "." || name === "..") {
    const message = sayProblem("server-problem.name-not-addressable", { name });
    const remedy = sayProblem("server-problem.name-not-addressable-remedy");
    return failure(serverProblem("NAME_NOT_ADDRESSABLE", message, { pointer: "/name" }, remedy));
  }
  const unusable = studentNameProblems(name);
  return unusable.length > 0 ? failure(...unusable) : success(undefined);
}

/** Why nobody comes in by an invitation. Whoever has its 128 bits had the link, so that nothing is told to strangers. */
async function ended({ register }: School, secret: string, at: string): Promise<Result<never>> {
  const how = (await register.invitationEnd(digestOf(secret), at)) ?? "unknown";
  const message = sayProblem("server-problem.invitation-ended", { how });
  const remedy = sayProblem("server-problem.invitation-ended-remedy", { how });
  return failure(serverProblem(ENDS[how], message, {}, remedy));
}

const ENDS = {
  used: "INVITATION_USED",
  revoked: "INVITATION_REVOKED",
  late: "INVITATION_LATE",
  unknown: "INVITATION_UNKNOWN",
} as const;
