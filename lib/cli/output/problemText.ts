import type { Problem } from "../../base/index.js";
import { explainNoteWords, type Words } from "../../words/index.js";
import { placeName } from "../input/placeName.js";
import { type Ink, inkFor } from "./ink.js";
import { plain } from "./printableText.js";

/** Most characters shown of a source line; our choice: they fit a narrow terminal with the margin. */
const SHOWN = 76;

export interface ProblemTextOptions {
  /** Texts of the files of problems, by file name. */
  readonly sources: ReadonlyMap<string, string>;
  readonly colour: boolean;
  readonly words: Words<"cli" | "note-word">;
  /** Words of the note line that the answer has explained so far. */
  readonly explained: Set<string>;
}

/** `file:line:column  CODE  message`, the source line with a caret below it, the remedy, and what a word of the note line in it means where it is the first. */
export function problemText(problem: Problem, { sources, colour, words, explained }: ProblemTextOptions): string {
  const ink = inkFor(colour);
  const { file, line, column, pointer } = problem.where;
  const place = [file === undefined ? file : placeName(file, words), line, column]
    .filter((part) => part !== undefined)
    .join(":");
  const message = words.word(problem.words?.message, problem.message);
  const placed = line === undefined && pointer ? words.say("cli.at", { sentence: message, pointer }) : message;
  const said = problem.severity === "advice" ? words.say("cli.advice", { sentence: placed }) : placed;
  const code = problem.severity === "error" ? ink.rust(problem.code) : ink.blue(problem.code);
  const head = `${place === "" ? "" : `${ink.bold(plain(place))}  `}${code}  ${plain(said)}\n`;
  const remedy = problem.remedy === undefined ? undefined : words.word(problem.words?.remedy, problem.remedy);
  const below = remedy === undefined ? "" : `    ${ink.blue(`-> ${plain(remedy)}`)}\n`;
  const notes = explainNoteWords(problem, explained, words).map((note) => `    ${ink.dim(plain(note))}\n`);
  return head + excerpt(problem, sources, ink) + below + notes.join("");
}

function excerpt({ where }: Pick<Problem, "where">, sources: ReadonlyMap<string, string>, ink: Ink): string {
  if (where.file === undefined || where.line === undefined) return "";
  const source = sources.get(where.file)?.split(/\r\n|\n|\r/, where.line)[where.line - 1];
  if (source === undefined || source.trim() === "") return "";
  const column = Math.min(where.column ?? 1, source.length + 1);
  const start = column > SHOWN ? column - Math.floor(SHOWN / 2) : 0;
  const shown = plain(source.slice(start, start + SHOWN));
  // By code points: a letter outside the basic plane is two units of the column and one character on the screen.
  const caret = " ".repeat([...source.slice(start, column - 1)].length);
  return `    ${ink.dim(shown)}\n    ${caret}${ink.bold("^")}\n`;
}
