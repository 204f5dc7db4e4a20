import { distance } from "fastest-levenshtein";

/**
 * The name that a misspelled text most likely means: the one with the smallest edit distance, ignoring case; `undefined` when more than a third
 * of the letters differ from every name. Two swapped neighbours count as one difference.
 */
export function nearestName(written: string, names: Iterable<string>): string | undefined {
  // Our choice: a third of the letters, because a larger share would suggest unrelated names.
  let best: string | undefined;
  let least = Math.max(1, Math.floor(written.length / 3)) + 1;
  for (const name of names) {
    const cost = differences(written.toLowerCase(), name.toLowerCase());
    if (cost < least) [best, least] = [name, cost];
  }
  return best;
}

function differences(a: string, b: string): number {
  let i = 0;
  while (i < a.length && a[i] === b[i]) i += 1;
  const swapped = a.slice(0, i) + (a[i + 1] ?? "") + (a[i] ?? "") + a.slice(i + 2);
  return swapped === b && a !== b ? 1 : distance(a, b);
}
