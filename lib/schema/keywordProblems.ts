import { nearestName, type Problem, problemsOf } from "../base/index.js";
import { schemaCodes } from "./codes.js";
import { exampleOf, oneOf, placeWords, shown, typeWords } from "./messageText.js";
import { pointerTo } from "./pointer.js";
import type { SchemaPiece, Violation } from "./violation.js";

const problem = problemsOf(schemaCodes);

/** Makes the problem for one JSON Schema keyword, from the complaint, the piece of schema it is from, and the place in words. */
type Rule = (violation: Violation, piece: SchemaPiece, place: string) => Problem;

const asks: Rule = (violation, piece, place) => {
  const wanted = piece["x-choices"] === undefined ? typeWords(piece.type ?? []) : choiceWords(piece["x-choices"]);
  return problem(
    "WRONG_TYPE",
    `${place} must be ${wanted}, found ${shown(violation.data)}`,
    at(violation),
    suggestion(piece),
  );
};

const unknownKey: Rule = (violation, piece) => {
  const key = String(violation.params.additionalProperty ?? violation.params.unevaluatedProperty);
  const known = Object.keys(piece.properties ?? {});
  const nearest = nearestName(key, known);
  const keys = known.length === 0 ? "no keys stand here" : `the keys here are ${known.join(", ")}`;
  return problem(
    "UNKNOWN_KEY",
    `${holderWords(piece, violation.instancePath)} has no key ${shown(key)}; ${keys}`,
    { pointer: violation.instancePath + pointerTo([key]) },
    nearest === undefined ? `leave ${key} out` : `write ${nearest}`,
  );
};

const missingKey: Rule = (violation, piece) => {
  const key = String(violation.params.missingProperty);
  const meant = piece.properties?.[key];
  const example = exampleOf(meant);
  return problem(
    "MISSING_KEY",
    `${holderWords(piece, violation.instancePath)} needs the key ${key}${firstMeaningOf(meant)}, which is missing`,
    at(violation),
    example === undefined ? `add ${key}` : `add for instance ${key}: ${example}`,
  );
};

const listed: Rule = (violation, piece, place) => {
  if (isOtherVersion(violation)) {
    const [code, remedy] =
      Number(violation.data) > Number(piece.const)
        ? (["FORMAT_VERSION_UNKNOWN", "use a newer leeway"] as const)
        : (["FORMAT_VERSION_FORMER", "make it anew from its journal; journals of former versions are read"] as const);
    const message = `the version of the document's format must be ${shown(piece.const)}, found ${shown(violation.data)}`;
    return problem(code, message, at(violation), remedy);
  }
  const allowed = (piece.enum ?? [piece.const]).map((value) => (typeof value === "string" ? value : shown(value)));
  const nearest = typeof violation.data === "string" ? nearestName(violation.data, allowed) : undefined;
  return problem(
    "NOT_ONE_OF",
    `${place} must be ${oneOf(allowed)}, found ${shown(violation.data)}`,
    at(violation),
    `write ${nearest ?? oneOf(allowed)}`,
  );
};

const form: Rule = (violation, piece, place) => {
  return problem(
    "TEXT_FORM",
    `${place} is not written as it has to be${meaningOf(piece)}, found ${shown(violation.data)}`,
    at(violation),
    suggestion(piece),
  );
};

const range: Rule = (violation, piece, place) => {
  const { comparison, limit, multipleOf } = violation.params;
  const required =
    multipleOf === undefined
      ? `${BOUND_WORDS[String(comparison)] ?? comparison} ${limit}`
      : `a multiple of ${multipleOf}`;
  return problem(
    "NUMBER_OUT_OF_RANGE",
    `${place} must be ${required}, found ${shown(violation.data)}`,
    at(violation),
    suggestion(piece),
  );
};

const size =
  (code: "TOO_MANY" | "TOO_FEW" | "TEXT_LENGTH"): Rule =>
  (violation, piece, place) => {
    const bound = violation.keyword.startsWith("max") || violation.keyword === "items" ? "at most" : "at least";
    const limit = Number(violation.params.limit);
    const [one, many] = violation.keyword.endsWith("Length")
      ? ["character", "characters"]
      : violation.keyword.endsWith("Properties")
        ? ["key", "keys"]
        : ["entry", "entries"];
    const found = violation.data as string | readonly unknown[] | object;
    const count =
      typeof found === "string" ? [...found].length : Array.isArray(found) ? found.length : Object.keys(found).length;
    return problem(
      code,
      `${place} must have ${bound} ${limit} ${limit === 1 ? one : many}, found ${count}`,
      at(violation),
      bound === "at most" ? shorten(count - limit, [one, many]) : (suggestion(piece) ?? `add ${limit - count} more`),
    );
  };

function shorten(by: number, [one, many]: readonly string[]): string {
  return `take ${by} ${by === 1 ? one : many} out`;
}

const name: Rule = (violation, _piece, place) => {
  const key = String(violation.params.propertyName);
  const rule = (violation.schema as SchemaPiece | undefined)?.description;
  return problem(
    "NAME_FORM",
    `${shown(key)} cannot be a name in ${place}${rule === undefined ? "" : `: ${sentence(rule)}`}`,
    { pointer: violation.instancePath + pointerTo([key]) },
    "use letters, digits, blanks and hyphens",
  );
};

