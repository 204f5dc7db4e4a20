import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { ROOT } from "../sources.js";
import { cell, code, formOf, type Piece } from "./valueForm.js";

/** All schemas by the names of their documents. Each reference names its file. */
const SCHEMAS: ReadonlyMap<string, Piece> = new Map(
  readdirSync(join(ROOT, "schemas"))
    .filter((file) => file.endsWith(".schema.json"))
    .map((file) => [
      file.replace(".schema.json", ""),
      JSON.parse(readFileSync(join(ROOT, "schemas", file), "utf8"), (key, value) =>
        key === "$ref" && value.startsWith("#") ? `${file}${value}` : value,
      ),
    ]),
);

/** All but that of a course, whose keys the authoring guide describes. */
export const FORMATS: ReadonlyMap<string, Piece> = new Map([...SCHEMAS].filter(([name]) => name !== "curriculum"));

/** A piece of a schema that has keys of its own. */
export interface Place {
  readonly format: string;
  /** JSON pointer from the schema's root; "" is the document. */
  readonly pointer: string;
  readonly piece: Piece;
}

export interface FormatKey {
  readonly place: Place;
  readonly name: string;
  /** The schema of its value, references followed. */
  readonly value: Piece;
  readonly isRequired: boolean;
}

/** A piece with what it refers to, which may stand in another file; its own words come first. */
function followed(piece: Piece): Piece {
  if (typeof piece.$ref !== "string") return piece;
  const [file, pointer] = piece.$ref.split("#") as [string, string];
  const target = pointer
    .split("/")
    .slice(1)
    .reduce((at, step) => at[step] as Piece, SCHEMAS.get(basename(file, ".schema.json")) as Piece);
  const { $ref: _, ...own } = piece;
  return { ...followed(target), ...own };
}

const NO_PIECES = new Set(["examples", "default", "enum", "const", "required"]);

function placesIn(piece: unknown, format: string, pointer: string): readonly Place[] {
  if (piece === null || typeof piece !== "object") return [];
  const own = "properties" in piece && !pointer.endsWith("/properties");
  return [
    ...(own ? [{ format, pointer, piece: piece as Piece }] : []),
    ...Object.entries(piece)
      .filter(([key]) => !NO_PIECES.has(key))
      .flatMap(([key, inside]) => placesIn(inside, format, `${pointer}/${key}`)),
  ];
}

/** All places of all formats that have keys, in the order of the schemas. */
export const PLACES: readonly Place[] = [...FORMATS].flatMap(([format, schema]) => placesIn(schema, format, ""));

export function keysOf(place: Place): readonly FormatKey[] {
  const required = (place.piece.required ?? []) as readonly string[];
  return Object.entries(place.piece.properties as Readonly<Record<string, Piece>>).map(([name, given]) => ({
    ...{ place, name, isRequired: required.includes(name) },
    value: followed(given),
  }));
}

/** Stands for a text of which the schema gives no example. */
const ANY_TEXT = "any text";

/** A value that a piece of a schema takes: its own example, or the smallest made of the examples of its parts. */
function exampleOf(given: Piece): unknown {
  const piece = followed(given);
  const stated = [...((piece.examples ?? []) as readonly unknown[]), ...((piece.enum ?? []) as readonly unknown[])];
  if ("const" in piece) return piece.const;
  if (stated.length > 0) return stated[0];
  if (Array.isArray(piece.oneOf)) return exampleOf(piece.oneOf[0] as Piece);
  if (Array.isArray(piece.prefixItems)) return piece.prefixItems.map((each) => exampleOf(each as Piece));
  if (piece.type === "array") {
    const count = Math.max(1, (piece.minItems as number | undefined) ?? 0);
    return Array.from({ length: count }, () => exampleOf((piece.items ?? {}) as Piece));
  }
  if (piece.type === "object") return smallest(piece);
  if (piece.type === "boolean") return true;
  if (piece.type === "number" || piece.type === "integer") return (piece.minimum as number | undefined) ?? 1;
  return ANY_TEXT;
}

function smallest(piece: Piece): Piece {
  const properties = (piece.properties ?? {}) as Readonly<Record<string, Piece>>;
  const required = (piece.required ?? []) as readonly string[];
  return Object.fromEntries(required.map((name) => [name, exampleOf(properties[name]!)]));
}

/** The smallest value of a place that has this key. */
export function withKey({ place, name, value }: FormatKey): Piece {
  return { ...smallest(place.piece), [name]: exampleOf(value) };
}

/** Longest example that stands in a table, characters. */
const LONGEST = 90;

/** What a place is called: the keys that lead to it, and its kind where it is one of several. */
function titleOf({ format, pointer, piece }: Place): string {
  const steps = pointer.split("/").filter((step) => !/^(?:\$defs|properties|items|oneOf|\d*)$/.test(step));
  const { kind } = piece.properties as { readonly kind?: Piece };
  return `${format}: ${steps.map(code).join(", ")}${kind?.const === undefined ? "" : ` (${kind.const})`}`;
}

function rowOf({ name, value, isRequired }: FormatKey): string {
  const stated = JSON.stringify(exampleOf(value));
  const form = formOf(value, followed);
  const unit = /^unit: (.*)$/.exec(String(value.$comment ?? ""))?.[1];
  const cells = [
    code(name),
    cell(unit === undefined ? form : `${form} (${unit})`),
    isRequired ? "always" : "",
    stated.length > LONGEST || stated.includes(ANY_TEXT) ? "" : code(stated),
    cell(String(value.description)),
  ];
  return `| ${cells.join(" | ")} |`;
}

/** All keys of all formats as Markdown: a section for each format, a table for each place. */
export function formatTables(): string {
  return [...FORMATS]
    .flatMap(([format, schema]) => [
      `## ${format}`,
      String(schema.description),
      ...PLACES.filter((place) => place.format === format).flatMap((place) => [
        ...(place.pointer === "" ? [] : [`### ${titleOf(place)}`, String(place.piece.description ?? "")]),
        ["| key | form | there | example | meaning |", "|---|---|---|---|---|", ...keysOf(place).map(rowOf)].join("\n"),
      ]),
    ])
    .filter((block) => block !== "")
    .join("\n\n");
}
