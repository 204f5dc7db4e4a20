import type { Block } from "./block.js";
import { type Mark, movedBy } from "./drawing.js";

/** A block with its vertical position on a page, in points. */
export interface Placed {
  readonly y: number;
  readonly block: Block;
}

/** Smallest factor for the gaps between blocks to save a page; our choice. */
const TIGHTEST = 0.4;

/**
 * Divides blocks into pages of `height` points, in order. All are on one page when they fit with smaller gaps. Else each page has as many blocks
 * as fit; blocks that belong together (`keepsNext`) stay together. A block higher than a page has a page to itself. Without blocks there is one empty page.
 */
export function paginate(blocks: readonly Block[], height: number): readonly (readonly Placed[])[] {
  const white = blocks.slice(1).reduce((sum, block) => sum + block.gap, 0);
  const ink = blocks.reduce((sum, block) => sum + block.height, 0);
  const squeeze = white > 0 ? Math.min(1, (height - ink) / white) : 1;
  if (ink <= height && squeeze >= TIGHTEST) return [placed(blocks, squeeze)];
  const pages: (readonly Placed[])[] = [];
  let rest = blocks;
  while (rest.length > 0) {
    const count = fitting(rest, height);
    pages.push(placed(rest.slice(0, count), 1));
    rest = rest.slice(count);
  }
  return pages;
}

/** The number of blocks on the next page, at least one. */
function fitting(blocks: readonly Block[], height: number): number {
  let used = 0;
  let best = 0;
  let most = 0;
  for (const [i, block] of blocks.entries()) {
    used += block.height + (i === 0 ? 0 : block.gap);
    if (used > height) break;
    most = i + 1;
    if (!block.keepsNext || i === blocks.length - 1) best = i + 1;
  }
  return best || most || 1;
}

function placed(blocks: readonly Block[], squeeze: number): readonly Placed[] {
  let y = 0;
  return blocks.map((block, i) => {
    if (i > 0) y += block.gap * squeeze;
    const at = { y, block };
    y += block.height;
    return at;
  });
}

/** The marks of a page whose top left corner is at x, y. */
export function marksOf(
  page: readonly Placed[],
  { x, y }: { readonly x: number; readonly y: number },
): readonly Mark[] {
  return page.flatMap((each) => movedBy(each.block.marks, x, y + each.y));
}
