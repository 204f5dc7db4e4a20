import {
  Composer,
  type CST,
  type Document,
  isMap,
  isScalar,
  type ParsedNode,
  type YAMLError,
  type YAMLMap,
} from "yaml";
import { failure, type Place, success } from "../../base/index.js";
import { problem } from "../codes.js";
import { LARGEST_PIECE, LARGEST_TEXT, MOST_ENTRIES, MOST_SYNTAX_ERRORS, mostTokens } from "../limits.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";
import { type Entry, entriesOf, joined, LONGEST_RUN, withoutEntries } from "./entries.js";
import { type PlaceAt, placesIn, type TokenOptions, tokensOf } from "./tokens.js";
import { quoted, quotesProblems, unquotedIn } from "./unquoted.js";

/** The one document of a YAML text, and the places of its offsets. */
export interface Source {
  /** As it was given; a carriage return alone is a line feed, so that offsets are those of the given text. */
  readonly text: string;
  readonly root: ParsedNode;
  readonly placeAt: PlaceAt;
}

/** When a text is cut, and into what. */
interface Cutting {
  /** Characters of a text that is read in one piece. */
  readonly largest: number;
  /** Characters up to which entries are read together. */
  readonly run: number;
}

const USUAL_CUTTING: Cutting = { largest: LARGEST_PIECE, run: LONGEST_RUN };

/** The place of a problem with a whole text. */
const START: Place = { line: 1, column: 1, pointer: "" };

/**
 * Composes the single YAML 1.2 document of a text, or its syntax errors. A text above LARGEST_PIECE is read entry by entry: that is twice as fast, holds
 * half as much, and what is hostile is a single large piece. A carriage return alone ends a line (YAML 1.2.2, production 28, and as files of
 * the first Macintosh systems have it); the library reads only the others.
 */
export function documentOf(given: string, { largest, run }: Cutting = USUAL_CUTTING): Result<Source> {
  const text = given.replace(/\r(?!\n)/g, "\n");
  const placeAt = placesIn(text);
  const most = mostTokens(text.length);
  const options: TokenOptions = { placeAt, offset: 0, count: { tokens: 0 }, most, around: 0 };
  if (text.length <= largest) return documentIn(text, options);
  if (text.length > LARGEST_TEXT) {
    const message = say("curriculum-problem.text-too-large", { most: LARGEST_TEXT, found: text.length });
    return failure(problem("TEXT_TOO_LARGE", message, START, say("curriculum-problem.text-too-large-remedy")));
  }
  const entries = entriesOf(text);
  if (entries.length > MOST_ENTRIES) {
    const message = say("curriculum-problem.too-many-entries", { most: MOST_ENTRIES, found: entries.length });
    return failure(problem("TEXT_TOO_LARGE", message, START, say("curriculum-problem.several-curricula")));
  }
  const lump = entries.find(({ from, to }) => to - from > LARGEST_PIECE);
  if (lump !== undefined) {
    const message = say("curriculum-problem.entry-too-large", { most: LARGEST_PIECE, found: lump.to - lump.from });
    const where = { ...placeAt(lump.from), pointer: "" };
    return failure(problem("TEXT_TOO_LARGE", message, where, say("curriculum-problem.entry-too-large-remedy")));
  }
  const outside = entries.reduce((left, { from, to }) => left - (to - from), text.length);
  return outside > LARGEST_PIECE ? tooMuchOutside(outside) : documentOfEntries(text, joined(entries, run), options);
}

/** A document whose entries are read some at a time, then put into their sections. Entries with errors are read again together with what is around them. */
function documentOfEntries(text: string, pieces: readonly Entry[], options: TokenOptions): Result<Source> {
  const { placeAt } = options;
  const rest = documentIn(withoutEntries(text, pieces), options);
  const wrong: Entry[] = [];
  const sections = new Map<number, YAMLMap>();
  for (const piece of pieces) {
    const { from, to, section } = piece;
    const read = tokensOf(text.slice(from, to), {
      ...options,
      offset: from,
      most: mostTokens(text.length, to),
      around: 1,
    });
    if (!read.ok) return read;
    const { documents, errors } = composed(read.value);
    const found = documents[0]?.contents;
    if (errors.length > 0 || !isMap(found) || found.flow || documents.length > 1) wrong.push(piece);
    else {
      const kept = sections.get(section);
      if (kept === undefined) sections.set(section, found as YAMLMap);
      else kept.items.push(...found.items);
    }
    if (wrong.length * LONGEST_RUN > LARGEST_PIECE) break;
  }
  if (!rest.ok || wrong.length > 0) {
    const listed = new Set(wrong);
    const shown = withoutEntries(
      text,
      pieces.filter((piece) => !listed.has(piece)),
    );
    const again = documentIn(shown, { ...options, count: { tokens: 0 } });
    return again.ok ? tooMuchOutside(text.length) : again;
  }
  const { root } = rest.value;
  if (!isMap(root)) return tooMuchOutside(text.length);
  for (const pair of root.items as { key: ParsedNode; value: ParsedNode | null }[]) {
    const filled = sections.get(pair.key.range[0]);
    const isEmpty = pair.value === null || (isScalar(pair.value) && pair.value.value === null);
    if (filled === undefined || !isEmpty) continue;
    pair.value = filled as ParsedNode & YAMLMap;
    sections.delete(pair.key.range[0]);
  }
  return sections.size > 0 ? tooMuchOutside(text.length) : success({ text, root, placeAt });
}

/** A text in another form than a course's, or one whose sections hold little of it. */
function tooMuchOutside(found: number): Result<never> {
  const message = say("curriculum-problem.text-not-in-entries", { most: LARGEST_PIECE, found });
  return failure(problem("TEXT_TOO_LARGE", message, START, say("curriculum-problem.text-not-in-entries-remedy")));
}

