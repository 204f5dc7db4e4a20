import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Block, blockOf } from "../../../lib/render/sheet/block.js";
import { paginate } from "../../../lib/render/sheet/paginate.js";

const PAGE = 700;
const blocks: fc.Arbitrary<readonly Block[]> = fc.array(
  fc
    .record({
      height: fc.integer({ min: 1, max: 900 }),
      gap: fc.integer({ min: 0, max: 40 }),
      keepsNext: fc.boolean(),
    })
    .map((each) => blockOf([], each)),
  { minLength: 1, maxLength: 25 },
);

describe("paginate()", () => {
  test("places every block once, in order", () => {
    fc.assert(
      fc.property(blocks, (all) => {
        expect(paginate(all, PAGE).flatMap((page) => page.map(({ block }) => block))).toEqual(all);
      }),
    );
  });

  test("lets no page overflow unless one block alone does, and no two blocks overlap", () => {
    fc.assert(
      fc.property(blocks, (all) => {
        for (const page of paginate(all, PAGE)) {
          page.slice(1).forEach(({ y }, i) => {
            expect(y).toBeGreaterThanOrEqual(page[i]!.y + page[i]!.block.height - 1e-9);
          });
          const last = page.at(-1)!;
          if (page.length > 1) expect(last.y + last.block.height).toBeLessThanOrEqual(PAGE + 1e-9);
        }
      }),
    );
  });

  test("ends no page with a block that keeps the next, where an earlier end was possible", () => {
    fc.assert(
      fc.property(blocks, (all) => {
        for (const page of paginate(all, PAGE).slice(0, -1)) {
          const canEnd = page.map(({ block }) => !block.keepsNext);
          if (canEnd.includes(true)) expect(canEnd.at(-1)).toBe(true);
        }
      }),
    );
  });

  test("keeps on one page what fits with less white", () => {
    const all = [blockOf([], { height: 340 }), blockOf([], { height: 340, gap: 40 })];
    expect(paginate(all, PAGE)).toEqual([
      [
        { y: 0, block: all[0] },
        { y: 360, block: all[1] },
      ],
    ]);
  });
});
