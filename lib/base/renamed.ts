/** Most names that are compared: our choice, more than a course has that a person wrote, and few enough for thousands of unknown names. */
const MOST_NAMES = 100;

/**
 * The name that another one most likely became, where both have the same words and one of them perhaps more: "half-bar" and "half-bar-silence"; `undefined`
 * when that is true of no name or of several, or there are more than a hundred.
 */
export function renamedTo(former: string, names: readonly string[]): string | undefined {
  if (names.length > MOST_NAMES) return undefined;
  const words = wordsOf(former);
  const alike = names.filter((name) => {
    const others = wordsOf(name);
    const [fewer, more] = words.length <= others.length ? [words, others] : [others, words];
    return fewer.length > 0 && fewer.every((word) => more.includes(word));
  });
  return alike.length === 1 ? alike[0] : undefined;
}

function wordsOf(name: string): readonly string[] {
  return name
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");
}
