import { isAlias, isMap, isScalar, type Pair, type ParsedNode, Scalar } from "yaml";
import { success } from "../base/index.js";
import {
  compileFrame,
  type Frame,
  type FrameDocument,
  formerNotes,
  keepsBars,
  type LineKind,
  parseNotes,
  rewriteInterval,
  rewriteLine,
} from "../pattern/index.js";
import { problem } from "./codes.js";
import { FORMER_KEYS } from "./formerKeys.js";
import type { Problem, Result } from "./problem.js";
import { type ReadOptions, readCurriculum } from "./read.js";
import { say } from "./say.js";
import { isKeyed } from "./wellFormed.js";
import { type Content, contentOf } from "./yaml/data.js";
import { documentOf } from "./yaml/document.js";

/**
 * A course whose keys, intervals, or lines of notes, drums and chords are in the former spelling, with these in the present one and everything else to the
 * byte as it was. A course of the present spelling comes back unchanged.
 *
 * Problems: NOT_REWRITTEN for a line that would have other notes, or that was not read before either; those of the text as YAML, and of the
 * rewritten course, which is given back only when it reads.
 *
 * @example
 * rewriteCurriculum(yamlText, { file: "course.yaml", readFile: () => undefined }).ok // true
 */
export function rewriteCurriculum(text: string, options: ReadOptions): Result<string> {
  const lines = rewriteText(text);
  const inFile = (problems: readonly Problem[]): readonly Problem[] =>
    problems.map((each) => ({ ...each, where: { file: options.file, ...each.where } }));
  if (!lines.ok) return { ok: false, problems: inFile(lines.problems) };
  const { text: rewritten, refused } = lines.value;
  if (refused.length > 0) return { ok: false, problems: inFile(refused) };
  const read = readCurriculum(rewritten, options);
  if (read.ok) return success(rewritten);
  const isPresent = rewritten === text && !read.problems.some(({ code }) => FORMER_CODES.includes(code));
  return isPresent ? success(text) : read;
}

const FORMER_CODES: readonly string[] = ["FORMER_SPELLING", "FORMER_KEY"];

/** A stretch of the text and what is to stand there. */
interface Edit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/**
 * The text with every key and line of the former spelling rewritten that can be, and NOT_REWRITTEN for each line that would have other
 * music, which stays as it is. Problems: those of the text as YAML.
 */
function rewriteText(given: string): Result<{ readonly text: string; readonly refused: readonly Problem[] }> {
  const source = documentOf(given);
  if (!source.ok) return source;
  const content = contentOf(source.value);
  if (!content.ok) return content;
  const refused: Problem[] = [];
  const { text, root } = source.value;
  const edits: Edit[] = [...keyEdits(text, root, content.value.targets)];
  for (const { node, kind, frame } of [...linesOf(root, content.value), ...intervalsOf(root, content.value)]) {
    const [from, to] = textRange(text, node);
    const former = text.slice(from, to);
    const rewritten = kind === "interval" ? rewriteInterval(former) : rewriteLine(kind, former, frame);
    // A line that is not of the former spelling is of the present one, or wrong in both.
    if (rewritten === undefined || rewritten === former) continue;
    const present = rewritten.replace(/\s+/g, " ").trim();
    if (kind === "interval" || hasSameMusic({ node, kind, frame }, present)) edits.push({ from, to, text: rewritten });
    else {
      const message = say("curriculum-problem.not-rewritten", { line: present });
      const where = { ...source.value.placeAt(node.range[0]), pointer: "" };
      refused.push(problem("NOT_REWRITTEN", message, where, say("curriculum-problem.not-rewritten-remedy")));
    }
  }
  let written = "";
  let end = 0;
  for (const edit of edits.sort((a, b) => a.from - b.from)) {
    written += text.slice(end, edit.from) + edit.text;
    end = edit.to;
  }
  return success({ text: written + text.slice(end), refused });
}

/** The former keys, each once, where they are written. */
function* keyEdits(text: string, root: ParsedNode, targets: Content["targets"]): Iterable<Edit> {
  const seen = new Set<ParsedNode>();
  for (const { inside, former, present } of FORMER_KEYS) {
    let nodes: readonly ParsedNode[] = [root];
    for (const step of inside) {
      const entries = nodes.flatMap((node) => entriesOf(node, targets));
      nodes = entries.filter(([name]) => step === "*" || step === name).map(([, value]) => value);
    }
    for (const node of nodes) {
      for (const { key } of isMap(node) ? node.items : []) {
        if (!isScalar(key) || key.value !== former || seen.has(key as ParsedNode)) continue;
        seen.add(key as ParsedNode);
        const [from, to] = textRange(text, key as ScalarNode);
        yield { from, to, text: present };
      }
    }
  }
}

