import { type Mark, movedBy } from "./drawing.js";

/** A part of a page that is not divided between pages. Its marks are relative to its top left corner; lengths in points. */
export interface Block {
  readonly height: number;
  /** White space above it, unless it is the first on its page. */
  readonly gap: number;
  /** Whether the next block must be on the same page: after a heading, or the first of two systems of a riff. */
  readonly keepsNext: boolean;
  readonly marks: readonly Mark[];
}

/** A block of marks that reach down to `height`; without options it has no gap and may be the last on its page. */
export function blockOf(
  marks: readonly Mark[],
  { height, gap = 0, keepsNext = false }: { height: number; gap?: number; keepsNext?: boolean },
): Block {
  return { marks, height, gap, keepsNext };
}

/** Two blocks beside each other, the second `offset` points from the first's left edge. */
export function besideEachOther(left: Block, right: Block, offset: number): Block {
  return blockOf([...left.marks, ...movedBy(right.marks, offset, 0)], {
    height: Math.max(left.height, right.height),
    gap: Math.max(left.gap, right.gap),
  });
}
