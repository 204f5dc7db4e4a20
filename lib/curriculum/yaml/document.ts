import { Composer, CST, type Document, Lexer, LineCounter, type ParsedNode, Parser, type YAMLError } from "yaml";
import { failure, type Place, success } from "../../base/index.js";
import { problem } from "../codes.js";
import { DEEPEST, LARGEST_TEXT, MOST_SYNTAX_ERRORS, MOST_TOKENS } from "../limits.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";
import { quoted, quotesProblems, unquotedIn } from "./unquoted.js";

/** Line and column, both from 1, of an offset in a text. An offset outside the text counts as the nearer end of the text. */
export type PlaceAt = (offset: number) => { readonly line: number; readonly column: number };

/** The one document of a YAML text, and the places of its offsets. */
export interface Source {
  /** As it was given; a carriage return alone is a line feed, so that offsets are those of the given text. */
  readonly text: string;
  readonly root: ParsedNode;
  readonly placeAt: PlaceAt;
}

/** The place of a problem with a whole text. */
const START: Place = { line: 1, column: 1, pointer: "" };

/**
 * Composes the single YAML 1.2 document of a text, or its syntax errors. A carriage return alone ends a line (YAML 1.2.2, production 28, and as files of
 * the first Macintosh systems have it); the library reads only the others.
 */
export function documentOf(given: string): Result<Source> {
  const text = given.replace(/\r(?!\n)/g, "\n");
  const read = tokensOf(text);
  if (!read.ok) return read;
  const { tokens, placeAt } = read.value;
  const { documents, errors } = composed(tokens);
  const [first, second] = documents;
  if (errors.length > 0) return failure(...(missingQuotes(text, placeAt, errors) ?? syntaxProblems(errors, placeAt)));
  if (second !== undefined) {
    const place = placeAt(second.range[0]);
    const message = say("curriculum-problem.several-documents");
    const remedy = say("curriculum-problem.several-documents-remedy");
    return failure(problem("SEVERAL_DOCUMENTS", message, { ...place, pointer: "" }, remedy));
  }
  const root = first?.contents as ParsedNode | null | undefined;
  if (root === null || root === undefined || ("value" in root && root.value === null)) {
    const remedy = say("curriculum-problem.empty-file-remedy", { example: "curriculum: my-first-course" });
    return failure(problem("EMPTY_FILE", say("curriculum-problem.empty-file"), START, remedy));
  }
  return success({ text, root, placeAt });
}

function composed(tokens: readonly CST.Token[]): {
  readonly documents: readonly Document.Parsed[];
  readonly errors: readonly YAMLError[];
} {
  // Duplicate keys are found in data.ts, because the library compares each key with each other. A %YAML directive must not change the schema.
  const composer = new Composer({
    prettyErrors: false,
    uniqueKeys: false,
    schema: "core",
    version: "1.2",
    strict: true,
  });
  const documents = [...composer.compose(tokens)] as Document.Parsed[];
  const errors = documents.flatMap((document) => [...document.errors, ...document.warnings.filter(isTag)]);
  return { documents, errors };
}

/**
 * The lines that need quotes, when quotes around them leave fewer errors, and the errors that are left in other lines. `undefined` when
 * the errors come from elsewhere.
 */
function missingQuotes(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): readonly Problem[] | undefined {
  const missing = unquotedIn(text);
  if (missing.length === 0) return undefined;
  const mended = quoted(text, missing);
  const read = tokensOf(mended.text);
  if (!read.ok) return undefined;
  const { documents, errors: left } = composed(read.value.tokens);
  if (left.length >= errors.length) return undefined;
  const root = documents[0]?.contents as ParsedNode | null | undefined;
  const problems = quotesProblems(missing, root, { keyAt: mended.movedTo, placeAt });
  if (problems.length === 0) return undefined;
  const lines = new Set(problems.map(({ where }) => where.line));
  return [...problems, ...syntaxProblems(left, read.value.placeAt).filter(({ where }) => !lines.has(where.line))];
}

/** The tokens of a YAML text that keeps the limits of number and nesting. */
interface Tokens {
  readonly tokens: readonly CST.Token[];
  readonly placeAt: PlaceAt;
}

/** Parses a YAML text to tokens, or reports the first limit it breaks: size, then number of tokens, then nesting. */
function tokensOf(text: string): Result<Tokens> {
  if (text.length > LARGEST_TEXT) {
    const message = say("curriculum-problem.text-too-large", { most: LARGEST_TEXT, found: text.length });
    return failure(problem("TEXT_TOO_LARGE", message, START, say("curriculum-problem.text-too-large-remedy")));
  }
  const placeAt = placesIn(text);
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let pieces = 0;
  let offset = 0;
  let open = 0;
  let inScalar = false;
  for (const lexeme of new Lexer().lex(text)) {
    pieces += 1;
    if (pieces > MOST_TOKENS) return failure(tooManyTokens(placeAt(offset)));
    const mark: ReturnType<typeof markOf> = inScalar ? undefined : markOf(lexeme);
    if (!inScalar && (lexeme === "[" || lexeme === "{")) open += 1;
    else if (!inScalar && (lexeme === "]" || lexeme === "}")) open -= 1;
    if (open > DEEPEST) return failure(tooDeep(placeAt(offset)));
    const wrong = lexeme.startsWith('"') && !inScalar ? wrongEscapeIn(lexeme) : undefined;
    if (wrong !== undefined) return failure(wrongEscape(lexeme.slice(wrong, wrong + 2), placeAt(offset + wrong)));
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (mark === undefined) offset += lexeme.length;
    inScalar = mark === "scalar";
  }
  for (const token of parser.end()) tokens.push(token);
  const deep = deeperThan(tokens, DEEPEST);
  return deep === undefined ? success({ tokens, placeAt }) : failure(tooDeep(placeAt(deep)));
}

