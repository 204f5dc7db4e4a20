import { Composer, type Document, type ParsedNode, type YAMLError } from "yaml";
import { failure, type Problem, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import { MOST_SYNTAX_ERRORS } from "./limits.js";
import type { PlaceAt } from "./lines.js";
import { tokensOf } from "./tokens.js";

/** A YAML text put together: its one document and where its lines are. */
export interface Source {
  readonly text: string;
  readonly root: ParsedNode;
  readonly placeAt: PlaceAt;
}

/** The single YAML 1.2 document in a text, or its syntax errors. */
export function documentOf(text: string): Result<Source> {
  const read = tokensOf(text);
  if (!read.ok) return read;
  const { tokens, placeAt } = read.value;
  // Duplicate keys are found elsewhere: the library compares every key with every other. A %YAML directive must not change what words mean.
  const composer = new Composer({
    prettyErrors: false,
    uniqueKeys: false,
    schema: "core",
    version: "1.2",
    strict: true,
  });
  const documents = [...composer.compose(tokens)] as Document.Parsed[];
  const [first, second] = documents;
  const errors = documents.flatMap((document) => [...document.errors, ...document.warnings.filter(isTag)]);
  if (errors.length > 0) return failure(...syntaxProblems(errors, placeAt));
  if (second !== undefined) {
    const place = placeAt(second.range[0]);
    const message = "a curriculum is one YAML document; found a second one";
    return failure(problem("SEVERAL_DOCUMENTS", message, { ...place, pointer: "" }, "put it into a file of its own"));
  }
  const root = first?.contents as ParsedNode | null | undefined;
  if (root === null || root === undefined || ("value" in root && root.value === null)) {
    const message = "a curriculum has at least a name, an edition, a title, patterns and drills; found nothing";
    return failure(problem("EMPTY_FILE", message, { line: 1, column: 1, pointer: "" }));
  }
  return success({ text, root, placeAt });
}

function isTag(warning: YAMLError): boolean {
  return warning.code === "TAG_RESOLVE_FAILED";
}

/** One problem for each line: what follows in a line is mostly an echo. */
function syntaxProblems(errors: readonly YAMLError[], placeAt: PlaceAt): readonly Problem[] {
  const found = new Map<number, Problem>();
  for (const error of errors) {
    if (found.size === MOST_SYNTAX_ERRORS) break;
    const { line } = placeAt(error.pos[0]);
    if (!found.has(line)) found.set(line, syntaxProblem(error, placeAt));
  }
  return [...found.values()];
}

function syntaxProblem(error: YAMLError, placeAt: PlaceAt): Problem {
  const where = { ...placeAt(error.pos[0]), pointer: "" };
  if (error.code === "TAG_RESOLVE_FAILED") {
    const message = `a curriculum is plain data, without YAML tags; found: ${clause(error.message)}`;
    return problem("TAG_NOT_ALLOWED", message, where, "leave the word after ! out");
  }
  return problem("YAML_SYNTAX", `cannot be read as YAML: ${clause(error.message)}`, where, REMEDIES[error.code]);
}

function clause(message: string): string {
  const text = message.replace(/\.$/, "");
  return text.charAt(0).toLowerCase() + text.slice(1);
}

const REMEDIES: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: "indent with blanks; YAML does not allow tabs there",
  BAD_INDENT: "give keys that belong together the same indentation",
  BAD_SCALAR_START: "put the text between quotes",
  BLOCK_AS_IMPLICIT_KEY: "put the text between quotes, or write one key on each line",
  MISSING_CHAR: "close what was opened: a quote, a bracket, or put a blank after the colon",
  UNEXPECTED_TOKEN: "put the text between quotes if it contains : # [ ] { } or ,",
  MULTILINE_IMPLICIT_KEY: "put a colon after the key",
};
