import { isMap, isScalar, isSeq, type Pair, type ParsedNode, Scalar } from "yaml";
import type { Problem } from "../../base/index.js";
import { pointerTo } from "../../schema/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";
import type { Content } from "./data.js";
import type { Source } from "./document.js";

/** Most texts reported. Our choice: with more of them the course is not lacking quotes but something else. */
const MOST = 500;

/**
 * LINE_NEEDS_QUOTES for every text, whatever its key, of which YAML leaves out a piece without a complaint: the rest of a line after a `#` that is
 * joined to a word ("Riff #3"), and a word after `&` that no alias asks for ("&c later").
 */
export function swallowedIn({ text, root, placeAt }: Source, { targets }: Content): readonly Problem[] {
  const found: Problem[] = [];
  const aims = new Set(targets.values());
  const tell = (at: number, pointer: string, as: "anchor" | "comment"): void => {
    const word = JSON.stringify(/^\S{0,20}/.exec(text.slice(at))![0]);
    const message =
      as === "anchor"
        ? say("curriculum-problem.line-needs-quotes-anchor", { word })
        : say("curriculum-problem.line-needs-quotes", { word, as });
    const remedy = say(`curriculum-problem.line-needs-quotes-${as}-remedy`);
    found.push(problem("LINE_NEEDS_QUOTES", message, { ...placeAt(at), pointer }, remedy));
  };
  const walk = (node: ParsedNode | null, path: readonly (string | number)[]): void => {
    if (found.length === MOST) return;
    if (isMap(node)) {
      for (const { key, value } of node.items as Pair<ParsedNode, ParsedNode | null>[])
        walk(value, [...path, isScalar(key) ? String(key.value) : ""]);
    } else if (isSeq(node)) for (const [i, item] of node.items.entries()) walk(item as ParsedNode, [...path, i]);
    if (!isScalar(node) || node.type !== Scalar.PLAIN) return;
    if (typeof node.value !== "string" && node.value !== null) return;
    const [from, end] = node.range;
    if (node.anchor !== undefined && !aims.has(node)) {
      const at = text.lastIndexOf(`&${node.anchor}`, from);
      tell(at, pointerTo(path), "anchor");
    }
    const comment = /^[ \t]*(?=#\S)/.exec(text.slice(end, text.indexOf("\n", end) + 1 || undefined));
    if (comment) tell(end + comment[0].length, pointerTo(path), "comment");
  };
  walk(root, []);
  return found;
}
