import { isMap, isScalar, type ParsedNode, type YAMLMap } from "yaml";
import { failure, type Place, success } from "../../base/index.js";
import { problem } from "../codes.js";
import { LARGEST_PIECE, LARGEST_TEXT, MOST_ENTRIES, mostTokens } from "../limits.js";
import type { Result } from "../problem.js";
import { say } from "../say.js";
import { composed } from "./composed.js";
import { type Entry, entriesOf, inOneLine, joined, LONGEST_RUN, lineByLine, withoutEntries } from "./entries.js";
import { syntaxProblemsOf } from "./syntaxProblems.js";
import { type PlaceAt, placesIn, type TokenOptions, tokensOf } from "./tokens.js";

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
  const rest = documentIn(withoutEntries(text, pieces, inOneLine), options);
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
      // What is wrong is told by its line.
      lineByLine,
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