const shape: Rule = (violation, piece, place) => {
  const choices = piece["x-choices"];
  if (choices === undefined)
    return problem("KEYS_TOGETHER", `${place} has keys that exclude each other${meaningOf(piece)}`, at(violation));
  const tag = piece["x-tag"];
  const remedy = tag === undefined ? suggestion(piece) : `choose with the key ${tag}`;
  return problem(
    "NO_SUCH_FORM",
    `${place} must be ${choiceWords(choices)}, found ${shown(violation.data)}${keysFound(violation.data)}`,
    at(violation),
    remedy,
  );
};

const repeated: Rule = (violation, _piece, place) =>
  problem(
    "REPEATED_ITEM",
    `entries ${Number(violation.params.j) + 1} and ${Number(violation.params.i) + 1} of ${place} are the same; each may stand once`,
    at(violation),
  );

const dependent: Rule = (violation, _piece, place) =>
  problem(
    "KEYS_TOGETHER",
    `${place} has the key ${violation.params.property} and so must have ${violation.params.missingProperty} as well, which is missing`,
    at(violation),
    `add ${violation.params.missingProperty}`,
  );

const anyOther: Rule = (violation, piece, place) =>
  problem(
    "NO_SUCH_FORM",
    `${place} does not fit${meaningOf(piece)}, found ${shown(violation.data)}`,
    at(violation),
    suggestion(piece),
  );

const RULES: Readonly<Record<string, Rule>> = {
  additionalProperties: unknownKey,
  anyOf: shape,
  const: listed,
  dependentRequired: dependent,
  enum: listed,
  exclusiveMaximum: range,
  exclusiveMinimum: range,
  format: form,
  items: size("TOO_MANY"),
  maximum: range,
  maxItems: size("TOO_MANY"),
  maxLength: size("TEXT_LENGTH"),
  maxProperties: size("TOO_MANY"),
  minimum: range,
  minItems: size("TOO_FEW"),
  minLength: size("TEXT_LENGTH"),
  minProperties: size("TOO_FEW"),
  multipleOf: range,
  not: shape,
  oneOf: shape,
  pattern: form,
  propertyNames: name,
  required: missingKey,
  type: asks,
  unevaluatedProperties: unknownKey,
  uniqueItems: repeated,
};

const BOUND_WORDS: Readonly<Record<string, string>> = {
  "<": "less than",
  "<=": "at most",
  ">": "more than",
  ">=": "at least",
};

/** The problem for one complaint of a validator. */
export function problemFrom(violation: Violation): Problem {
  const piece = violation.parentSchema ?? {};
  return (RULES[violation.keyword] ?? anyOther)(violation, piece, placeWords(violation.instancePath));
}

/** Whether a complaint says that the whole document is of another version of its format. */
export function isOtherVersion({ instancePath, keyword, data, parentSchema }: Violation): boolean {
  const known = parentSchema?.const;
  return (
    keyword === "const" &&
    instancePath === "/version" &&
    typeof known === "number" &&
    Number.isInteger(data) &&
    (data as number) >= 1
  );
}

function at(violation: Violation): Problem["where"] {
  return { pointer: violation.instancePath };
}

function suggestion(piece: SchemaPiece): string | undefined {
  const example = exampleOf(piece);
  return example === undefined ? undefined : `write for instance ${example}`;
}

function choiceWords(choices: readonly SchemaPiece[]): string {
  const words = choices.map((choice) => {
    if (choice.required !== undefined) return `keys with ${choice.required.join(" and ")}`;
    const example = choice.examples === undefined ? undefined : exampleOf(choice);
    return `${typeWords(choice.type ?? "value")}${example === undefined ? "" : ` such as ${example}`}`;
  });
  return oneOf([...new Set(words)]);
}

function keysFound(data: unknown): string {
  if (data === null || typeof data !== "object" || Array.isArray(data)) return "";
  const keys = Object.keys(data);
  return keys.length === 0 ? " (none)" : ` (${keys.slice(0, 8).join(", ")})`;
}

/** The description of a piece in brackets, with a blank before it; empty without one. */
function meaningOf(piece: SchemaPiece | undefined): string {
  return piece?.description === undefined ? "" : ` (${sentence(piece.description)})`;
}

/** The first sentence of a description in brackets: the rest of it is for documentation. */
function firstMeaningOf(piece: SchemaPiece | undefined): string {
  return piece?.description === undefined ? "" : ` (${sentence(piece.description).split(/\.\s/, 1)[0]!})`;
}

/** What holds a key, for people: "a drill", "a course"; the place where the schema has no name for it. */
function holderWords({ title }: SchemaPiece, pointer: string): string {
  if (title === undefined || pointer === "") return placeWords(pointer);
  const noun = title
    .replace(/Document$/, "")
    .replaceAll(/(?<=[a-z])(?=[A-Z])/g, " ")
    .toLowerCase();
  return `${/^[aeiou]/.test(noun) ? "an" : "a"} ${noun}`;
}

/** A description without its full stop, for use inside a sentence. */
function sentence(description: string): string {
  return description.replace(/\.$/, "");
}
