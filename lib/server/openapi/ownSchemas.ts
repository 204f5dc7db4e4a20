import { INSTRUMENT_FAMILIES } from "../../listen/index.js";
import type { SchemaObject } from "../operations/model.js";

/** Name of a student or teacher, in words for whoever reads the document. */
const name: SchemaObject = {
  type: "string",
  minLength: 1,
  maxLength: 200,
  description: "A name; a pseudonym is enough.",
};
const time: SchemaObject = { type: "string", format: "date-time", description: "RFC 3339." };
const day: SchemaObject = {
  type: "string",
  pattern: "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$(?!\\n)",
  description: "ISO 8601 date.",
  examples: ["2026-09-01"],
};
const secret: SchemaObject = {
  type: "string",
  minLength: 10,
  maxLength: 200,
  description: "What stands behind # in the link.",
};
const role: SchemaObject = { enum: ["teacher", "student"] };
const text = (description: string): SchemaObject => ({ type: "string", description });
const count = (description: string): SchemaObject => ({ type: "integer", minimum: 0, description });
const list = (items: SchemaObject): SchemaObject => ({ type: "array", items });

/** An object with these properties, those of `optional` beside, and no others. */
function record(
  properties: Readonly<Record<string, SchemaObject>>,
  optional: Readonly<Record<string, SchemaObject>> = {},
): SchemaObject {
  return {
    type: "object",
    additionalProperties: false,
    required: Object.keys(properties),
    properties: { ...properties, ...optional },
  };
}

export function ref(schema: string): SchemaObject {
  return { $ref: `#/components/schemas/${schema}` };
}

/** The cursor of an answer in pages. */
const next = text("What to say as `after` for what follows; absent at the end.");

/** A page of a list. */
function pageOf(items: SchemaObject): SchemaObject {
  return record({ items: list(items) }, { next });
}

/** A rung as people are told it. */
const rung = {
  drill: text("Name of the drill."),
  rung: text("Settings of the rung: what a take of it must say."),
  number: { type: "integer", minimum: 1, description: "Number of the rung in the drill." },
  rungs: { type: "integer", minimum: 1, description: "Number of rungs of the drill." },
} satisfies Record<string, SchemaObject>;

