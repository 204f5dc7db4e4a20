import { SaxesParser } from "saxes";
import type { Problem, Worded } from "../../base/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";

/** Deepest nesting of elements: our choice; real scores have fewer than 20 levels. */
const DEEPEST = 64;
/** Most elements: our choice; with the limit on the text (readMusicXml.ts) a hostile file stays below a second and 200 MB. */
const MOST_ELEMENTS = 150_000;

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  readonly text: string;
}

export interface XmlVisitor {
  /** Elements of these names are built with their content, and visited when they close. */
  readonly build: ReadonlySet<string>;
  visit(element: Element): void;
  /** Called for every other element, when it opens. */
  open(name: string, attributes: Readonly<Record<string, string>>, depth: number): void;
}

/**
 * Walks an XML document. Document types are not read and nothing is fetched. Only the five entities of XML are expanded; any other is an error.
 * Problems: MUSICXML_NOT_XML (the first, with line and column), MUSICXML_TOO_LARGE.
 */
export function walkXml(text: string, visitor: XmlVisitor): readonly Problem[] {
  const parser = new SaxesParser({ position: true, xmlns: false });
  const stack: { name: string; attributes: Record<string, string>; children: Element[]; text: string }[] = [];
  const found: Problem[] = [];
  let depth = 0;
  let elements = 0;
  const stop = (code: "MUSICXML_NOT_XML" | "MUSICXML_TOO_LARGE", message: Worded): never => {
    found.push(problem(code, message, { line: parser.line, column: parser.columnIndex + 1 }));
    throw STOP;
  };
  parser.on("error", (error) =>
    stop(
      "MUSICXML_NOT_XML",
      say("formats-problem.musicxml-not-xml", { reason: error.message.replace(/^\d+:\d+: /, "") }),
    ),
  );
  parser.on("opentag", (tag) => {
    if (++depth > DEEPEST)
      stop("MUSICXML_TOO_LARGE", say("formats-problem.musicxml-too-large-in-depth", { most: DEEPEST }));
    if (++elements > MOST_ELEMENTS)
      stop("MUSICXML_TOO_LARGE", say("formats-problem.musicxml-too-large-in-elements", { most: MOST_ELEMENTS }));
    if (stack.length > 0 || visitor.build.has(tag.name)) {
      stack.push({ name: tag.name, attributes: tag.attributes, children: [], text: "" });
    } else visitor.open(tag.name, tag.attributes, depth);
  });
  parser.on("text", (piece) => {
    const top = stack.at(-1);
    if (top) top.text += piece;
  });
  parser.on("closetag", () => {
    depth--;
    const element = stack.pop();
    if (!element) return;
    const parent = stack.at(-1);
    if (parent) parent.children.push(element);
    else visitor.visit(element);
  });
  try {
    parser.write(text).close();
  } catch (thrown) {
    if (thrown !== STOP) throw thrown;
  }
  return found;
}

/** The first child element with a name. */
export function child(element: Element, name: string): Element | undefined {
  return element.children.find((c) => c.name === name);
}

/** All child elements with a name. */
export function childrenOf(element: Element, name: string): readonly Element[] {
  return element.children.filter((c) => c.name === name);
}

/** The text of the first child element with a name, without blanks at its ends. */
export function textOf(element: Element, name: string): string | undefined {
  return child(element, name)?.text.trim();
}

/** Thrown to end the walk: the library continues after an error unless its handler throws. */
const STOP = new Error("stop");