/** Whether a rewritten line has the notes, strokes or chords that its former one was read to. */
function hasSameMusic({ node, kind, frame }: LineNode, present: string): boolean {
  const former = node.value;
  if (kind !== "notes") return keepsBars(former, present, frame);
  const notes = formerNotes(former, frame);
  const read = parseNotes(present, frame);
  return notes !== undefined && read.ok && JSON.stringify(read.value) === JSON.stringify(notes);
}

type ScalarNode = ParsedNode & Scalar<string>;

interface LineNode {
  readonly node: ScalarNode;
  readonly kind: LineKind;
  readonly frame: Frame;
}

/** The lines of all patterns, each once, where they are written; none of a pattern whose bars cannot be read. */
function* linesOf(root: ParsedNode, { value, targets }: Content): Iterable<LineNode> {
  const seen = new Set<ParsedNode>();
  const inside = (node: ParsedNode | undefined): ReadonlyMap<string, ParsedNode> => new Map(entriesOf(node, targets));
  const line = (node: ParsedNode | undefined, kind: LineKind, frame: Frame): readonly LineNode[] => {
    if (!isScalar(node) || typeof node.value !== "string" || seen.has(node)) return [];
    seen.add(node);
    return [{ node: node as ScalarNode, kind, frame }];
  };
  const patterns = isKeyed(value) && isKeyed(value.patterns) ? value.patterns : {};
  for (const [name, pattern] of inside(inside(root).get("patterns"))) {
    const frame = frameOf(patterns[name]);
    if (!frame) continue;
    yield* line(inside(pattern).get("chords"), "chords", frame);
    for (const part of inside(inside(pattern).get("parts")).values()) {
      for (const music of [part, ...inside(inside(part).get("variants")).values()]) {
        yield* line(inside(music).get("notes"), "notes", frame);
        for (const voice of inside(inside(music).get("voices")).values()) yield* line(voice, "grid", frame);
      }
    }
  }
}

interface IntervalNode {
  readonly node: LineNode["node"];
  readonly kind: "interval";
  readonly frame?: never;
}

/** The intervals of the course's own instruments, each once, where they are written. */
function* intervalsOf(root: ParsedNode, { targets }: Content): Iterable<IntervalNode> {
  const inside = (node: ParsedNode | undefined): ReadonlyMap<string, ParsedNode> => new Map(entriesOf(node, targets));
  const seen = new Set<ParsedNode>();
  for (const instrument of inside(inside(root).get("instruments")).values()) {
    const node = inside(instrument).get("sounds");
    if (!isScalar(node) || typeof node.value !== "string" || seen.has(node)) continue;
    seen.add(node);
    yield { node: node as LineNode["node"], kind: "interval" };
  }
}

/** The keys and values of a mapping, with aliases followed; none of another node. */
function entriesOf(
  node: ParsedNode | undefined,
  targets: Content["targets"],
): readonly (readonly [string, ParsedNode])[] {
  if (!isMap(node)) return [];
  return (node.items as Pair<ParsedNode, ParsedNode | null>[]).flatMap(({ key, value }) => {
    let at: ParsedNode | null | undefined = value;
    while (isAlias(at)) at = targets.get(at);
    return isScalar(key) && at ? [[String(key.value), at] as const] : [];
  });
}

function frameOf(pattern: unknown): Frame | undefined {
  if (!isKeyed(pattern)) return undefined;
  const { meter, bars, "meter-changes": changes, "pick-up": pickup } = pattern;
  const areChanges = changes === undefined || (Array.isArray(changes) && changes.every(isMeterChange));
  const isFrame = typeof meter === "string" && typeof bars === "number" && areChanges;
  if (!isFrame || (pickup !== undefined && typeof pickup !== "string")) return undefined;
  const frame = compileFrame(pattern as unknown as FrameDocument);
  return frame.ok ? frame.value : undefined;
}

function isMeterChange(change: unknown): boolean {
  return isKeyed(change) && typeof change.bar === "number" && typeof change.meter === "string";
}

/** Where the text of a scalar lies, without quotes and without the head of a block. */
function textRange(text: string, { range, type }: ScalarNode): readonly [number, number] {
  const [start, end] = range;
  if (type === Scalar.QUOTE_DOUBLE || type === Scalar.QUOTE_SINGLE) return [start + 1, end - 1];
  const isBlock = type === Scalar.BLOCK_FOLDED || type === Scalar.BLOCK_LITERAL;
  return [isBlock ? text.indexOf("\n", start) + 1 : start, end];
}
