import { type MessageText, nearestName, type Phrase, problemsOf, type Worded } from "../base/index.js";
import { schemaCodes } from "./codes.js";
import { holderAt } from "./holder.js";
import { exampleOf, kindsOf, placeAt, quoted, shown } from "./messageText.js";
import { pointerTo } from "./pointer.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import type { SchemaPiece, Violation } from "./violation.js";

const problem = problemsOf(schemaCodes);

/** Makes the problem for one JSON Schema keyword, from the complaint, the piece of schema it is from, and the place. */
type Rule = (violation: Violation, piece: SchemaPiece, place: MessageText) => Problem;

const asks: Rule = (violation, piece, place) => {
  const wanted = piece["x-choices"] === undefined ? kindsOf(piece.type ?? []) : choicesOf(piece["x-choices"]);
  return problem(
    "WRONG_TYPE",
    mustBe(place, wanted, shown(violation.data)),
    at(violation),
    meantBy(violation.data, piece),
  );
};

const unknownKey: Rule = (violation, piece) => {
  const key = String(violation.params.additionalProperty ?? violation.params.unevaluatedProperty);
  const keys = Object.keys(piece.properties ?? {});
  const meantKey = nearestName(key, keys) ?? withBlank(key, keys);
  const given = { holder: holderAt(piece, violation.instancePath), key: quoted(key) };
  const message =
    keys.length === 0
      ? say("schema-problem.unknown-key-none", given)
      : say("schema-problem.unknown-key", { ...given, keys });
  return problem(
    "UNKNOWN_KEY",
    message,
    { pointer: violation.instancePath + pointerTo([key]) },
    meantKey === undefined ? say("schema-problem.leave-out", { key }) : say("schema-problem.write", { text: meantKey }),
  );
};

/** A key with its value where the blank after its colon was forgotten, which YAML takes for a key alone: "landing:120 ms". */
function withBlank(key: string, keys: readonly string[]): string | undefined {
  const [, name, value] = /^([\w-]+):(\S.*)$/.exec(key) ?? [];
  const nearest = name === undefined ? undefined : nearestName(name, keys);
  return nearest === undefined ? undefined : `${nearest}: ${value}`;
}

const missingKey: Rule = (violation, piece) => {
  const key = String(violation.params.missingProperty);
  const meant = piece.properties?.[key];
  const example = exampleOf(meant);
  return problem(
    "MISSING_KEY",
    say("schema-problem.missing-key", { holder: holderAt(piece, violation.instancePath), key }),
    at(violation),
    example === undefined
      ? say("schema-problem.add", { key })
      : say("schema-problem.missing-key-remedy", { key, example }),
  );
};

const listed: Rule = (violation, piece, place) => {
  if (isOtherVersion(violation)) {
    const code = Number(violation.data) > Number(piece.const) ? "FORMAT_VERSION_UNKNOWN" : "FORMAT_VERSION_FORMER";
    const message = say("schema-problem.format-version", { known: quoted(piece.const), found: quoted(violation.data) });
    return problem(code, message, at(violation), say(`schema-problem.${VERSION_REMEDIES[code]}`));
  }
  const allowed = (piece.enum ?? [piece.const]).map((value) => (typeof value === "string" ? value : quoted(value)));
  const nearest = typeof violation.data === "string" ? nearestName(violation.data, allowed) : undefined;
  const found = shown(violation.data);
  const [others, last] = [allowed.slice(0, -1), allowed.at(-1)!];
  const message =
    others.length === 0
      ? say("schema-problem.not-one-of", { place, only: last, found })
      : say("schema-problem.not-one-of-several", { place, others, last, found });
  const remedy =
    nearest === undefined && others.length > 0
      ? say("schema-problem.write-either", { others, last })
      : say("schema-problem.write", { text: nearest ?? last });
  return problem("NOT_ONE_OF", message, at(violation), remedy);
};

const VERSION_REMEDIES = {
  FORMAT_VERSION_UNKNOWN: "format-version-unknown-remedy",
  FORMAT_VERSION_FORMER: "format-version-former-remedy",
} as const;

const form: Rule = (violation, piece, place) => {
  const message = say("schema-problem.text-form", { place, found: shown(violation.data) });
  return problem("TEXT_FORM", message, at(violation), suggestion(piece));
};

const range: Rule = (violation, piece, place) => {
  const { comparison, limit, multipleOf } = violation.params;
  const message = say("schema-problem.number-out-of-range", {
    place,
    bound: multipleOf === undefined ? BOUNDS[comparison as keyof typeof BOUNDS] : "multiple",
    limit: String(multipleOf ?? limit),
    found: shown(violation.data),
  });
  return problem("NUMBER_OUT_OF_RANGE", message, at(violation), suggestion(piece));
};

/** The signs by which a validator says what a number must be. */
const BOUNDS = { "<": "below", "<=": "most", ">": "above", ">=": "least" } as const;

