import { describe, expect, test } from "vitest";
import { nearestName } from "../../lib/base/index.js";

describe("nearestName()", () => {
  const names = ["tempo", "variant", "kit", "bass"];

  test.each([
    ["tepo", "tempo"],
    ["tempoo", "tempo"],
    ["TEMPO", "tempo"],
    ["tmepo", "tempo"],
    ["temop", "tempo"],
    ["varaint", "variant"],
    ["kti", "kit"],
  ])("takes %s for %s", (written, name) => {
    expect(nearestName(written, names)).toBe(name);
  });

  test.each(["", "horn", "tmope", "omept", "xyz"])("takes %j for none of them", (written) => {
    expect(nearestName(written, names)).toBeUndefined();
  });

  test("takes the nearest of several, and the first of equally near ones", () => {
    expect(nearestName("bas", ["base", "bass", "basso"])).toBe("base");
    expect(nearestName("basss", ["base", "bass", "basso"])).toBe("bass");
  });
});
