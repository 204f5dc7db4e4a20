/**
 * Compares two edition numbers by the precedence of Semantic Versioning 2.0.0, section 11: below 0 when `a` comes first, above 0 when `b`
 * does, 0 when neither. Build metadata is not compared.
 *
 * @example compareEditionNumbers("1.0.0-rc.1", "1.0.0") // below 0
 */
export function compareEditionNumbers(a: string, b: string): number {
  const [left, right] = [orderOf(a), orderOf(b)];
  return left === right ? 0 : left < right ? -1 : 1;
}

/** Most digits of a number in the number of an edition. */
const DIGITS = 99;

/**
 * An edition number as a text that sorts by code units as the numbers follow each other: its identifiers are divided by what comes before all else, numbers
 * stand by size and before words, and a version without a pre-release has in its place what comes after all words.
 */
function orderOf(edition: string): string {
  const [, core, before = "~"] = /^([^+-]*)-?([^+]+)?/.exec(edition)!;
  return `${core}.${before}`
    .split(".")
    .map((each) => (/^\d+$/.test(each) ? ` ${each.padStart(DIGITS, "0")}` : each))
    .join("\0");
}
