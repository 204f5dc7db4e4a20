import { type Block, blockOf } from "./block.js";
import { movedBy } from "./drawing.js";

/** Two blocks beside each other, the second `offset` points from the first's left edge. */
export function besideEachOther(left: Block, right: Block, offset: number): Block {
  return blockOf([...left.marks, ...movedBy(right.marks, offset, 0)], {
    height: Math.max(left.height, right.height),
    gap: Math.max(left.gap, right.gap),
  });
}
