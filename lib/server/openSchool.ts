import { randomBytes } from "node:crypto";
import type { Curriculum } from "../curriculum/index.js";
import { keptCourses } from "../practice/index.js";
import type { Store } from "../store/index.js";
import { digestOf } from "./access/digestOf.js";
import { type Hearing, type HearingOptions, openHearing } from "./hearing/openHearing.js";
import type { Limits, School } from "./model.js";
import { daysAfter } from "./routes/reading.js";

export interface SchoolOptions {
  /** In SQLite or PostgreSQL: others have no register of people. The texts of the courses must be kept in it. */
  readonly store: Store;
  /** Each course in its edition in use. */
  readonly courses: readonly Curriculum[];
  /** What is said before an invitation is accepted. */
  readonly consent: string;
  readonly now?: () => Date;
  readonly limits?: Partial<Limits>;
  /** Days without any sign of a student after which they are erased; 730 when left out. */
  readonly keepDays?: number;
  /** How many recordings are heard at once, and how many may wait; or who else hears them (`openHearingQueue`). */
  readonly hearing?: HearingOptions | Hearing;
}

/** Requests in a minute; our choice: a page asks some ten at once, a term of takes that waited comes in minutes. */
const PER_MINUTE = 600;
/** Milliseconds for an answer; our choice: plans of long histories take seconds on small machines. */
const PATIENCE = 30_000;
/** Milliseconds for an answer to a recording; our choice: as long as it may come in, wait and be heard. */
const HEARING_PATIENCE = 240_000;
/** Days a student is kept without any sign of them; our choice: two school years. */
const KEEP_DAYS = 730;
/** Days of the invitation by which the first teacher comes in. */
const FIRST_DAYS = 7;

/**
 * A school in a store, as `schoolHandler` and `serveSchool` take it. The texts of its courses must be kept in the store (`store.keepCourse`) for students to go over from one edition to
 * the next. Throws `RangeError` for a store without a register.
 *
 * @example
 * openSchool({ store: school, courses: [course], consent: "Kept: the name you choose." }).keepDays // 730
 */
export function openSchool({
  store,
  courses,
  consent,
  now,
  limits,
  hearing,
  keepDays = KEEP_DAYS,
}: SchoolOptions): School {
  if (store.register === undefined)
    throw new RangeError("a school needs a store with a register: SQLite or PostgreSQL");
  return {
    store,
    register: store.register,
    courses: new Map(courses.map((course) => [course.name, course])),
    kept: keptCourses(store),
    consent,
    now: now ?? (() => new Date()),
    secret: () => randomBytes(16).toString("base64url"),
    limits: { perMinute: PER_MINUTE, patience: PATIENCE, hearingPatience: HEARING_PATIENCE, ...limits },
    hearing: hearing !== undefined && "hear" in hearing ? hearing : openHearing(hearing),
    keepDays,
  };
}

/**
 * The secret of an invitation for the first teacher, into a class of the first course, valid for a week; `undefined` where there is a teacher. It stands behind
 * `/class/#/join/` in the link, or in the body of `POST /api/invitations/accept`. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const opened = openSchool({ store: school, courses: [course], consent: "Kept: the name you choose." });
 * (await inviteFirstTeacher(opened))?.length // 22
 */
export async function inviteFirstTeacher(school: School): Promise<string | undefined> {
  const { register, courses } = school;
  const [first] = courses.values();
  if (first === undefined || (await register.hasTeacher())) return undefined;
  const at = school.now().toISOString();
  const secret = school.secret();
  await register.beginClass({ name: first.title, curriculum: first.name });
  const invitation = { className: first.title, role: "teacher", until: daysAfter(at, FIRST_DAYS) } as const;
  await register.invite({ ...invitation, digest: digestOf(secret) });
  return secret;
}
