import { compare, type Fraction } from "../../base/index.js";

/** A half-open interval in whole notes, `from` included, `to` excluded. */
export interface Stretch {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** The union of stretches, as non-empty stretches in order that neither touch nor overlap. */
export function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const ordered = stretches.filter(({ from, to }) => compare(from, to) < 0).sort((a, b) => compare(a.from, b.from));
  const result: Stretch[] = [];
  for (const next of ordered) {
    const last = result.at(-1);
    if (last === undefined || compare(next.from, last.to) > 0) result.push(next);
    else if (compare(next.to, last.to) > 0) result[result.length - 1] = { from: last.from, to: next.to };
  }
  return result;
}

/** The difference of a stretch and gaps (joined), in order. */
export function outside(whole: Stretch, gaps: readonly Stretch[]): readonly Stretch[] {
  const edges = [{ from: whole.from, to: whole.from }, ...gaps, { from: whole.to, to: whole.to }];
  return edges
    .slice(1)
    .map((gap, i) => ({ from: latest(edges[i]!.to, whole.from), to: earliest(gap.from, whole.to) }))
    .filter(({ from, to }) => compare(from, to) < 0);
}

export function earliest(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}

function latest(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) >= 0 ? a : b;
}
