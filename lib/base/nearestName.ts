import { distance } from "fastest-levenshtein";

/**
 * The name a misspelling was most likely meant to be: at most a third of its letters differ, ignoring case; else `undefined`. Two
 * neighbours that changed places count as one difference.
 */
export function nearestName(written: string, names: Iterable<string>): string | undefined {
  // Our choice: a third of the letters, because more would suggest names the writer did not mean.
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
