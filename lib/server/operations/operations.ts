import { INSTRUMENT_FAMILIES } from "../../listen/index.js";
import { ref } from "../openapi/ownSchemas.js";
import { LISTED, MOST_LISTED, SMALL_BODY, SOUND_BODY, TAKE_BODY } from "./limits.js";
import type { AnswerKind, BodyKind, Operation, SchemaObject, Who } from "./model.js";
import type { OperationId } from "./operationId.js";

const EVERYBODY: Who = ["teacher", "student"];
const TEACHERS: Who = ["teacher"];

const STUDENT = "/api/students/{student}";
const IN_COURSE: string = `${STUDENT}/courses/{course}`;
const CLASS = "/api/classes/{class}";

const PAGING: Readonly<Record<string, SchemaObject>> = {
  after: { type: "string", description: "What the answer before gave as `next`." },
  limit: { type: "integer", minimum: 1, maximum: MOST_LISTED, default: LISTED, description: "Entries at most." },
};

/** What a take says of itself in JSON, for one that comes as a file. */
const FILE_SAYS: Readonly<Record<string, SchemaObject>> = {
  drill: { type: "string", description: "For a file: the drill it was played to." },
  rung: { type: "string", description: "For a file: the settings of the rung it was played to." },
  mix: { type: "string", description: "For a file: the mix it was played to." },
  draw: { type: "string", description: "For a file: the draw of silences it was played to." },
  zero: { enum: ["count-in", "bar-1"], description: "For a MIDI file: what its start is." },
  latencyMs: {
    type: "number",
    minimum: -2000,
    maximum: 2000,
    description: "For a file: known delay, in milliseconds.",
  },
  start: {
    type: "number",
    minimum: 0,
    maximum: 3600,
    description: "For a recording: seconds at which the count-in begins; 0 when left out.",
  },
  family: {
    enum: INSTRUMENT_FAMILIES,
    description: "For a recording: how notes of the instrument begin; by the drill when left out.",
  },
};