/**
 * Line and column of the offsets in a text. A line ends with a line feed, alone or after a carriage return, as the YAML library reads
 * lines; a carriage return alone, a form feed and U+2028 end no line. Columns count UTF-16 code units.
 *
 * The library's line counter is filled from the text here and not by the library's parser: the parser does not report the line ends
 * inside scalars that it refuses (a scalar after an alias, for example), so all later lines would get a number that is too small.
 */
export function placesIn(text: string): PlaceAt {
  const lines = new LineCounter();
  lines.addNewLine(0);
  for (let end = text.indexOf("\n"); end !== -1; end = text.indexOf("\n", end + 1)) lines.addNewLine(end + 1);
  return (offset) => {
    const { line, col } = lines.linePos(Math.max(0, Math.min(offset, text.length)));
    return { line, column: col };
  };
}

/** An escape of YAML 1.2.2 (productions 42 to 61), or an escaped line end. */
const ESCAPE = /\\(?:[0abtnvfre "/\\N_LP\t]|\r?\n|x[\da-f]{2}|u[\da-f]{4}|U[\da-f]{8})/iy;

function isTag(warning: YAMLError): boolean {
  return warning.code === "TAG_RESOLVE_FAILED";
}

/** One problem for each line: later errors in a line mostly follow from the first. */
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
    const message = say("curriculum-problem.tag-not-allowed-complaint", { complaint: clause(error.message) });
    return problem("TAG_NOT_ALLOWED", message, where, say("curriculum-problem.leave-tag-out"));
  }
  const message = say("curriculum-problem.yaml-syntax", { complaint: clause(error.message) });
  const remedy = Object.hasOwn(REMEDIES, error.code) ? REMEDIES[error.code as keyof typeof REMEDIES] : undefined;
  return problem("YAML_SYNTAX", message, where, remedy && say(`curriculum-problem.${remedy}`));
}

function clause(message: string): string {
  const text = message.replace(/\.$/, "");
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** What to do about an error of the YAML reader, by its code. */
const REMEDIES = {
  TAB_AS_INDENT: "yaml-syntax-tab-remedy",
  BAD_INDENT: "yaml-syntax-indent-remedy",
  BAD_SCALAR_START: "quote-text",
  BLOCK_AS_IMPLICIT_KEY: "yaml-syntax-key-in-line-remedy",
  MISSING_CHAR: "yaml-syntax-open-remedy",
  UNEXPECTED_TOKEN: "yaml-syntax-sign-remedy",
  MULTILINE_IMPLICIT_KEY: "yaml-syntax-colon-remedy",
} as const;

/**
 * Index of the first backslash in a double-quoted text that begins no escape; `undefined` when there is none. Searched for here,
 * because the library makes an error with a stack trace for each of them, and there may be a hundred thousand.
 */
function wrongEscapeIn(quoted: string): number | undefined {
  for (let at = quoted.indexOf("\\"); at !== -1; at = quoted.indexOf("\\", ESCAPE.lastIndex)) {
    ESCAPE.lastIndex = at;
    if (!ESCAPE.test(quoted)) return at;
  }
  return undefined;
}

/** The kind of a lexeme that the lexer added (document start, flow end, scalar follows) and that stands for no text; else `undefined`. */
function markOf(lexeme: string): "doc-mode" | "flow-error-end" | "scalar" | undefined {
  const type = CST.tokenType(lexeme);
  return type === "doc-mode" || type === "flow-error-end" || type === "scalar" ? type : undefined;
}

/** Offset of a token nested more than `levels` deep; `undefined` when there is none. With a stack of its own, because recursion could overflow. */
function deeperThan(tokens: readonly CST.Token[], levels: number): number | undefined {
  const waiting: { readonly token: CST.Token; readonly level: number }[] = [];
  const add = (token: CST.Token | null | undefined, level: number): void => {
    if (token) waiting.push({ token, level });
  };
  for (const token of tokens) add(token, 0);
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { token, level } = next;
    if (level > levels) return token.offset;
    if (token.type === "document") add(token.value, level + 1);
    if (!("items" in token)) continue;
    for (const item of token.items) {
      add("key" in item ? item.key : undefined, level + 1);
      add(item.value, level + 1);
    }
  }
  return undefined;
}

function wrongEscape(found: string, place: ReturnType<PlaceAt>): Problem {
  const message = say("curriculum-problem.yaml-syntax-escape", { found: JSON.stringify(found) });
  const remedy = say("curriculum-problem.yaml-syntax-escape-remedy");
  return problem("YAML_SYNTAX", message, { ...place, pointer: "" }, remedy);
}

function tooManyTokens(place: ReturnType<PlaceAt>): Problem {
  const message = say("curriculum-problem.too-many-tokens", { most: MOST_TOKENS });
  return problem("TOO_MANY_TOKENS", message, { ...place, pointer: "" }, say("curriculum-problem.several-curricula"));
}

function tooDeep(place: ReturnType<PlaceAt>): Problem {
  const message = say("curriculum-problem.nested-too-deeply", { most: DEEPEST });
  const remedy = say("curriculum-problem.nested-too-deeply-remedy");
  return problem("NESTED_TOO_DEEPLY", message, { ...place, pointer: "" }, remedy);
}
