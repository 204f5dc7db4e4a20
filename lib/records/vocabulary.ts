import type { LanguageMap } from "./model.js";

/** Verbs of the ADL vocabulary (identifiers from memory, those of attempted, passed and completed also in the specification's examples). */
export const VERBS: Readonly<Record<"attempted" | "passed" | "completed", Verb>> = {
  attempted: verb("attempted"),
  passed: verb("passed"),
  completed: verb("completed"),
};

interface Verb {
  readonly id: string;
  readonly display: LanguageMap;
}

/** Types of activities: of a course from the ADL vocabulary (from memory), of drill and rung our own. */
export const TYPES = {
  course: "http://adlnet.gov/expapi/activities/course",
  drill: "https://leeway.example/xapi/activities/drill",
  rung: "https://leeway.example/xapi/activities/rung",
} as const;

/** Beginning of the IRIs of our own extensions. */
const EXTENSIONS = "https://leeway.example/xapi/extensions/";

/** Extensions: values under IRIs of our own, `driftMs` as `.../drift-ms`. Undefined values are left out. */
export function extensions(values: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const named = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(named.map(([name, value]) => [EXTENSIONS + name.replace(/[A-Z]/g, dashed), value]));
}

function dashed(letter: string): string {
  return `-${letter.toLowerCase()}`;
}

function verb(word: string): Verb {
  return { id: `http://adlnet.gov/expapi/verbs/${word}`, display: { en: word } };
}
