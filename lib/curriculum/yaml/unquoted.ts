import { isMap, isScalar, isSeq, type ParsedNode } from "yaml";
import type { Place, Worded } from "../../base/index.js";
import { PERCUSSION } from "../../pattern/index.js";
import { pointerTo } from "../../schema/index.js";
import { problem } from "../codes.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";

/** A text without quotes in which YAML takes a sign for its own. Offsets into the YAML text. */
export interface Unquoted {
  /** Where its key begins. */
  readonly key: number;
  /** Where the text begins and ends as its writer meant it. */
  readonly from: number;
  readonly to: number;
  /** Where the sign stands. */
  readonly at: number;
  /** What YAML takes for what. */
  readonly taken: Worded;
}

/** Keys of texts in which musicians write signs of YAML. Voices of drums are keys too. */
const KEYS = ["notes", "rhythm", "chords", "title", "about", ...PERCUSSION.keys()];

const KEY = new RegExp(`(?:^[ \\t]*|[{,][ \\t]*)((["']?)(?:${KEYS.join("|")})\\2):[ \\t]+`, "g");

/** The end of a text inside braces: a brace, or the next key. */
const END_IN_BRACES = /[{}]|,[^,{}:]*:[ \t]/;

/** Most texts looked at. Our choice: with more of them the course is not lacking quotes but something else. */
const MOST_UNQUOTED = 500;

/** Finds the texts of one line that need quotes and have none, by their keys: lines of notes, drums and chords, and titles. */
export function unquotedIn(text: string): readonly Unquoted[] {
  const found: Unquoted[] = [];
  let start = 0;
  for (const line of text.split("\n")) {
    for (const match of line.matchAll(KEY)) {
      const from = match.index + match[0].length;
      const inBraces = /[{,]/.test(match[0][0]!);
      const value = valueAt(line, from, inBraces);
      const sign = signIn(value, inBraces);
      if (!sign) continue;
      const { at, taken } = sign;
      const key = start + match.index + match[0].indexOf(match[1]!);
      if (found.length === MOST_UNQUOTED) return found;
      found.push({ key, from: start + from, to: start + from + value.length, at: start + from + at, taken });
    }
    start += line.length + 1;
  }
  return found;
}

/** The text with quotes where they are missing, and where an offset of the text lies in it. */
export function quoted(
  text: string,
  missing: readonly Unquoted[],
): { readonly text: string; readonly movedTo: (offset: number) => number } {
  let written = "";
  let end = 0;
  const added: { readonly from: number; readonly by: number }[] = [];
  for (const { from, to } of missing) {
    const value = text.slice(from, to);
    const inQuotes = `'${value.replaceAll("'", "''")}'`;
    written += text.slice(end, from) + inQuotes;
    added.push({ from, by: inQuotes.length - value.length });
    end = to;
  }
  const movedTo = (offset: number): number =>
    added.reduce((moved, { from, by }) => (from < offset ? moved + by : moved), offset);
  return { text: written + text.slice(end), movedTo };
}

/** LINE_NEEDS_QUOTES for those of the texts whose keys are keys of the document (`keyAt`: of an offset in the text it was read from). */
export function quotesProblems(
  missing: readonly Unquoted[],
  root: ParsedNode | null | undefined,
  { keyAt, placeAt }: { readonly keyAt: (offset: number) => number; readonly placeAt: (offset: number) => Place },
): readonly Problem[] {
  if (missing.length === 0 || !root) return [];
  const pointers = new Map<number, string>();
  collectKeys(root, [], pointers);
  return missing.flatMap((each) => {
    const pointer = pointers.get(keyAt(each.key));
    if (pointer === undefined) return [];
    const remedy = say("curriculum-problem.quote-line");
    return [problem("LINE_NEEDS_QUOTES", each.taken, { ...placeAt(each.at), pointer }, remedy)];
  });
}

function valueAt(line: string, from: number, inBraces: boolean): string {
  const rest = line.slice(from);
  const end = inBraces ? rest.search(END_IN_BRACES) : -1;
  const text = end === -1 ? rest : rest.slice(0, end);
  const comment = text.search(/(^|[ \t])#([ \t\r]|$)/);
  return (comment === -1 ? text : text.slice(0, comment)).trimEnd();
}

/** What YAML takes a sign for. */
type Sign = "list" | "lines" | "key" | "bracket" | "tag" | "directive" | "sign" | "comment";

function signIn(value: string, inBraces: boolean): { readonly at: number; readonly taken: Worded } | undefined {
  const first = value[0] ?? "";
  // In quotes, the head of a text of several lines, an anchor or an alias.
  if (first === "" || `"'&*`.includes(first) || /^[|>][-+\d]*$/.test(value)) return undefined;
  const found = (at: number, as: Sign): { at: number; taken: Worded } => {
    const word = JSON.stringify(/^\S{0,20}/.exec(value.slice(at))![0]);
    return { at, taken: say("curriculum-problem.line-needs-quotes", { word, as }) };
  };
  if (/^-(\s|$)/.test(value)) return found(0, "list");
  const meaning = FIRST_SIGNS[first];
  if (meaning !== undefined && !/^!!(str|int|float|bool|null|map|seq)\s/.test(value)) return found(0, meaning);
  const comment = value.search(/(^|[ \t])#\S/);
  if (comment !== -1) return found(value.indexOf("#", comment), "comment");
  const colon = value.search(/:(\s|$)/);
  if (colon !== -1) return found(colon, "key");
  const bracket = inBraces ? value.search(/[[\]{}]/) : -1;
  return bracket === -1 ? undefined : found(bracket, "bracket");
}

const FIRST_SIGNS: Readonly<Record<string, Sign>> = {
  "|": "lines",
  ">": "lines",
  "!": "tag",
  "%": "directive",
  "@": "sign",
  "`": "sign",
};

function collectKeys(node: ParsedNode | null, path: readonly (string | number)[], pointers: Map<number, string>): void {
  if (isMap(node)) {
    for (const { key, value } of node.items as { key: ParsedNode; value: ParsedNode | null }[]) {
      if (!isScalar(key)) continue;
      const inside = [...path, String(key.value)];
      pointers.set(key.range[0], pointerTo(inside));
      collectKeys(value, inside, pointers);
    }
  } else if (isSeq(node)) {
    for (const [i, item] of node.items.entries()) collectKeys(item as ParsedNode, [...path, i], pointers);
  }
}
