import type { Block } from "./block.js";
import { type Mark, movedBy } from "./drawing.js";

/** A block at its height on a page. */
export interface Placed {
  readonly y: number;
  readonly block: Block;
}

/** How far the white between blocks may shrink to save a page. */
const TIGHTEST = 0.4;

/**
 * Blocks onto pages of a height, in order: on one page if they fit with less white between them, else as many to a page as fit, what
 * belongs together kept together, and what is left of the last page left white. A block higher than a page stands alone on one.
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

/** How many blocks go on a page: at least one. */
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

/** The marks of a page, from its top left corner. */
export function marksOf(
  page: readonly Placed[],
  { x, y }: { readonly x: number; readonly y: number },
): readonly Mark[] {
  return page.flatMap((each) => movedBy(each.block.marks, x, y + each.y));
}
