import type { Worded } from "../../base/index.js";
import { piecesOf } from "../barLines.js";
import { problem } from "../codes.js";
import type { Frame } from "../compile/bars.js";
import { lengthWord } from "../note/lineWords.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { type LineKind, rewriteLine } from "./rewrite.js";
import { formerNote, isFormerToken } from "./words.js";

/**
 * FORMER_SPELLING for a line with a word of the former spelling, at the first one, with the line in the present spelling as remedy; `undefined`
 * for other lines. A line that also has a mistake of another kind gets the present spelling of that word only.
 */
export function formerSpelling(kind: LineKind, line: string, frame: Frame): Problem | undefined {
  const offset = formerWordAt(kind, line);
  if (offset === undefined) return undefined;
  const token = /^\S+/.exec(line.slice(offset))![0];
  const rewritten = rewriteLine(kind, line, frame)?.replace(/\s+/g, " ").trim();
  const remedy = rewritten === undefined ? wordRemedy(token) : write(rewritten);
  const message = say("pattern-problem.former-spelling", { found: JSON.stringify(token.slice(0, 30)) });
  return problem("FORMER_SPELLING", message, { pointer: "", offset }, remedy);
}

/** Index of the first word of the former spelling in a line. */
function formerWordAt(kind: LineKind, line: string): number | undefined {
  if (kind !== "notes") return piecesOf(line).find(({ text }) => text === "%")?.offset;
  for (const match of line.matchAll(/\d+(:\d+)?\[|[^\s|[\]]+/g)) {
    // In `3 in 2[` the bracket only lacks a blank.
    const isTuplet = match[0].endsWith("[") && !/\bin\s*$/.test(line.slice(Math.max(0, match.index - 20), match.index));
    if (match[0] === "%" || isTuplet || isFormerToken(match[0])) return match.index;
  }
  return undefined;
}

/** The present spelling of one former word. */
function wordRemedy(token: string): Worded {
  if (token === "%") return write("same");
  const tuplet = /^(\d+)(?::(\d+))?\[/.exec(token);
  if (tuplet) return write(`${tuplet[1]} in ${tuplet[2] ?? 2} [1/8 ... ]`);
  if (token === "r") return write("-");
  const note = formerNote(token, 0);
  if (!note) return write(token.startsWith("r") ? "1/8 -" : "1/4 D4");
  const pitches = note.name === "" ? "-" : note.name;
  const text = `${lengthWord(note.length!)} ${pitches}${note.accent ? "!" : ""}`;
  return note.tied ? say("pattern-problem.former-spelling-remedy-then-tie", { note: text }) : write(text);
}

function write(text: string): Worded {
  return say("pattern-problem.write-line", { text });
}