/** What is asked and answered beside the documents of leeway, which have schemas of their own. */
export const OWN_SCHEMAS: Readonly<Record<string, SchemaObject>> = {
  Problem: {
    ...record(
      {
        type: { type: "string", format: "uri", description: "Names the cause; nothing can be fetched there." },
        status: { type: "integer", minimum: 400, maximum: 599 },
        detail: text("What is wrong, and what to do where that is known."),
        code: { type: "string", pattern: "^[A-Z][A-Z0-9_]+$(?!\\n)", description: "Stable name of the first cause." },
        problems: { type: "array", minItems: 1, items: ref("ProblemPart") },
      },
      { request: text("Number of the request in the server's log.") },
    ),
    description: "RFC 9457 problem details, with every problem there is.",
  },
  ProblemPart: record(
    {
      code: text("Stable name of the cause."),
      severity: { enum: ["error", "advice"] },
      message: text("One sentence."),
      where: record(
        {},
        {
          file: text("Name of a file."),
          line: { type: "integer", minimum: 1 },
          column: { type: "integer", minimum: 1 },
          pointer: text("RFC 6901 JSON pointer into the body or the query."),
          offset: count("Characters into the text at the pointer."),
        },
      ),
    },
    { remedy: text("What to write or do instead.") },
  ),
  Health: record({ status: { const: "up" } }),
  InvitationSecret: record({ secret }),
  InvitationShown: record(
    {
      class: text("Name of the class."),
      course: text("Title of its course."),
      role,
      consent: text("What the school says is kept, and why."),
    },
    { name, until: time },
  ),
  InvitationAnswer: record({ secret, as: { enum: ["session", "token"] } }, { name }),
  Welcome: record({ name, role }, { token: text("The token, said once and never again."), until: time }),
  Me: record({ name, role, classes: list(ref("Class")) }, { paused: time }),
  TokenList: record({ items: list(record({ id: text("Names the token, and does not open anything."), until: time })) }),
  TokenMade: record({
    id: text("Names the token."),
    token: text("The token, said once and never again."),
    until: time,
  }),
  Course: record({
    name: text("Name of the course."),
    edition: text("Edition in use."),
    title: text("Title for people."),
    drills: list(record({ name: text("Name of the drill."), title: text("Title for people."), rungs: rung.rungs })),
  }),
  CourseList: record({ items: list(ref("Course")) }),
  Class: record({ name: text("Name of the class."), course: text("Name of its course.") }, { from: day, to: day }),
  ClassList: record({ items: list(ref("Class")) }),
  ClassWish: record(
    { name: { type: "string", minLength: 1, maxLength: 200 }, course: text("Name of a course that is served.") },
    { from: day, to: day },
  ),
  Student: record({ name, since: time, seen: time }, { paused: time, erasedFrom: day }),
  StudentPage: pageOf(ref("Student")),
  ClassReport: record({ report: ref("Report") }, { next }),
  InvitationWish: record(
    {},
    { name, role, days: { type: "integer", minimum: 1, maximum: 90, default: 14, description: "Days it is valid." } },
  ),
  InvitationMade: record(
    {
      id: text("Names the invitation, and does not open anything."),
      role,
      secret,
      link: text("The address to hand out, once."),
      until: time,
    },
    { name },
  ),
  InvitationList: record({ items: list(record({ id: text("Names the invitation."), role, until: time }, { name })) }),
  Pause: record({ paused: { type: "boolean" } }),
  Erased: record({
    journals: count("Journals that were erased."),
    events: count("Events that were in them."),
    elsewhere: { ...list({ type: "string" }), description: "Where copies may be that no server reaches, in words." },
  }),
  Decision: record(
    {
      what: { enum: ["advance", "complete", "go back", "hold"] },
      reason: text("Why, in a sentence or two."),
      evidence: { ...list({ type: "string" }), description: "The takes it rests on." },
      opened: { ...list({ type: "string" }), description: "Drills that opened." },
    },
    { drill: rung.drill, from: text("Rung before."), to: text("Rung after.") },
  ),
  TakeAnswer: record(
    { take: text("Id of the take."), decision: ref("Decision") },
    { finding: ref("Finding"), heard: ref("Heard") },
  ),
  Heard: record({
    seconds: { type: "number", minimum: 0, description: "Length of the recording." },
    notes: count("Notes that were heard."),
    family: { enum: INSTRUMENT_FAMILIES, description: "How notes were taken to begin." },
    advice: { ...list(ref("ProblemPart")), description: "What is to be said of the recording." },
  }),
  OpenDrill: record({ ...rung, title: text("Title of the drill.") }),
  Plan: record(
    {
      version: { const: 2 },
      student: name,
      curriculum: text("Name of the course."),
      edition: text("Edition."),
      today: day,
      minutes: { type: "number", description: "Minutes there are." },
      seconds: { type: "number", description: "Seconds of all lines together." },
      lines: list(ref("PlanLine")),
      rest: record({ after: count("Takes."), seconds: { type: "number" } }),
      played: count("Takes since the last short rest."),
      advice: list({ type: "string" }),
      cautions: list({ type: "string" }),
    },
    { outlook: { type: "object" } },
  ),
  PlanLine: {
    oneOf: [ref("PlanPlay"), ref("PlanRest")],
    description: "What to do from second `from` on.",
  },
  PlanRest: record({
    kind: { const: "rest" },
    from: { type: "number" },
    seconds: { type: "number" },
    because: text("Why."),
  }),
  PlanPlay: record(
    {
      kind: { enum: ["warm-up", "new work", "build-up", "preparation", "review"] },
      drill: rung.drill,
      title: text("Title of the drill."),
      rung: rung.rung,
      number: { type: ["integer", "null"], minimum: 1, description: "Number of the rung; null for a preparation." },
      mix: text("The mix to play to."),
      takes: count("Takes at most."),
      chance: { type: "number", minimum: 0, maximum: 1, description: "Chance of a clean take." },
      from: { type: "number" },
      seconds: { type: "number" },
      because: text("Why."),
      follows: list({ type: "string" }),
      steps: { ...list({ type: "object" }), description: "The rungs it may lead to." },
    },
    { goesOn: { const: true } },
  ),
  PlacementWish: record({}, { drill: text("Name of the drill; the only open one when left out."), take: ref("Take") }),
  Placement: record(
    {
      ...rung,
      done: { type: "boolean", description: "Whether the rung is found, on which the student begins then." },
      mix: text("The mix to play to."),
      says: text("How far it has come."),
      tried: list(record({ rung: rung.rung, number: rung.number, verdict: { enum: ["within", "beyond", "unclear"] } })),
    },
    { finding: ref("Finding") },
  ),
  RungWish: record({
    drill: rung.drill,
    rung: text("Settings of the rung, or its number."),
    reason: {
      type: "string",
      minLength: 1,
      maxLength: 2000,
      description: "Why; kept in the journal as the teacher's wish.",
    },
  }),
  EditionEffect: record({
    from: text("Edition before."),
    to: text("Edition after."),
    isAffected: { type: "boolean", description: "Whether anything changes but the number." },
    opened: list({ type: "string" }),
    drills: list(
      record(
        {
          drill: rung.drill,
          outcome: { enum: ["stays", "opens", "moves", "moves back", "withdrawn", "returns", "away"] },
          state: text("State before."),
          stateNow: text("State after."),
          lost: ref("EvidenceShown"),
          regained: ref("EvidenceShown"),
        },
        { now: text("Name after."), rung: text("Rung before."), rungNow: text("Rung after.") },
      ),
    ),
  }),
  EvidenceShown: record({ takes: count("Takes."), credit: list({ type: "string" }) }),
  Merged: record({
    added: count("Events that are new."),
    known: count("Events that were there."),
    problems: list(ref("ProblemPart")),
  }),
};
