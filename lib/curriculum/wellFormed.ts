import { type CurriculumDocument, checkCurriculum, type PatternDocument, pathOf, pointerTo } from "../schema/index.js";
import type { Problem } from "./problem.js";

/** Value of a required key that is missing at the top of a course, and the name of an entry that a section must have. */
const STAND_IN = "stand-in";

/** Most rounds of taking out what does not fit. Our choice: what is taken out can leave its holder without a key it needs, and that one level at a time. */
const MOST_ROUNDS = 8;

/** A course with its patterns, wherever they are from. */
export type WholeDocument = Omit<CurriculumDocument, "patterns"> & {
  readonly patterns: Readonly<Record<string, PatternDocument>>;
};

/** What of a course fits the schema, and what was taken out of it. */
export interface WellFormedPart {
  readonly document: WholeDocument;
  /** The schema's problems of the whole value. */
  readonly problems: readonly Problem[];
  /** JSON pointers of what does not fit: unknown keys, and values of which nothing can be judged. */
  readonly removed: readonly { readonly pointer: string; readonly isUnknownKey: boolean }[];
}

/**
 * The part of a value that fits the schema of curricula: what does not is taken out, as little of it as possible, so that an ill-formed line does
 * not hide the problems of its neighbours. A section without any well-formed entry is empty.
 */
export function wellFormedPart(value: unknown): WellFormedPart {
  const whole = checkCurriculum(value);
  if (whole.ok) return { document: withPatterns(whole.value), problems: whole.advice, removed: [] };
  const nothing = { document: NOTHING, problems: whole.problems, removed: [] };
  // Of a later version nothing is judged.
  if (!isKeyed(value) || whole.problems.some(({ code }) => code === "FORMAT_VERSION_UNKNOWN")) return nothing;
  const left = withStandIns(value);
  const removed: { pointer: string; isUnknownKey: boolean }[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const again = checkCurriculum(left.course);
    if (again.ok) {
      const { patterns, drills, ...rest } = withPatterns(again.value);
      const document = {
        ...rest,
        patterns: withoutEntry(patterns, left.standIn),
        drills: withoutEntry(drills, left.standIn),
      };
      return { document, problems: whole.problems, removed };
    }
    const pointers = new Map(
      again.problems.map(({ code, where }) => [holderOf(where.pointer ?? ""), code === "UNKNOWN_KEY"] as const),
    );
    if (pointers.has("")) return nothing;
    for (const [pointer, isUnknownKey] of pointers) {
      removeAt(left.course, pathOf(pointer));
      removed.push({ pointer, isUnknownKey });
    }
  }
  return nothing;
}

/** What the files of a course are, is put in place of their names before; a name that is left stands for nothing. */
function withPatterns({ patterns, ...rest }: CurriculumDocument): WholeDocument {
  const isWritten = (written: CurriculumDocument["patterns"]): written is WholeDocument["patterns"] =>
    !(typeof written.file === "string" || Array.isArray(written.file));
  return { ...rest, patterns: isWritten(patterns) ? patterns : {} };
}

const NOTHING: WholeDocument = {
  curriculum: STAND_IN,
  edition: "0.0.0",
  title: STAND_IN,
  patterns: {},
  drills: {},
};

/** Whether a value is a mapping of keys to values. */
export function isKeyed(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A copy of a course that has all its sections and head, with one entry in those that must not be empty. */
function withStandIns(value: Readonly<Record<string, unknown>>): {
  readonly course: Record<string, unknown>;
  readonly standIn: string;
} {
  const course = copyOf(value) as Record<string, unknown>;
  const section = (name: string): Record<string, unknown> =>
    Object.hasOwn(course, name) && isKeyed(course[name]) ? (course[name] as Record<string, unknown>) : {};
  const [patterns, drills] = [section("patterns"), section("drills")];
  const standIn = freeName({ ...patterns, ...drills });
  Object.assign(course, { curriculum: STAND_IN, edition: "0.0.0", title: STAND_IN });
  delete course.about;
  course.patterns = { ...patterns, [standIn]: { meter: "4/4", bars: 1, parts: { [STAND_IN]: {} } } };
  course.drills = { ...drills, [standIn]: { pattern: STAND_IN, student: STAND_IN, tolerance: {} } };
  return { course, standIn };
}

/** The place to take out: a list as a whole, because the places of its entries would shift. */
function holderOf(pointer: string): string {
  const path = pathOf(pointer);
  const first = NAMED.has(path[0] ?? "") ? 2 : 1;
  const entry = path.findIndex((key, i) => i >= first && /^\d+$/.test(key));
  return entry < 0 ? pointer : pointerTo(path.slice(0, entry));
}

/** Sections whose entries have names, which may be numbers. */
const NAMED: ReadonlySet<string> = new Set(["scales", "instruments", "patterns", "drills"]);

function removeAt(course: Record<string, unknown>, path: readonly string[]): void {
  let holder: unknown = course;
  for (const key of path.slice(0, -1)) holder = isKeyed(holder) ? holder[key] : undefined;
  if (isKeyed(holder)) delete (holder as Record<string, unknown>)[path.at(-1) ?? ""];
}

function copyOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(copyOf);
  if (!isKeyed(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, copyOf(each)]));
}

function freeName(taken: object): string {
  let name = STAND_IN;
  while (Object.hasOwn(taken, name)) name += "'";
  return name;
}

function withoutEntry<T>(entries: Readonly<Record<string, T>>, left: string): Readonly<Record<string, T>> {
  return Object.fromEntries(Object.entries(entries).filter(([name]) => name !== left));
}