export const OPERATIONS: Readonly<Record<OperationId, Operation>> = {
  health: {
    method: "get",
    path: "/health",
    says: "Whether the server and its store are up.",
    who: "anyone",
    answer: json("Health", "Both are up."),
    refusals: [],
  },
  document: {
    method: "get",
    path: "/openapi.json",
    says: "This document.",
    who: "anyone",
    answer: { status: 200, says: "OpenAPI 3.1.", type: "application/json", schema: { type: "object" } },
    refusals: [],
  },
  metrics: {
    method: "get",
    path: "/metrics",
    says: "Counts and times in the text form of OpenMetrics 1.0; no names.",
    who: TEACHERS,
    answer: { status: 200, says: "Metrics.", type: "application/openmetrics-text", schema: { type: "string" } },
    refusals: [],
  },
  showInvitation: {
    method: "post",
    path: "/api/invitations/show",
    says: "What an invitation is to, and what the school keeps; nothing is used up. The secret is in the body, as addresses stand in logs.",
    who: "anyone",
    body: small("InvitationSecret"),
    answer: json("InvitationShown", "The invitation."),
    refusals: [410],
  },
  acceptInvitation: {
    method: "post",
    path: "/api/invitations/accept",
    says: "Uses an invitation up, once the consent note was read: as a session (a cookie) or a token.",
    who: "anyone",
    body: small("InvitationAnswer"),
    answer: { ...json("Welcome", "The person is in the class."), status: 201 },
    refusals: [409, 410],
  },
  me: {
    method: "get",
    path: "/api/me",
    says: "Who the key is of, and their classes.",
    who: EVERYBODY,
    answer: json("Me", "The person."),
    refusals: [],
    whilePaused: true,
  },
  signOut: {
    method: "delete",
    path: "/api/session",
    says: "Ends the key of this request.",
    who: EVERYBODY,
    answer: nothing("The key is not known any more."),
    refusals: [],
    whilePaused: true,
  },
  tokens: {
    method: "get",
    path: "/api/tokens",
    says: "The tokens of whoever asks, without what opens anything.",
    who: EVERYBODY,
    answer: json("TokenList", "The tokens."),
    refusals: [],
  },
  addToken: {
    method: "post",
    path: "/api/tokens",
    says: "Makes a token for an app.",
    who: EVERYBODY,
    answer: { ...json("TokenMade", "The token, said once."), status: 201 },
    refusals: [],
  },
  removeToken: {
    method: "delete",
    path: "/api/tokens/{token}",
    says: "Takes a token back.",
    who: EVERYBODY,
    answer: nothing("The token is not known any more."),
    refusals: [404],
    whilePaused: true,
  },
  courses: {
    method: "get",
    path: "/api/courses",
    says: "The courses that are served, each in its edition in use.",
    who: EVERYBODY,
    answer: json("CourseList", "The courses."),
    refusals: [],
  },
  course: {
    method: "get",
    path: "/api/courses/{course}",
    says: "A course, compiled: what an app plays and judges by.",
    who: EVERYBODY,
    answer: json("CompiledCourse", "The course."),
    refusals: [404],
  },
  edition: {
    method: "get",
    path: "/api/courses/{course}/editions/{edition}",
    says: "A kept edition of a course, compiled.",
    who: EVERYBODY,
    answer: json("CompiledCourse", "The edition."),
    refusals: [404],
  },
  classes: {
    method: "get",
    path: "/api/classes",
    says: "The classes of whoever asks.",
    who: EVERYBODY,
    answer: json("ClassList", "The classes."),
    refusals: [],
  },
  beginClass: {
    method: "post",
    path: "/api/classes",
    says: "Begins a class, which the teacher then teaches.",
    who: TEACHERS,
    body: small("ClassWish"),
    answer: { ...json("Class", "The class."), status: 201 },
    refusals: [409],
  },
  students: {
    method: "get",
    path: `${CLASS}/students`,
    says: "The students of a class, by name, page by page.",
    who: TEACHERS,
    query: PAGING,
    answer: json("StudentPage", "The students."),
    refusals: [],
  },
  removeStudent: {
    method: "delete",
    path: `${CLASS}/students/{student}`,
    says: "Takes a student out of a class; nothing is erased.",
    who: TEACHERS,
    answer: nothing("The student is not in the class any more."),
    refusals: [],
  },
  classReport: {
    method: "get",
    path: `${CLASS}/report`,
    says: "Who is where, who is stuck and on what, and drift by silence, of a class.",
    who: TEACHERS,
    query: PAGING,
    answer: json("ClassReport", "The report of those on the page."),
    refusals: [],
  },
  invitations: {
    method: "get",
    path: `${CLASS}/invitations`,
    says: "Invitations that were not used yet, without what opens anything.",
    who: TEACHERS,
    answer: json("InvitationList", "The invitations."),
    refusals: [],
  },
  invite: {
    method: "post",
    path: `${CLASS}/invitations`,
    says: "Makes an invitation, which can be used once.",
    who: TEACHERS,
    body: small("InvitationWish"),
    answer: { ...json("InvitationMade", "The invitation, its secret said once."), status: 201 },
    refusals: [],
  },
  revoke: {
    method: "delete",
    path: `${CLASS}/invitations/{invitation}`,
    says: "Takes an invitation back.",
    who: TEACHERS,
    answer: nothing("It cannot be used any more."),
    refusals: [],
  },
  pause: {
    method: "put",
    path: `${STUDENT}/pause`,
    says: "Begins or ends a pause: a student who is away. Nothing is taken from them meanwhile, and nothing is lost.",
    who: TEACHERS,
    body: small("Pause"),
    answer: nothing("Done."),
    refusals: [],
  },
  erase: {
    method: "delete",
    path: STUDENT,
    says: "Erases a student with everything kept of them. Students may erase themselves; a teacher must teach all their classes.",
    who: EVERYBODY,
    query: { confirm: { type: "string", description: "The student's name again." } },
    answer: json("Erased", "What was erased, and where copies may be."),
    refusals: [409, 422],
    whilePaused: true,
  },
  standing: {
    method: "get",
    path: `${IN_COURSE}/standing`,
    says: "Where a student stands, in the edition in use.",
    who: EVERYBODY,
    answer: json("Standing", "The standing."),
    refusals: [],
  },
  submit: {
    method: "put",
    path: `${IN_COURSE}/takes/{take}`,
    says: "Assesses a take by the rung it names, keeps what it showed, and decides. The same request gives the same answer, and counts once. A recording is heard and let go.",
    who: EVERYBODY,
    query: FILE_SAYS,
    body: {
      "application/json": { schema: ref("Take"), most: TAKE_BODY },
      "audio/midi": { schema: { type: "string", contentMediaType: "audio/midi" }, most: TAKE_BODY },
      "audio/*": {
        schema: { description: "A recording: WAV, FLAC, MP3 or Ogg Vorbis, told by its content." },
        most: SOUND_BODY,
        isStream: true,
      },
    },
    answer: json("TakeAnswer", "What the take showed, and the decision it led to."),
    refusals: [409],
  },
  plan: {
    method: "get",
    path: `${IN_COURSE}/plan`,
    says: "What to practise in so many minutes, and why.",
    who: EVERYBODY,
    query: {
      minutes: { type: "number", exclusiveMinimum: 0, maximum: 600, description: "Minutes there are." },
      today: { type: "string", description: "ISO 8601 date; the server's day in UTC when left out." },
      seed: {
        type: "string",
        description: "Seed of ties; the day when left out, so that a plan stays the same all day.",
      },
    },
    answer: json("Plan", "The plan."),
    refusals: [422],
  },
  place: {
    method: "post",
    path: `${IN_COURSE}/placement`,
    says: "Finds where a new student begins in a drill: says what to play; takes the take of it; in the end puts them there.",
    who: EVERYBODY,
    body: { "application/json": { schema: ref("PlacementWish"), most: TAKE_BODY } },
    answer: json("Placement", "What to play next, or where the student begins."),
    refusals: [409],
  },
  report: {
    method: "get",
    path: `${IN_COURSE}/report`,
    says: "Where the student is, on what they are stuck, and how they drift.",
    who: EVERYBODY,
    answer: json("Report", "The report."),
    refusals: [],
  },
  journal: {
    method: "get",
    path: `${IN_COURSE}/journal`,
    says: "The student's journal as JSON Lines, one event a line.",
    who: EVERYBODY,
    answer: { status: 200, says: "The journal.", type: "application/jsonl", schema: { type: "string" } },
    refusals: [],
  },
  mergeJournal: {
    method: "post",
    path: `${IN_COURSE}/journal`,
    says: "Adds events that were written elsewhere, such as a student's device; for teachers, as events are evidence.",
    who: TEACHERS,
    body: { "application/jsonl": { schema: { type: "string" }, most: TAKE_BODY } },
    answer: json("Merged", "What was added, known and refused."),
    refusals: [],
  },
  setRung: {
    method: "post",
    path: `${IN_COURSE}/rung`,
    says: "Puts a student on a rung, as a teacher's wish: never evidence.",
    who: TEACHERS,
    body: small("RungWish"),
    answer: json("Standing", "The standing."),
    refusals: [412],
    matches: true,
  },
  foreseeEdition: {
    method: "get",
    path: `${IN_COURSE}/edition`,
    says: "What the edition in use would mean for a student; nothing is written.",
    who: TEACHERS,
    answer: json("EditionEffect", "The effect."),
    refusals: [],
  },
  takeOver: {
    method: "post",
    path: `${IN_COURSE}/edition`,
    says: "Takes a student over to the edition in use.",
    who: TEACHERS,
    answer: json("EditionEffect", "The effect."),
    refusals: [412],
    matches: true,
  },
};

function json(schema: string, says: string): AnswerKind {
  return { status: 200, says, type: "application/json", schema: ref(schema) };
}

function nothing(says: string): AnswerKind {
  return { status: 204, says };
}

function small(schema: string): Readonly<Record<string, BodyKind>> {
  return { "application/json": { schema: ref(schema), most: SMALL_BODY } };
}
