import type { JournalKey } from "./model.js";

/** Order of journals in a list: by code points, which is the order of UTF-8 bytes in databases. */
export function byName(a: JournalKey, b: JournalKey): number {
  return comparePoints(a.student, b.student) || comparePoints(a.curriculum, b.curriculum);
}

function comparePoints(a: string, b: string): number {
  const [left, right] = [[...a], [...b]];
  for (let i = 0; i < left.length && i < right.length; i++) {
    const difference = left[i]!.codePointAt(0)! - right[i]!.codePointAt(0)!;
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}
