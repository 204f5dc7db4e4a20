import { isAlias, isCollection, isMap, isScalar, isSeq, type Pair, type ParsedNode } from "yaml";
import type { Place } from "../../base/index.js";
import { pathOf } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import type { Content } from "./data.js";
import type { Source } from "./document.js";
import { offsetsInScalar } from "./scalarOffsets.js";

/** Adds file, line and column to a problem that has a JSON pointer and, for a text, an offset into it. */
type Locate = (problem: Problem) => Problem;

/** Codes of problems with a key itself and not with its value, and the pointers for which that is so. */
const ABOUT_KEYS: Readonly<Record<string, RegExp>> = {
  UNKNOWN_KEY: /./,
  FORMER_KEY: /./,
  NAME_FORM: /./,
  PART_UNKNOWN: /\/mixes\/[^/]+\/[^/]+$/,
  VOICE_UNKNOWN: /\/voices\/[^/]+$/,
};

/** The locator of one document. A value that is not in the text (a default, a missing key) gets the place of the nearest node around it. */
export function locator(source: Source, { targets }: Pick<Content, "targets">, file: string): Locate {
  const indexes = new Map<ParsedNode, ReadonlyMap<string, Pair<ParsedNode, ParsedNode | null>>>();
  const pairsOf = (map: ParsedNode & { items: Pair<ParsedNode, ParsedNode | null>[] }) => {
    const known = indexes.get(map);
    if (known !== undefined) return known;
    const index = new Map<string, Pair<ParsedNode, ParsedNode | null>>();
    for (const pair of map.items) {
      const name = isScalar(pair.key) ? String(pair.key.value) : undefined;
      if (name !== undefined && !index.has(name)) index.set(name, pair);
    }
    indexes.set(map, index);
    return index;
  };

  const characters = new Map<ParsedNode, Uint32Array>();
  const characterIn = (node: ParsedNode, index: number): number => {
    const offsets = characters.get(node) ?? offsetsInScalar(source.text, node);
    characters.set(node, offsets);
    return offsets[Math.max(0, Math.min(index, offsets.length - 1))]!;
  };

  const offsetOf = (pointer: string, inside: number | undefined, wantsKey: boolean): number => {
    let node: ParsedNode | null = source.root;
    let key: ParsedNode | undefined;
    let whole = true;
    for (const step of pathOf(pointer)) {
      while (isAlias(node)) node = targets.get(node) ?? null;
      const pair: Pair<ParsedNode, ParsedNode | null> | undefined = isMap(node)
        ? pairsOf(node as never).get(step)
        : undefined;
      const item: ParsedNode | undefined = isSeq(node)
        ? (node.items[Number(step)] as ParsedNode | undefined)
        : undefined;
      if (pair === undefined && item === undefined) {
        whole = false;
        break;
      }
      key = pair?.key;
      node = pair === undefined ? item! : pair.value;
    }
    while (isAlias(node)) node = targets.get(node) ?? null;
    if (whole && inside !== undefined && node !== null) return characterIn(node, inside);
    const atKey = key !== undefined && (wantsKey || !whole || node === null || isCollection(node));
    return (atKey ? key!.range[0] : node?.range[0]) ?? 0;
  };

  return (found) => {
    const { pointer = "", offset, ...where } = found.where;
    if (where.line !== undefined) return { ...found, where: { file, ...where, pointer } };
    const wantsKey = offset === undefined && (ABOUT_KEYS[found.code]?.test(pointer) ?? false);
    const place: Place = { file, ...source.placeAt(offsetOf(pointer, offset, wantsKey)), pointer };
    return { ...found, where: place };
  };
}
