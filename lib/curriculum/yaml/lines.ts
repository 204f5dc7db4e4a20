/** Line and column, both from 1, of an offset in a text. */
export type PlaceAt = (offset: number) => { readonly line: number; readonly column: number };

/** Where the lines of a text are: they end with a line feed, as editors count them; columns count UTF-16 code units. */
export function linesOf(text: string): PlaceAt {
  const starts = [0];
  for (let end = text.indexOf("\n"); end !== -1; end = text.indexOf("\n", end + 1)) starts.push(end + 1);
  return (offset) => {
    const inside = Math.max(0, Math.min(offset, text.length));
    let [low, high] = [0, starts.length];
    // The last line that starts at or before the offset.
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= inside) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: inside - starts[low]! + 1 };
  };
}
