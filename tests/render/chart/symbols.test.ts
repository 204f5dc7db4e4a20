import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { INK } from "../../../lib/render/chart/palette.js";
import { slants, stillness } from "../../../lib/render/chart/symbols.js";

describe("hatching", () => {
  test("stays inside its box, and is drawn for each silence", () => {
    const box = fc.record({
      x: fc.double({ min: 0, max: 500, noNaN: true }),
      y: fc.double({ min: 0, max: 500, noNaN: true }),
      width: fc.double({ min: 0, max: 300, noNaN: true }),
      height: fc.double({ min: 0, max: 300, noNaN: true }),
    });
    fc.assert(
      fc.property(box, (each) => {
        const numbers = (slants(each, 6).match(/-?[\d.]+/g) ?? []).map(Number);
        numbers.forEach((value, i) => {
          const [from, to] = i % 2 === 0 ? [each.x, each.x + each.width] : [each.y, each.y + each.height];
          // Two decimals are written.
          expect(value).toBeGreaterThanOrEqual(from - 0.01);
          expect(value).toBeLessThanOrEqual(to + 0.01);
        });
      }),
    );
    expect(stillness({ x: 0, y: 0, width: 20, height: 10 })).toContain(INK.hatch);
  });
});
