/** A student on this device, and how they play. */
export interface Student {
  readonly name: string;
  /** Name of the course. */
  readonly course: string;
  /** The instrument the sheet is for, or concert pitch. */
  readonly reader: string;
  readonly hears: "headphones" | "speakers";
  readonly input: "microphone" | "taps" | "midi";
}

interface Kept {
  readonly now?: string;
  readonly students: readonly Student[];
}

const PLACE = "leeway.students";

/** Where small things are kept when the browser keeps nothing. */
const held = new Map<string, string>();

/** What was kept under a name on this device; `undefined` when there is nothing that can be read. */
export function recall<Value>(place: string, within: Storage | undefined = storage("localStorage")): Value | undefined {
  try {
    return JSON.parse(within?.getItem(place) ?? held.get(place) ?? "") as Value;
  } catch {
    return undefined;
  }
}

/** Keeps a value under a name, for this visit only where the browser refuses more. */
export function keep(place: string, value: unknown, within: Storage | undefined = storage("localStorage")): void {
  held.set(place, JSON.stringify(value));
  try {
    within?.setItem(place, JSON.stringify(value));
  } catch {
    // Full, or refused: it is held for this visit.
  }
}

/** A browser may refuse even to be asked. */
export function storage(kind: "localStorage" | "sessionStorage"): Storage | undefined {
  try {
    return globalThis[kind];
  } catch {
    return undefined;
  }
}

export function students(): readonly Student[] {
  return kept().students;
}

/** The student who plays now. */
export function currentStudent(): Student | undefined {
  const { now, students: all } = kept();
  return all.find(({ name }) => name === now);
}

/** Keeps how a student plays, and makes them the one who plays now. */
export function choose(student: Student): void {
  const others = students().filter(({ name }) => name !== student.name);
  keep(PLACE, { now: student.name, students: [...others, student] } satisfies Kept);
}

/** Forgets how a student plays; their journal is the store's. */
export function forget(name: string): void {
  keep(PLACE, { students: students().filter((each) => each.name !== name) } satisfies Kept);
}

function kept(): Kept {
  const found = recall<Partial<Kept>>(PLACE);
  return { ...found, students: Array.isArray(found?.students) ? found.students : [] };
}
