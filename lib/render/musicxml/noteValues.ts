import { compare, equals, type Fraction, fraction, multiply, subtract } from "../../base/index.js";
import type { MetricNode } from "./metricTree.js";

/** A note value: the part of a whole note as a power of two (4 is a quarter, 0.5 a breve), and dots. */
export interface NoteValue {
  readonly value: number;
  readonly dots: 0 | 1;
}

/** A rest over the first two eighths of a group of three is written as a quarter. */
const EIGHTH = fraction(1, 8);
/** The shortest note value MusicXML 4.0 names. */
const SHORTEST = 1024;
/** The shortest note value drawn inside a bar: our choice, a 256th is the shortest that fonts draw well. */
export const SHORTEST_DRAWN = 256;

/** The single note value of a length; `undefined` for a length that needs tied notes. */
export function noteValue(length: Fraction): NoteValue | undefined {
  const isPower = (n: number): boolean => n >= 1 && Number.isInteger(Math.log2(n));
  if (length.n === 1 && isPower(length.d) && length.d <= SHORTEST) return { value: length.d, dots: 0 };
  if (length.n === 2 && length.d === 1) return { value: 0.5, dots: 0 };
  if (length.n === 3 && isPower(length.d) && length.d >= 2 && length.d / 2 <= SHORTEST)
    return { value: length.d / 2, dots: 1 };
  if (length.n === 3 && length.d === 1) return { value: 0.5, dots: 1 };
  return undefined;
}

/** The name of a note value in MusicXML 4.0: "quarter", "16th". */
export function noteTypeName({ value }: NoteValue): string {
  return TYPE_NAMES[value] ?? `${value}th`;
}

const TYPE_NAMES: Readonly<Record<number, string>> = {
  0.5: "breve",
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  32: "32nd",
};

/**
 * Splits a note or rest from `from` to `to` inside a node of the metric tree into single note values that show the meter. Returns the ends of
 * the parts, in order.
 *
 * A note may cross the middle of a node when it begins or ends with the node, or lies in its middle (eighth, quarter, eighth). Every other
 * note is split where the meter divides; so are nearly all rests. Common practice, as in any handbook of notation; no single source.
 */
export function noteValueEnds(
  from: Fraction,
  to: Fraction,
  { node, kind }: { node: MetricNode; kind: "note" | "rest" },
): readonly Fraction[] {
  const length = subtract(to, from);
  const isOne = noteValue(length) !== undefined;
  if (equals(from, node.from) && equals(to, node.to) && isOne) return [to];
  const children = node.children();
  const inside = children.find((child) => compare(child.from, from) <= 0 && compare(child.to, to) >= 0);
  if (inside) return noteValueEnds(from, to, { node: inside, kind });
  if (kind === "note" && isOne && bridges(from, to, node)) return [to];
  if (node.divides === "halves") {
    const middle = children[0]!.to;
    return [
      ...noteValueEnds(from, middle, { node: children[0]!, kind }),
      ...noteValueEnds(middle, to, { node: children[1]!, kind }),
    ];
  }
  return acrossUnits(from, to, { children, kind });
}

function bridges(from: Fraction, to: Fraction, node: MetricNode): boolean {
  if (node.divides === "units") {
    const edges = node.children().flatMap((child) => [child.from, child.to]);
    return [from, to].every((end) => edges.some((edge) => equals(edge, end)));
  }
  const whole = subtract(node.to, node.from);
  const isMiddle =
    equals(multiply(subtract(to, from), fraction(2)), whole) &&
    equals(subtract(from, node.from), subtract(node.to, to));
  return equals(from, node.from) || equals(to, node.to) || isMiddle;
}

/** Splits at the first and the last edge inside; the units between stay together where one note value has their length. */
function acrossUnits(
  from: Fraction,
  to: Fraction,
  { children, kind }: { children: readonly MetricNode[]; kind: "note" | "rest" },
): readonly Fraction[] {
  const ends: Fraction[] = [];
  let at = from;
  for (const child of children) {
    if (compare(at, to) >= 0) break;
    if (compare(child.to, at) <= 0) continue;
    const mayJoin =
      kind === "note" || (equals(at, children[0]!.from) && compare(subtract(child.to, child.from), EIGHTH) <= 0);
    const furthest = equals(at, child.from) && mayJoin ? furthestEdge(at, to, children) : undefined;
    if (furthest !== undefined && compare(furthest, child.to) > 0) {
      ends.push(furthest);
      at = furthest;
      continue;
    }
    const end = compare(child.to, to) <= 0 ? child.to : to;
    ends.push(...noteValueEnds(at, end, { node: child, kind }));
    at = end;
  }
  return ends;
}

function furthestEdge(from: Fraction, to: Fraction, children: readonly MetricNode[]): Fraction | undefined {
  const reachable = children.filter((child) => compare(child.to, from) > 0 && compare(child.to, to) <= 0);
  return reachable.map((child) => child.to).findLast((edge) => noteValue(subtract(edge, from)) !== undefined);
}