const size =
  (code: "TOO_MANY" | "TOO_FEW" | "TEXT_LENGTH"): Rule =>
  (violation, piece, place) => {
    const { keyword, data } = violation;
    const isMost = keyword.startsWith("max") || keyword === "items";
    const limit = Number(violation.params.limit);
    const unit = keyword.endsWith("Length") ? "character" : keyword.endsWith("Properties") ? "key" : "entry";
    const found = typeof data === "string" ? [...data].length : Object.keys(data as object).length;
    const given = { place, unit, limit, found } as const;
    return isMost
      ? problem(
          code,
          say("schema-problem.too-many", given),
          at(violation),
          say("schema-problem.too-many-remedy", { unit, more: found - limit }),
        )
      : problem(
          code,
          say("schema-problem.too-few", given),
          at(violation),
          suggestion(piece) ?? say("schema-problem.too-few-remedy", { more: limit - found }),
        );
  };

const name: Rule = (violation, _piece, place) => {
  const key = String(violation.params.propertyName);
  const message = say("schema-problem.name-form", { name: quoted(key), place });
  const where = { pointer: violation.instancePath + pointerTo([key]) };
  const takesCapitals = violation.parentSchema?.propertyNames?.pattern?.includes("A-Z") ?? true;
  const letters = takesCapitals ? "any" : "small";
  return problem("NAME_FORM", message, where, say("schema-problem.name-form-remedy", { letters }));
};

const shape: Rule = (violation, piece, place) => {
  const choices = piece["x-choices"];
  if (choices === undefined)
    return problem("KEYS_TOGETHER", say("schema-problem.keys-apart", { place }), at(violation));
  const tag = piece["x-tag"];
  const remedy = tag === undefined ? suggestion(piece) : say("schema-problem.choose-with-key", { key: tag });
  return problem("NO_SUCH_FORM", mustBe(place, choicesOf(choices), keysShown(violation.data)), at(violation), remedy);
};

const repeated: Rule = (violation, _piece, place) => {
  const [first, second] = [Number(violation.params.j) + 1, Number(violation.params.i) + 1];
  return problem("REPEATED_ITEM", say("schema-problem.repeated-item", { first, second, place }), at(violation));
};

const dependent: Rule = (violation, _piece, place) => {
  const [key, missing] = [String(violation.params.property), String(violation.params.missingProperty)];
  const message = say("schema-problem.keys-together", { place, key, missing });
  return problem("KEYS_TOGETHER", message, at(violation), say("schema-problem.add", { key: missing }));
};

const anyOther: Rule = (violation, piece, place) => {
  const message = say("schema-problem.no-such-form", { place, found: shown(violation.data) });
  return problem("NO_SUCH_FORM", message, at(violation), suggestion(piece));
};

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

/** The problem for one complaint of a validator. */
export function problemFrom(violation: Violation): Problem {
  const piece = violation.parentSchema ?? {};
  return (RULES[violation.keyword] ?? anyOther)(violation, piece, placeAt(violation.instancePath));
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

function suggestion(piece: SchemaPiece): Worded | undefined {
  const example = exampleOf(piece);
  return example === undefined ? undefined : say("schema-problem.write-for-instance", { example });
}

/** What a value of the wrong kind was meant for: the number in a text ("84 bpm"), a number with the unit of the example (120 for "60 ms"); else an example. */
function meantBy(data: unknown, piece: SchemaPiece): Worded | undefined {
  const types = [piece.type ?? []].flat();
  if (typeof data === "string" && (types.includes("number") || types.includes("integer"))) {
    const numbers = data.match(/\d+(?:\.\d+)?/g) ?? [];
    if (numbers.length === 1) return say("schema-problem.write", { text: numbers[0]! });
  }
  const unit = /^\d+ ([a-z]+|%)$/.exec(exampleOf(piece) ?? "")?.[1];
  if (typeof data === "number" && types.includes("string") && unit !== undefined && data > 0) {
    const text = `${data} ${unit}${unit === "bar" && data > 1 ? "s" : ""}`;
    return say("schema-problem.write", { text });
  }
  return suggestion(piece);
}

/** Says of a place that it must be one of these kinds. */
function mustBe(place: MessageText, wanted: readonly Phrase[], found: MessageText): Worded {
  return wanted.length < 2
    ? say("schema-problem.must-be", { place, wanted, found })
    : say("schema-problem.must-be-either", { place, others: wanted.slice(0, -1), last: wanted.at(-1)!, found });
}

/** The forms in which something can be written, each once. */
function choicesOf(choices: readonly SchemaPiece[]): readonly Phrase[] {
  const phrases = choices.flatMap(({ required, ...choice }) => {
    if (required === undefined) return kindsOf(choice.type, choice.examples && exampleOf(choice));
    const [others, last] = [required.slice(0, -1), required.at(-1) ?? ""];
    return others.length === 0
      ? [say("schema-problem.kind-with-key", { key: last }).message]
      : [say("schema-problem.kind-with-keys", { others: others.join(", "), last }).message];
  });
  return [...new Map(phrases.map((phrase) => [JSON.stringify(phrase), phrase])).values()];
}

/** Most keys that a message lists of what was found; our choice: about one line. */
const MOST_KEYS = 8;

/** A value as a message shows it, and its keys. */
function keysShown(data: unknown): MessageText {
  if (data === null || typeof data !== "object" || Array.isArray(data)) return shown(data);
  const keys = Object.keys(data).slice(0, MOST_KEYS);
  return keys.length === 0
    ? say("schema-problem.keys-found-none").message
    : say("schema-problem.keys-found-listed", { keys: keys.join(", ") }).message;
}