function documentIn(text: string, options: TokenOptions): Result<Source> {
  const { placeAt } = options;
  const read = tokensOf(text, options);
  if (!read.ok) return read;
  const { documents, errors } = composed(read.value);
  const [first, second] = documents;
  if (errors.length > 0) return failure(...syntaxProblemsOf(text, placeAt, errors));
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

/** What the errors of a text come from: tabs before keys, lines without quotes, or else the errors as they are. */
function syntaxProblemsOf(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): readonly Problem[] {
  const tabs = tabsBefore(text, placeAt, errors);
  if (tabs === undefined) return missingQuotes(text, placeAt, errors) ?? syntaxProblems(errors, placeAt);
  const left = tabs.errors.length === 0 ? [] : syntaxProblemsOf(tabs.text, placesIn(tabs.text), tabs.errors);
  return [tabs.problem, ...left];
}

/** The indentation of a line that has a tab in it, and something behind it. */
const TABBED = /^ *\t[ \t]*(?=[^ \t\r#])/;

/** What a line with a tab may have been meant to be indented with, likeliest first: with tabs as wide as editors have them (from memory), as its neighbours, not at all. */
const INDENTS: readonly (number | "as before" | "as behind")[] = [4, 8, 2, 6, "as before", "as behind", 0];

/**
 * The tabs that lines are indented with, as one problem at the first of them, when blanks in their place leave fewer errors; with the text that
 * has blanks, and its errors. One tab otherwise puts a whole section in a wrong place, and all its lines are complained of.
 */
function tabsBefore(
  text: string,
  placeAt: PlaceAt,
  errors: readonly YAMLError[],
): { readonly problem: Problem; readonly text: string; readonly errors: readonly YAMLError[] } | undefined {
  const lines = text.split("\n");
  const first = lines.findIndex((line) => TABBED.test(line));
  let best: { readonly text: string; readonly errors: readonly YAMLError[] } = { text, errors };
  for (const meant of first === -1 ? [] : INDENTS) {
    const mended = withoutTabs(lines, meant).join("\n");
    const left = errorsIn(mended);
    if (left !== undefined && left.length < best.errors.length) best = { text: mended, errors: left };
    if (best.errors.length === 0) break;
  }
  if (best.text === text) return undefined;
  const at = lines.slice(0, first).reduce((offset, line) => offset + line.length + 1, lines[first]!.indexOf("\t"));
  const more = lines.filter((line) => TABBED.test(line)).length - 1;
  const message = say("curriculum-problem.yaml-syntax-tab", { more });
  const remedy = say("curriculum-problem.yaml-syntax-tab-remedy");
  return { ...best, problem: problem("YAML_SYNTAX", message, { ...placeAt(at), pointer: "" }, remedy) };
}

/** Lines with blanks for the tabs they are indented with: up to the next multiple of a number of columns, or as many as their neighbours have. */
function withoutTabs(lines: readonly string[], meant: (typeof INDENTS)[number]): readonly string[] {
  if (meant === "as behind") return withoutTabs(lines.toReversed(), "as before").toReversed();
  let neighbour = 0;
  return lines.map((line) => {
    const indent = TABBED.exec(line)?.[0];
    if (indent === undefined) {
      if (/\S/.test(line)) neighbour = line.search(/\S/);
      return line;
    }
    const columns =
      meant === "as before" ? neighbour : [...indent].reduce((at, sign) => columnBehind(at, sign, meant), 0);
    return " ".repeat(columns) + line.slice(indent.length);
  });
}

function columnBehind(at: number, sign: string, stop: number): number {
  if (sign !== "\t") return at + 1;
  return stop === 0 ? at : at - (at % stop) + stop;
}

/** The errors of a text; `undefined` where it is not read to its end. */
function errorsIn(text: string): readonly YAMLError[] | undefined {
  const placeAt = placesIn(text);
  const read = tokensOf(text, { placeAt, offset: 0, count: { tokens: 0 }, most: mostTokens(text.length), around: 0 });
  return read.ok ? composed(read.value).errors : undefined;
}

/**
 * The lines that need quotes, when quotes around them leave fewer errors, and the errors that are left in other lines. `undefined` when
 * the errors come from elsewhere.
 */
function missingQuotes(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): readonly Problem[] | undefined {
  const missing = unquotedIn(text);
  if (missing.length === 0) return undefined;
  const mended = quoted(text, missing);
  const most = mostTokens(mended.text.length);
  const placeIn = placesIn(mended.text);
  const read = tokensOf(mended.text, { placeAt: placeIn, offset: 0, count: { tokens: 0 }, most, around: 0 });
  if (!read.ok) return undefined;
  const { documents, errors: left } = composed(read.value);
  if (left.length >= errors.length) return undefined;
  const root = documents[0]?.contents as ParsedNode | null | undefined;
  const problems = quotesProblems(missing, root, { keyAt: mended.movedTo, placeAt });
  if (problems.length === 0) return undefined;
  const lines = new Set(problems.map(({ where }) => where.line));
  return [...problems, ...syntaxProblems(left, placeIn).filter(({ where }) => !lines.has(where.line))];
}

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
  BAD_INDENT: "yaml-syntax-indent-remedy",
  BAD_SCALAR_START: "quote-text",
  BLOCK_AS_IMPLICIT_KEY: "yaml-syntax-key-in-line-remedy",
  MISSING_CHAR: "yaml-syntax-open-remedy",
  UNEXPECTED_TOKEN: "yaml-syntax-sign-remedy",
  MULTILINE_IMPLICIT_KEY: "yaml-syntax-colon-remedy",
} as const;
