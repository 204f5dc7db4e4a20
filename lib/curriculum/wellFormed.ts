import type { Problem } from "../base/index.js";
import { type CurriculumDocument, checkCurriculum, pathOf } from "../schema/index.js";

/** Keys of a curriculum whose entries stand on their own: a broken one does not hide the problems of the others. */
const SECTIONS = ["instruments", "patterns", "drills"] as const;

/** For what has to be there and is not. */
const STAND_IN = "stand-in";

/**
 * The part of a value that is shaped as a curriculum has to be, with the schema's problems with the whole; empty sections when
 * nothing in them is sound.
 */
export function soundPart(value: unknown): {
  readonly document: CurriculumDocument;
  readonly problems: readonly Problem[];
} {
  const whole = checkCurriculum(value);
  if (whole.ok) return { document: whole.value, problems: whole.advice };
  const broken = new Set(
    whole.problems.map((each) =>
      pathOf(each.where.pointer ?? "")
        .slice(0, 2)
        .join("/"),
    ),
  );
  const given = isKeyed(value) ? value : {};
  const sound = (section: string): Record<string, unknown> => {
    const entries = Object.hasOwn(given, section) ? given[section] : undefined;
    if (!isKeyed(entries)) return {};
    // One entry too many, or a name that cannot be one, is told apart by the pointer.
    return Object.fromEntries(Object.entries(entries).filter(([name]) => !broken.has(pathKey(section, name))));
  };
  const sections = Object.fromEntries(SECTIONS.map((section) => [section, sound(section)]));
  const players = [...broken].some((path) => /^players(\/|$)/.test(path)) ? [] : given.players;
  const standIn = unusedName({ ...sections.patterns, ...sections.drills });
  const again = checkCurriculum({
    curriculum: STAND_IN,
    edition: "0.0.0",
    title: STAND_IN,
    players: players ?? [],
    instruments: sections.instruments,
    patterns: { ...sections.patterns, [standIn]: { meter: "4/4", bars: 1, parts: { [STAND_IN]: {} } } },
    drills: { ...sections.drills, [standIn]: { pattern: STAND_IN, student: STAND_IN, tolerance: {} } },
  });
  if (!again.ok) return { document: NOTHING, problems: whole.problems };
  const { patterns, drills, ...rest } = again.value;
  return {
    document: { ...rest, patterns: without(patterns, standIn), drills: without(drills, standIn) },
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

/** Whether a value is keys with values. */
export function isKeyed(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function unusedName(taken: object): string {
  let name = STAND_IN;
  while (Object.hasOwn(taken, name)) name += "'";
  return name;
}

function without<T>(entries: Readonly<Record<string, T>>, left: string): Readonly<Record<string, T>> {
  return Object.fromEntries(Object.entries(entries).filter(([name]) => name !== left));
}

function pathKey(section: string, name: string): string {
  return `${section}/${name}`;
}
