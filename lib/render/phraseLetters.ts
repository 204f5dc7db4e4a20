/** The letter of a phrase of a take, counted from 1: A to Z, then AA, AB as engravers go on (common practice, no source). */
export function phraseLetter(phrase: number): string {
  const letter = String.fromCharCode(65 + ((phrase - 1) % 26));
  return phrase > 26 ? phraseLetter(Math.floor((phrase - 1) / 26)) + letter : letter;
}

/** The letters of phrases in rising order, neighbours joined: "A–C, E"; empty for none. */
export function letterRanges(phrases: readonly number[]): string {
  const ranges: { from: number; to: number }[] = [];
  for (const phrase of phrases) {
    const last = ranges.at(-1);
    if (last?.to === phrase - 1) last.to = phrase;
    else ranges.push({ from: phrase, to: phrase });
  }
  return ranges
    .map(({ from, to }) => (from === to ? phraseLetter(from) : `${phraseLetter(from)}–${phraseLetter(to)}`))
    .join(", ");
}
