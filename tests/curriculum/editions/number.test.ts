import { describe, expect, test } from "vitest";
import { compareEditionNumbers } from "../../../lib/curriculum/index.js";

describe("compareEditionNumbers()", () => {
  // Semantic Versioning 2.0.0, section 11, its own rows (from memory, and the same in the project's collection of reference values).
  const ascending = [
    "1.0.0-alpha",
    "1.0.0-alpha.1",
    "1.0.0-alpha.beta",
    "1.0.0-beta",
    "1.0.0-beta.2",
    "1.0.0-beta.11",
    "1.0.0-rc.1",
    "1.0.0",
    "2.0.0",
    "2.1.0",
    "2.1.1",
  ];
  test("puts the rows of the standard in their order", () => {
    for (const [i, a] of ascending.entries())
      for (const [k, b] of ascending.entries())
        expect(Math.sign(compareEditionNumbers(a, b)), `${a}, ${b}`).toBe(Math.sign(i - k));
  });
  test("does not compare build metadata, and counts digits rather than letters", () => {
    expect(compareEditionNumbers("1.0.0+a", "1.0.0+b")).toBe(0);
    expect(compareEditionNumbers("1.9.0", "1.10.0")).toBeLessThan(0);
    expect(compareEditionNumbers("1.0.0-9", "1.0.0-10")).toBeLessThan(0);
    expect(compareEditionNumbers("1.0.0-9", "1.0.0-a")).toBeLessThan(0);
  });
});
