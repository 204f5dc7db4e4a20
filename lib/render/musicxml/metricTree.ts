import { add, type Fraction, fraction, multiply } from "../../base/index.js";
import { barLength, type Meter } from "../../time/index.js";

/** A node of the metric tree: the bar, a group, a beat, or half a beat, with the nodes it divides into. */
export interface MetricNode {
  readonly from: Fraction;
  readonly to: Fraction;
  /** `halves`: two children that a syncopated note may cross. `units`: beats or groups, which a note crosses only from edge to edge. */
  readonly divides: "halves" | "units";
  /** In order; made on demand, since halving has no end. */
  readonly children: () => readonly MetricNode[];
}

/**
 * The tree of a bar that begins at 0. Groups come first, equal groups in pairs; a group of an even number of units divides into
 * halves, an odd group into its units; a unit is halved without end.
 */
export function metricTree(meter: Meter): MetricNode {
  const unit = fraction(1, meter.lower);
  if (meter.groups.length === 1) return unitsNode(fraction(0), unit, meter.groups[0]!);
  let from = fraction(0);
  const groups = meter.groups.map((size) => {
    const node = unitsNode(from, unit, size);
    from = node.to;
    return node;
  });
  return groupsNode(groups, barLength(meter));
}

/** `count` units of a note value from `from`. */
export function unitsNode(from: Fraction, unit: Fraction, count: number): MetricNode {
  const length = multiply(unit, fraction(count));
  const isEven = count === 1 || count % 2 === 0;
  const parts = isEven ? 2 : count;
  const child = (i: number): MetricNode =>
    count === 1
      ? unitsNode(add(from, multiply(unit, fraction(i, 2))), multiply(unit, fraction(1, 2)), 1)
      : unitsNode(add(from, multiply(length, fraction(i, parts))), unit, count / parts);
  return {
    from,
    to: add(from, length),
    divides: isEven ? "halves" : "units",
    children: () => Array.from({ length: parts }, (_, i) => child(i)),
  };
}

function groupsNode(groups: readonly MetricNode[], to: Fraction): MetricNode {
  const half = groups.length / 2;
  const pairs = groups.length > 2 && Number.isInteger(half) && areEqual(groups);
  const children = pairs
    ? [groupsNode(groups.slice(0, half), groups[half - 1]!.to), groupsNode(groups.slice(half), groups.at(-1)!.to)]
    : groups;
  return {
    from: groups[0]!.from,
    to: pairs ? children[1]!.to : (groups.at(-1)?.to ?? to),
    divides: "units",
    children: () => children,
  };
}

function areEqual(groups: readonly MetricNode[]): boolean {
  const length = (node: MetricNode): number => node.to.n / node.to.d - node.from.n / node.from.d;
  return groups.every((group) => Math.abs(length(group) - length(groups[0]!)) < 1e-9);
}
