import { type Mark, movedBy } from "./drawing.js";

/** A piece of a page that is not broken; its marks from its own top left corner. */
export interface Block {
  readonly height: number;
  /** White before it, unless it is the first on its page. */
  readonly gap: number;
  /** Whether it may not be the last on its page: a heading, the first of two systems of a riff. */
  readonly keepsNext: boolean;
  readonly marks: readonly Mark[];
}

/** A block without marks moved or white: from marks that reach down to `height`. */
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
