import { pathOf } from "./pointer.js";
import type { SchemaPiece } from "./violation.js";

/** Name of a JSON type in messages. */
const TYPE_WORDS: Readonly<Record<string, string>> = {
  array: "a list",
  boolean: "true or false",
  integer: "a whole number",
  null: "null",
  number: "a number",
  object: "keys with values",
  string: "text",
};

/** Characters of a found value that a message quotes: our choice, because a longer quotation hides the message. */
const QUOTED = 60;

/** "a number", "text or a list". */
export function typeWords(types: string | readonly string[]): string {
  return oneOf([types].flat().map((type) => TYPE_WORDS[type as string] ?? String(type)));
}

/** "a", "a or b", "a, b or c". */
export function oneOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

/** A value as a message shows it: as JSON, cut to 60 characters, without the contents of lists and objects. */
export function shown(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value)) return String(value);
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : "a list";
  if (value !== null && typeof value === "object") return "keys with values";
  const text = JSON.stringify(value) ?? String(value);
  return text.length > QUOTED ? `${text.slice(0, QUOTED)}…` : text;
}

/** The place of a JSON pointer in words: `tempo`, `entry 3 of onsets`, `the document`. */
export function placeWords(pointer: string): string {
  const path = pathOf(pointer);
  const last = path.at(-1);
  if (last === undefined) return "the document";
  if (!/^\d+$/.test(last)) return last;
  return path.length === 1 ? `entry ${Number(last) + 1}` : `entry ${Number(last) + 1} of ${path.at(-2)}`;
}

/** The first example of a piece of schema, as a remedy quotes it; `undefined` without one, or when it is too long. */
export function exampleOf(piece: SchemaPiece | undefined): string | undefined {
  const example = piece?.examples?.[0] ?? piece?.["x-choices"]?.find((choice) => choice.examples)?.examples?.[0];
  if (example === undefined) return undefined;
  const isCourse = piece?.title?.endsWith("Document") === true;
  const text = typeof example === "string" ? example : isCourse ? flowText(example) : JSON.stringify(example);
  return text.length > 2 * QUOTED ? undefined : text;
}

/** A value as a teacher writes it on a line of YAML: `{ clean: 3, of: 4 }`. Its texts have no signs that YAML reads. */
function flowText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flowText).join(", ")}]`;
  if (value === null || typeof value !== "object") return String(value);
  return `{ ${Object.entries(value)
    .map(([key, inner]) => `${key}: ${flowText(inner)}`)
    .join(", ")} }`;
}
