import { isAlias, isMap, isScalar, type Pair, type ParsedNode } from "yaml";
import { failure, type Place, success } from "../../base/index.js";
import { pointerTo } from "../../schema/index.js";
import { problem } from "../codes.js";
import { largestExpansion, MOST_PROBLEMS } from "../limits.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";
import type { Source } from "./document.js";
import type { PlaceAt } from "./tokens.js";

/** The plain data of a document, and the targets of its aliases. */
export interface Content {
  readonly value: unknown;
  readonly targets: ReadonlyMap<ParsedNode, ParsedNode>;
  /** Duplicate keys, numbers that are not finite, tags, keys that are not text. */
  readonly problems: readonly Problem[];
}

/**
 * Reads a document to plain data, with every alias written out. Fails when an alias has no anchor, stands inside its own target, or
 * when the data would be larger than `largestExpansion`.
 */
export function contentOf(source: Source): Result<Content> {
  const reader: Reader = {
    placeAt: source.placeAt,
    path: [],
    anchors: new Map(),
    open: new Set(),
    targets: new Map(),
    problems: [],
    size: 0,
    most: largestExpansion(source.text.length),
  };
  try {
    const value = read(reader, source.root);
    return success({ value, targets: reader.targets, problems: reader.problems });
  } catch (error) {
    if (error instanceof Refused) return failure(...reader.problems.slice(0, MOST_PROBLEMS), error.problem);
    throw error;
  }
}

/** Tags of plain data, which change nothing: YAML 1.2.2, section 10.3.2 (core schema). */
const PLAIN_TAGS: ReadonlySet<string> = new Set(
  ["str", "int", "float", "bool", "null", "map", "seq"].map((name) => `tag:yaml.org,2002:${name}`),
);

interface Reader {
  readonly placeAt: PlaceAt;
  /** Keys and indices from the root to the node being read. */
  readonly path: (string | number)[];
  readonly anchors: Map<string, ParsedNode>;
  /** Nodes being read, so that an alias inside its own target is found. */
  readonly open: Set<ParsedNode>;
  readonly targets: Map<ParsedNode, ParsedNode>;
  readonly problems: Problem[];
  size: number;
  readonly most: number;
  /** The outermost alias being followed. */
  following?: ParsedNode;
}

/** Thrown to leave the recursion with a problem. */
class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.message);
  }
}

function read(reader: Reader, node: ParsedNode | null): unknown {
  if (node === null) return null;
  reader.size += 1 + (isScalar(node) && typeof node.value === "string" ? node.value.length : 0);
  if (reader.size > reader.most) {
    const message = say("curriculum-problem.aliases-too-large", { most: reader.most });
    const remedy = say("curriculum-problem.aliases-too-large-remedy");
    throw new Refused(problem("ALIASES_TOO_LARGE", message, at(reader, reader.following ?? node), remedy));
  }
  if (isAlias(node)) return followed(reader, node);
  if (node.tag !== undefined && !PLAIN_TAGS.has(node.tag)) {
    const message = say("curriculum-problem.tag-not-allowed", { found: `!${node.tag.replace(/^.*:/, "!")}` });
    reader.problems.push(
      problem("TAG_NOT_ALLOWED", message, at(reader, node), say("curriculum-problem.leave-tag-out")),
    );
  }
  if (node.anchor !== undefined) reader.anchors.set(node.anchor, node);
  if (isScalar(node)) return scalar(reader, node);
  reader.open.add(node);
  const value = isMap(node) ? mapping(reader, node.items) : node.items.map((item, i) => inside(reader, i, item));
  reader.open.delete(node);
  return value;
}

function followed(reader: Reader, alias: ParsedNode & { source: string }): unknown {
  const target = targetOf(reader, alias);
  if (reader.following !== undefined) return read(reader, target);
  reader.following = alias;
  const value = read(reader, target);
  delete reader.following;
  return value;
}

function inside(reader: Reader, step: string | number, node: ParsedNode | null): unknown {
  reader.path.push(step);
  const value = read(reader, node);
  reader.path.pop();
  return value;
}

function at(reader: Reader, node: ParsedNode): Place {
  return { ...reader.placeAt(node.range[0]), pointer: pointerTo(reader.path) };
}

function targetOf(reader: Reader, alias: ParsedNode & { source: string }): ParsedNode {
  const target = reader.anchors.get(alias.source);
  const name = shortened(alias.source);
  if (target === undefined) {
    const message = say("curriculum-problem.alias-unknown", { alias: name });
    const remedy = say("curriculum-problem.alias-unknown-remedy");
    throw new Refused(problem("ALIAS_UNKNOWN", message, at(reader, alias), remedy));
  }
  if (reader.open.has(target)) {
    const message = say("curriculum-problem.alias-of-itself", { alias: name });
    const remedy = say("curriculum-problem.alias-of-itself-remedy", { alias: name });
    throw new Refused(problem("ALIAS_OF_ITSELF", message, at(reader, alias), remedy));
  }
  reader.targets.set(alias, target);
  return target;
}

function mapping(reader: Reader, items: readonly Pair<ParsedNode, ParsedNode | null>[]): object {
  const entries = new Map<string, { readonly value: unknown; readonly key: ParsedNode }>();
  for (const { key, value } of items) {
    const name = isScalar(key) && key.value !== null ? String(key.value) : undefined;
    if (name === undefined) {
      const message = say("curriculum-problem.key-not-text");
      const remedy = say("curriculum-problem.key-not-text-remedy");
      reader.problems.push(problem("KEY_NOT_TEXT", message, at(reader, key), remedy));
      continue;
    }
    if (isScalar(key) && key.anchor !== undefined) reader.anchors.set(key.anchor, key);
    const before = entries.get(name);
    // The first entry is kept: places inside the key lead to it.
    if (before === undefined) entries.set(name, { value: inside(reader, name, value), key });
    else {
      const { line } = reader.placeAt(before.key.range[0]);
      const message = say("curriculum-problem.duplicate-key", { key: JSON.stringify(shortened(name)), line });
      const remedy = say("curriculum-problem.duplicate-key-remedy");
      const where = reader.placeAt(key.range[0]);
      const pointer = pointerTo([...reader.path, name]);
      reader.problems.push(problem("DUPLICATE_KEY", message, { ...where, pointer }, remedy));
      inside(reader, name, value);
    }
  }
  // fromEntries defines keys and does not assign them, so __proto__ is a key like others.
  return Object.fromEntries([...entries].map(([name, entry]) => [name, entry.value]));
}

function scalar(reader: Reader, node: ParsedNode & { value: unknown; source?: string }): unknown {
  const { value } = node;
  if (typeof value === "number" && !Number.isFinite(value)) {
    const message = say("curriculum-problem.number-not-finite", { found: shortened(node.source ?? "") });
    const remedy = say("curriculum-problem.number-not-finite-remedy");
    reader.problems.push(problem("NUMBER_NOT_FINITE", message, at(reader, node), remedy));
    return 0;
  }
  return value === null || ["string", "number", "boolean"].includes(typeof value) ? value : String(value);
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}...` : text;
}
