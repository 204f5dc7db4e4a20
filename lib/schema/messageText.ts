import type { MessageText, Phrase } from "../base/index.js";
import { pathOf } from "./pointer.js";
import { say } from "./say.js";
import type { SchemaPiece } from "./violation.js";

/** The JSON types that messages have words for. */
const TYPES = ["array", "boolean", "integer", "null", "number", "object", "string"] as const;

/** Characters of a found value that a message quotes: our choice, because a longer quotation hides the message. */
const QUOTED = 60;

/** The kinds of value that a type allows, one for each: "a number", "text"; with an example: "text such as 1/2 bar". */
export function kindsOf(types: string | readonly string[] | undefined, example?: string): readonly Phrase[] {
  return [types ?? "value"].flat().map((written) => {
    const type = TYPES.find((known) => known === written) ?? "value";
    return example === undefined
      ? say("schema-problem.kind", { type }).message
      : say("schema-problem.kind-such-as", { type, example }).message;
  });
}

/** A value as a message shows it: as JSON, cut to 60 characters, without the contents of lists and objects. */
export function shown(value: unknown): MessageText {
  if (Array.isArray(value))
    return say(value.length === 0 ? "schema-problem.empty-list-found" : "schema-problem.list-found").message;
  if (value !== null && typeof value === "object") return say("schema-problem.keys-found").message;
  return quoted(value);
}

/** A value that is no list and has no keys, or the value of a constant, as JSON cut to 60 characters. */
export function quoted(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value)) return String(value);
  const text = JSON.stringify(value) ?? String(value);
  return text.length > QUOTED ? `${text.slice(0, QUOTED)}…` : text;
}

/** The place of a JSON pointer: `tempo`, "entry 3 of onsets", "the document". */
export function placeAt(pointer: string): MessageText {
  const path = pathOf(pointer);
  const last = path.at(-1);
  if (last === undefined) return say("schema-problem.document").message;
  if (!/^\d+$/.test(last)) return last;
  const number = Number(last) + 1;
  return path.length === 1
    ? say("schema-problem.entry", { number }).message
    : say("schema-problem.entry-of", { number, list: path.at(-2)! }).message;
}

/** The first example of a piece of schema, as a remedy quotes it: the validators have examples as text. `undefined` without one. */
export function exampleOf(piece: SchemaPiece | undefined): string | undefined {
  return piece?.examples?.[0] ?? piece?.["x-choices"]?.find((choice) => choice.examples)?.examples?.[0];
}
