import { CST, Lexer, LineCounter, Parser } from "yaml";
import { failure, success } from "../../base/index.js";
import { problem } from "../codes.js";
import { DEEPEST } from "../limits.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";

/** Line and column, both from 1, of an offset in a text. An offset outside the text counts as the nearer end of the text. */
export type PlaceAt = (offset: number) => { readonly line: number; readonly column: number };

export interface TokenOptions {
  readonly placeAt: PlaceAt;
  /** Where the piece begins in the text whose places are given. */
  readonly offset: number;
  /** Tokens of the pieces read so far; this piece adds its own. */
  readonly count: { tokens: number };
  /** How many there may be at the end of this piece. */
  readonly most: number;
  /** Levels of nesting around the piece. */
  readonly around: number;
}

/** The tokens of a piece of YAML, or the first limit it breaks: number of tokens, then nesting. */
export function tokensOf(
  piece: string,
  { placeAt, offset: start, count, most, around }: TokenOptions,
): Result<readonly CST.Token[]> {
  const parser = new Parser();
  parser.offset = start;
  const tokens: CST.Token[] = [];
  let offset = start;
  let open = 0;
  let inScalar = false;
  for (const lexeme of new Lexer().lex(piece)) {
    count.tokens += 1;
    if (count.tokens > most) return failure(tooManyTokens(most, placeAt(offset)));
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
  const deep = deeperThan(tokens, DEEPEST - around);
  return deep === undefined ? success(tokens) : failure(tooDeep(placeAt(deep)));
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
  // Asked of every lexeme: marks are single control characters.
  if (lexeme.length !== 1 || lexeme >= " ") return undefined;
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

function tooManyTokens(most: number, place: ReturnType<PlaceAt>): Problem {
  const message = say("curriculum-problem.too-many-tokens", { most });
  return problem("TOO_MANY_TOKENS", message, { ...place, pointer: "" }, say("curriculum-problem.several-curricula"));
}

function tooDeep(place: ReturnType<PlaceAt>): Problem {
  const message = say("curriculum-problem.nested-too-deeply", { most: DEEPEST });
  const remedy = say("curriculum-problem.nested-too-deeply-remedy");
  return problem("NESTED_TOO_DEEPLY", message, { ...place, pointer: "" }, remedy);
}
