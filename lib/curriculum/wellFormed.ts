import type { Problem } from "../base/index.js";
import { type CurriculumDocument, checkCurriculum, pathOf } from "../schema/index.js";

/** Keys of a curriculum whose entries are checked one by one. An ill-formed entry does not hide the problems of the others. */
const SECTIONS = ["scales", "instruments", "patterns", "drills"] as const;

/** Value of a required key that is missing. */
const STAND_IN = "stand-in";

/**
 * The well-formed part of a value: the entries that fit the schema of curricula, with the schema's problems of the whole value. A
 * section without any well-formed entry is empty.
 */
export function wellFormedPart(value: unknown): {
  readonly document: CurriculumDocument;
  readonly problems: readonly Problem[];
} {
  const whole = checkCurriculum(value);
  if (whole.ok) return { document: whole.value, problems: whole.advice };
  // Of a later version nothing is judged.
  if (whole.problems.some(({ code }) => code === "FORMAT_VERSION_UNKNOWN"))
    return { document: NOTHING, problems: whole.problems };
  const broken = new Set(
    whole.problems.map((each) =>
      pathOf(each.where.pointer ?? "")
        .slice(0, 2)
        .join("/"),
    ),
  );
  const given = isKeyed(value) ? value : {};
  const wellFormedEntries = (section: string): Record<string, unknown> => {
    const entries = Object.hasOwn(given, section) ? given[section] : undefined;
    if (!isKeyed(entries)) return {};
    // The pointer of a problem names the entry, also for an entry too many or a name that is not allowed.
    return Object.fromEntries(Object.entries(entries).filter(([name]) => !broken.has(entryPath(section, name))));
  };
  const sections = Object.fromEntries(SECTIONS.map((section) => [section, wellFormedEntries(section)]));
  const players = [...broken].some((path) => /^players(\/|$)/.test(path)) ? [] : given.players;
  const tuning = broken.has("tuning") || given.tuning === undefined ? {} : { tuning: given.tuning };
  const standIn = freeName({ ...sections.patterns, ...sections.drills });
  const again = checkCurriculum({
    curriculum: STAND_IN,
    edition: "0.0.0",
    title: STAND_IN,
    players: players ?? [],
    ...tuning,
    scales: sections.scales,
    instruments: sections.instruments,
    patterns: { ...sections.patterns, [standIn]: { meter: "4/4", bars: 1, parts: { [STAND_IN]: {} } } },
    drills: { ...sections.drills, [standIn]: { pattern: STAND_IN, student: STAND_IN, tolerance: {} } },
  });
  if (!again.ok) return { document: NOTHING, problems: whole.problems };
  const { patterns, drills, ...rest } = again.value;
  return {
    document: { ...rest, patterns: withoutEntry(patterns, standIn), drills: withoutEntry(drills, standIn) },
    problems: whole.problems,
  };
}

const NOTHING: CurriculumDocument = {
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

function freeName(taken: object): string {
  let name = STAND_IN;
  while (Object.hasOwn(taken, name)) name += "'";
  return name;
}

function withoutEntry<T>(entries: Readonly<Record<string, T>>, left: string): Readonly<Record<string, T>> {
  return Object.fromEntries(Object.entries(entries).filter(([name]) => name !== left));
}

function entryPath(section: string, name: string): string {
  return `${section}/${name}`;
}
