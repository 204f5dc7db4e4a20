import { CST, Lexer, type YAMLError } from "yaml";
import { problem } from "../codes.js";
import { say } from "../say.js";
import { errorsIn } from "./composed.js";
import type { Mended } from "./mended.js";
import type { PlaceAt } from "./tokens.js";

/** Most texts of several lines that are tried: each is a reading of the whole. Our choice. */
const MOST_TRIED = 8;

/** A line that begins with a key. */
const KEY_LINE = /\n[ \t]*(?:- )?["']?[\p{L}\d][^"'\n]*["']?:(?=\s)/u;

/**
 * The first text in quotes whose closing quote is missing, as one problem where it opens, when a quote at the end of its line, or before the next key, leaves
 * fewer errors. YAML itself takes the lines behind for more of the text, and complains where the next quote stands or the file ends.
 */
export function closedQuote(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): Mended | undefined {
  for (const { from, to } of textsOverLines(text)) {
    const quote = text[from]!;
    let best: { readonly mended: string; readonly left: readonly YAMLError[] } | undefined;
    for (const at of endsOf(text, from, to)) {
      const mended = text.slice(0, at) + quote + text.slice(at);
      const left = errorsIn(mended);
      if (left !== undefined && left.length < (best?.left ?? errors).length) best = { mended, left };
    }
    if (best !== undefined) {
      const message = say("curriculum-problem.yaml-syntax-unclosed-quote", { quote });
      const remedy = say("curriculum-problem.yaml-syntax-unclosed-quote-remedy", { quote });
      const found = problem("YAML_SYNTAX", message, { ...placeAt(from), pointer: "" }, remedy);
      return { text: best.mended, errors: best.left, problem: found };
    }
  }
  return undefined;
}

/** Texts in quotes that YAML reads over the end of a line, or that it ends there for want of a quote. */
function textsOverLines(text: string): readonly { readonly from: number; readonly to: number }[] {
  const found: { from: number; to: number }[] = [];
  let offset = 0;
  let inScalar = false;
  for (const lexeme of new Lexer().lex(text)) {
    const type: CST.TokenType | null | undefined = inScalar ? undefined : CST.tokenType(lexeme);
    const isQuoted = type === "double-quoted-scalar" || type === "single-quoted-scalar";
    if (isQuoted && (lexeme.includes("\n") || lexeme.length < 2 || lexeme.at(-1) !== lexeme[0]))
      found.push({ from: offset, to: offset + lexeme.length });
    if (found.length === MOST_TRIED) break;
    inScalar = type === "scalar";
    if (type !== "doc-mode" && type !== "flow-error-end" && type !== "scalar") offset += lexeme.length;
  }
  return found;
}

/** Where the closing quote may belong: at the end of the line, before brackets there, and before the next key. */
function endsOf(text: string, from: number, to: number): readonly number[] {
  const lineEnd = text.indexOf("\n", from);
  const line = lineEnd === -1 ? text.length : lineEnd;
  const next = KEY_LINE.exec(text.slice(from, to));
  const ends = next === null ? [line] : [line, from + next.index];
  return ends.flatMap((end) => {
    const written = text.slice(from, end).replace(/(?:[ \t]+#.*)?\s*$/, "");
    const inside = written.replace(/[\s\]}]+$/, "");
    return inside === written ? [from + written.length] : [from + written.length, from + inside.length];
  });
}
