/**
 * Compares two edition numbers by the precedence of Semantic Versioning 2.0.0, section 11: below 0 when `a` comes first, above 0 when `b`
 * does, 0 when neither. Build metadata is not compared.
 *
 * @example compareEditionNumbers("1.0.0-rc.1", "1.0.0") // below 0
 */
export function compareEditionNumbers(a: string, b: string): number {
  const [left, right] = [partsOf(a), partsOf(b)];
  const core = firstDifference(left.core, right.core, (x, y) => Number(x) - Number(y));
  if (core !== 0) return core;
  // A version with a pre-release comes before the one without.
  if (left.before.length === 0 || right.before.length === 0) return right.before.length - left.before.length;
  return firstDifference(left.before, right.before, compareIdentifiers) || left.before.length - right.before.length;
}

function partsOf(edition: string): { readonly core: readonly string[]; readonly before: readonly string[] } {
  const [version = ""] = edition.split("+");
  const dash = version.indexOf("-");
  if (dash < 0) return { core: version.split("."), before: [] };
  return { core: version.slice(0, dash).split("."), before: version.slice(dash + 1).split(".") };
}

function firstDifference(
  a: readonly string[],
  b: readonly string[],
  compare: (x: string, y: string) => number,
): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const difference = compare(a[i]!, b[i]!);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Numbers by size and before words; words by their code units. */
function compareIdentifiers(a: string, b: string): number {
  const [left, right] = [/^\d+$/.test(a), /^\d+$/.test(b)];
  if (left && right) return a.length - b.length || order(a, b);
  return left === right ? order(a, b) : left ? -1 : 1;
}

function order(a: string, b: string): number {
  return a === b ? 0 : a < b ? -1 : 1;
}
