/**
 * The name that another one most likely became, where both have the same words and one of them perhaps more: "half-bar" and "half-bar-silence"; `undefined`
 * when that is true of no name or of several.
 */
export function renamedTo(former: string, names: Iterable<string>): string | undefined {
  const words = wordsOf(former);
  const alike = [...names].filter((name) => {
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
