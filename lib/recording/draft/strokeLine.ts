import type { DraftNote } from "./model.js";

/** The strokes of a draft as a drum line, a character for each place of the grid: `x` a stroke, `-` nothing; bars divided by `|`. */
export function strokeLine(
  notes: readonly Pick<DraftNote, "place">[],
  { perBar, bars }: { readonly perBar: number; readonly bars: number },
): string {
  const struck = new Set(notes.map(({ place }) => place));
  const written = Array.from({ length: bars }, (_, bar) =>
    Array.from({ length: perBar }, (_, i) => (struck.has(bar * perBar + i) ? "x" : "-")).join(""),
  );
  return written.join(" | ");
}
