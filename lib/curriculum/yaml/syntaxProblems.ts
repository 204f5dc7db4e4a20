import type { ParsedNode, YAMLError } from "yaml";
import { problem } from "../codes.js";
import { LARGEST_MENDED, MOST_SYNTAX_ERRORS, mostTokens } from "../limits.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { closedBracket } from "./brackets.js";
import { composed } from "./composed.js";
import { movedLine } from "./indents.js";
import type { Mended } from "./mended.js";
import { closedQuote } from "./quotes.js";
import { tabsBefore } from "./tabs.js";
import { type PlaceAt, placesIn, tokensOf } from "./tokens.js";
import { quoted, quotesProblems, unquotedIn } from "./unquoted.js";

/** Most quotes, brackets and lines that are mended one after the other; what is then left is told as it is. Our choice. */
const MOST_MENDS = 3;

/** What the errors of a text come from: tabs before keys, a quote that is not closed, lines without quotes, a bracket that is not closed, a line in another column; or else the errors as they are. */
export function syntaxProblemsOf(
  text: string,
  placeAt: PlaceAt,
  errors: readonly YAMLError[],
  mends: number = MOST_MENDS,
): readonly Problem[] {
  const tabs = tabsBefore(text, placeAt, errors);
  const withLeft = (mended: Mended, most: number): readonly Problem[] =>
    problemAndLeft(mended, placesBefore(text, mended.text, placeAt), most);
  if (tabs !== undefined) return withLeft(tabs, mends);
  const isMended = text.length <= LARGEST_MENDED && mends > 0;
  const unclosed = isMended ? closedQuote(text, placeAt, errors) : undefined;
  if (unclosed !== undefined) return withLeft(unclosed, mends - 1);
  const quotes = missingQuotes(text, placeAt, errors);
  if (quotes !== undefined) return quotes;
  const mended = isMended ? (closedBracket(text, placeAt, errors) ?? movedLine(text, placeAt, errors)) : undefined;
  return mended === undefined ? syntaxProblems(errors, placeAt) : withLeft(mended, mends - 1);
}

/** What was mended, and what is still wrong: `placeAt` gives places of the mended text. */
function problemAndLeft({ problem: found, text, errors }: Mended, placeAt: PlaceAt, mends: number): readonly Problem[] {
  const all = errors.length === 0 ? [found] : [found, ...syntaxProblemsOf(text, placeAt, errors, mends)];
  return all.sort((a, b) => a.where.line! - b.where.line! || a.where.column! - b.where.column!);
}

/** The places of a mended text in the text as it was written: the same lines, in which something was put in or taken out. */
function placesBefore(text: string, mended: string, placeAt: PlaceAt): PlaceAt {
  const [was, is] = [text.split("\n"), mended.split("\n")];
  const starts = was.map(() => 0);
  for (let i = 1; i < was.length; i++) starts[i] = starts[i - 1]! + was[i - 1]!.length + 1;
  const places = placesIn(mended);
  return (offset) => {
    const { line, column } = places(offset);
    const [old, now] = [was[line - 1]!, is[line - 1]!];
    const alike = old.split("").findIndex((unit, i) => unit !== now[i]);
    const before = alike === -1 ? old.length : alike;
    const at = column - 1 <= before ? column - 1 : Math.max(before, column - 1 - (now.length - old.length));
    return placeAt(starts[line - 1]! + Math.min(at, old.length));
  };
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
