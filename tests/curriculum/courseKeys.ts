import { readFileSync } from "node:fs";
import { join } from "node:path";
import { stringify } from "yaml";
import { cell, code, formOf, type Piece } from "../schema/valueForm.js";
import { ROOT } from "../sources.js";

const SCHEMA = JSON.parse(readFileSync(join(ROOT, "schemas", "curriculum.schema.json"), "utf8")) as Piece;
const DEFINITIONS = SCHEMA.$defs as Readonly<Record<string, Piece>>;

/** What the places are called in which keys stand, in the order of the page: all pieces of the schema that have keys. */
export const PLACES: Readonly<Record<string, string>> = {
  "": "The course",
  instrument: "An instrument of your own, under `instruments`",
  playerInOctave: "A player, in the list `players`",
  pattern: "A pattern, under `patterns`",
  patternFiles: "Patterns from other files, under `patterns`",
  meterChange: "A change of meter, in the list `meter-changes`",
  part: "A part, under `parts`",
  variant: "A variant of a part, under `variants`",
  recordedFile: "One of several recordings, under `recordings`",
  drill: "A drill, under `drills`",
  countIn: "The count-in, under `count-in`",
  dropout: "The silences, under `dropout`",
  growth: "Silences that grow, under `grows` of the dropout",
  partsGrowth: "Parts that leave one by one, under `parts` of the dropout",
  open: "Open bars, under `open`",
  ladder: "A ladder, in the list `ladders`",
  spanSteps: "Lengths that climb, under `dropout` or `grows` of a ladder",
  tempoSteps: "Tempi that climb, under `tempo` of a ladder",
  tolerance: "The limits, under `tolerance`",
  gate: "The gate, under `gate`",
  sequential: "A gate by a test, under `sequential`",
  "go-back": "The way back, under `go-back`",
};

export interface CourseKey {
  /** Which piece of the schema it belongs to; "" the course itself. */
  readonly place: string;
  readonly name: string;
  readonly form: string;
  readonly isRequired: boolean;
  readonly byDefault: unknown;
  readonly examples: readonly unknown[];
  readonly meaning: string;
}

const definitionOf = (piece: Piece): Piece =>
  typeof piece.$ref === "string" ? { ...DEFINITIONS[piece.$ref.split("/").at(-1)!], ...piece } : piece;

function keysIn(place: string, piece: Piece): readonly CourseKey[] {
  return Object.entries((piece.properties ?? {}) as Readonly<Record<string, Piece>>).map(([name, given]) => {
    const property = definitionOf(given);
    const within = (property.oneOf ?? []) as readonly Piece[];
    const choices = (property.enum ?? ("const" in property ? [property.const] : [])) as readonly unknown[];
    return {
      place,
      name,
      form: formOf(property, definitionOf),
      isRequired: ((piece.required ?? []) as readonly string[]).includes(name),
      byDefault: property.default,
      examples: [
        ...((property.examples ?? []) as readonly unknown[]),
        ...within.flatMap((each) => (definitionOf(each).examples ?? []) as readonly unknown[]),
        ...choices,
      ],
      meaning: property.description as string,
    };
  });
}

/** Every key of a course that has a name of its own, place by place. */
export const COURSE_KEYS: readonly CourseKey[] = [
  ...keysIn("", SCHEMA),
  ...Object.entries(DEFINITIONS).flatMap(([place, piece]) => keysIn(place, piece)),
];

export const placesWithKeys: readonly string[] = [...new Set(COURSE_KEYS.map(({ place }) => place))];

/** The keys that hold when a key of this place is left out, in the order of the schema. */
const keysOf = (place: string): readonly CourseKey[] => COURSE_KEYS.filter((key) => key.place === place);

/** A value as it is written in a course, in one line. */
export const written = (value: unknown): string =>
  stringify(value, { collectionStyle: "flow", lineWidth: 0, flowCollectionPadding: true }).trim();

/** One table for each place, as Markdown; `seen` says where a key is at work. */
export function keyTables(seen: (key: CourseKey) => string): string {
  const sections = Object.entries(PLACES).map(([place, title]) => {
    const keys = keysOf(place);
    if (place === "variant") {
      const missing = keysOf("part").filter(({ name }) => !keys.some((key) => key.name === name));
      const all = keys.map(({ name }) => `\`${name}\``).join(", ");
      const not = missing.map(({ name }) => `\`${name}\``).join(", ");
      return `### ${title}\n\nIt has these keys of a part, with the same meaning: ${all}. It has not: ${not}.`;
    }
    const rows = keys.map((key) => {
      const byDefault = key.isRequired ? "must be there" : key.byDefault === undefined ? "" : written(key.byDefault);
      return [
        code(key.name),
        cell(key.form),
        key.isRequired ? byDefault : code(byDefault),
        code(written(key.examples[0])),
        cell(`${key.meaning}${seen(key)}`),
      ];
    });
    const lines = rows.map((row) => `| ${row.join(" | ")} |`);
    return [`### ${title}`, "", "| key | form | when left out | example | meaning |", "|---|---|---|---|---|", ...lines]
      .join("\n")
      .trim();
  });
  return sections.join("\n\n");
}

/** Which keys a course uses: `place.key`. */
export function keysUsedIn(course: unknown): ReadonlySet<string> {
  const used = new Set<string>();
  look("", SCHEMA, course, used);
  return used;
}

function look(place: string, given: Piece, value: unknown, used: Set<string>): void {
  const name = typeof given.$ref === "string" ? given.$ref.split("/").at(-1)! : place;
  const piece = definitionOf(given);
  for (const branch of (piece.oneOf ?? []) as readonly Piece[])
    if (definitionOf(branch).type === kindOf(value)) look(name, branch, value, used);
  if (Array.isArray(value)) for (const each of value) look(name, (piece.items ?? {}) as Piece, each, used);
  if (kindOf(value) !== "object") return;
  const properties = (piece.properties ?? {}) as Readonly<Record<string, Piece>>;
  for (const [key, inside] of Object.entries(value as Piece)) {
    if (properties[key] !== undefined) used.add(`${name}.${key}`);
    look(name, properties[key] ?? ((piece.additionalProperties || {}) as Piece), inside, used);
  }
}

const kindOf = (value: unknown): string =>
  Array.isArray(value) ? "array" : value === null ? "null" : typeof value === "object" ? "object" : typeof value;
