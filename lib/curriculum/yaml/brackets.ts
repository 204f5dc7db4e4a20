import { CST, Lexer, type YAMLError } from "yaml";
import { problem } from "../codes.js";
import { say } from "../say.js";
import { errorsIn } from "./composed.js";
import type { Mended } from "./mended.js";
import type { PlaceAt } from "./tokens.js";

/** A bracket, or several in one another, that are opened in a line and never closed. */
interface Unclosed {
  /** The brackets as they are opened, `{[`; and what closes them, `]}`. */
  readonly opened: string;
  readonly closing: string;
  /** Offset of the first of them, and where YAML found that they are not closed. */
  readonly from: number;
  readonly to: number;
}

const CLOSING: Readonly<Record<string, string>> = { "{": "}", "[": "]" };

/**
 * The first brackets that are not closed, as one problem where what closes them belongs, when it leaves fewer errors there: before a bracket of the other
 * kind, at the end of the line they are opened in, or of the last line before YAML gives up. YAML itself complains of the line behind.
 */
export function closedBracket(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): Mended | undefined {
  const unclosed = unclosedIn(text);
  if (unclosed === undefined) return undefined;
  const { opened, closing, from, to } = unclosed;
  const ends = /[\]}]/.test(text[to] ?? "") ? [endBefore(text, to)] : [endOfLine(text, from), endBefore(text, to)];
  for (const at of ends) {
    const mended = `${text.slice(0, at)}${/[\]}[{,]/.test(text[at - 1] ?? "") ? "" : " "}${closing}${text.slice(at)}`;
    const left = errorsIn(mended);
    if (left === undefined || left.length >= errors.length) continue;
    const { line } = placeAt(from);
    const message = say("curriculum-problem.yaml-syntax-unclosed", { opened, line });
    const remedy = say("curriculum-problem.yaml-syntax-unclosed-remedy", { closing });
    return {
      text: mended,
      errors: left,
      problem: problem("YAML_SYNTAX", message, { ...placeAt(at), pointer: "" }, remedy),
    };
  }
  return undefined;
}

function unclosedIn(text: string): Unclosed | undefined {
  const open: { readonly sign: string; readonly at: number }[] = [];
  let offset = 0;
  let inScalar = false;
  for (const lexeme of new Lexer().lex(text)) {
    const type: CST.TokenType | null | undefined = inScalar ? undefined : CST.tokenType(lexeme);
    const isMark = type === "doc-mode" || type === "flow-error-end" || type === "scalar";
    inScalar = type === "scalar";
    if (type === "flow-map-start" || type === "flow-seq-start") open.push({ sign: lexeme, at: offset });
    else if (type === "flow-map-end" || type === "flow-seq-end") {
      const { sign = "" } = open.at(-1) ?? {};
      // A bracket of the other kind closes one further out.
      const fits = open.findLastIndex((each) => CLOSING[each.sign] === lexeme);
      if (fits !== -1 && CLOSING[sign] !== lexeme) return unclosedOf(open.slice(fits + 1), offset);
      open.pop();
    } else if (type === "flow-error-end" && open.length > 0) return unclosedOf(open, offset);
    if (!isMark) offset += lexeme.length;
  }
  return open.length > 0 ? unclosedOf(open, offset) : undefined;
}

function unclosedOf(open: readonly { readonly sign: string; readonly at: number }[], to: number): Unclosed {
  const opened = open.map(({ sign }) => sign).join("");
  const closing = [...opened]
    .reverse()
    .map((sign) => CLOSING[sign]!)
    .join("");
  return { opened, closing, from: open[0]!.at, to };
}

/** Behind the last word before `at`, where that is no comment. */
function endBefore(text: string, at: number): number {
  const lines = text.slice(0, at).split("\n");
  while (lines.length > 1 && withoutComment(lines.at(-1)!) === "") lines.pop();
  return lines.slice(0, -1).reduce((sum, line) => sum + line.length + 1, 0) + withoutComment(lines.at(-1)!).length;
}

function endOfLine(text: string, at: number): number {
  const end = text.indexOf("\n", at);
  return endBefore(text, end === -1 ? text.length : end);
}

function withoutComment(line: string): string {
  return line.replace(/(^|[ \t])#.*$/, "").trimEnd();
}
