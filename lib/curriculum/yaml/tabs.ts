import type { YAMLError } from "yaml";
import { problem } from "../codes.js";
import { say } from "../say.js";
import { errorsIn } from "./composed.js";
import type { Mended } from "./mended.js";
import type { PlaceAt } from "./tokens.js";

/** The indentation of a line that has a tab in it, and something behind it. */
const TABBED = /^ *\t[ \t]*(?=[^ \t\r#])/;

/** What a line with a tab may have been meant to be indented with, likeliest first: with tabs as wide as editors have them (from memory), as its neighbours, not at all. */
const INDENTS: readonly (number | "as before" | "as behind")[] = [4, 8, 2, 6, "as before", "as behind", 0];

/**
 * The tabs that lines are indented with, as one problem at the first of them, when blanks in their place leave fewer errors; with the text that
 * has blanks, and its errors. One tab otherwise puts a whole section in a wrong place, and all its lines are complained of.
 */
export function tabsBefore(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): Mended | undefined {
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
