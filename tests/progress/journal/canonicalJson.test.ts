import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { canonicalJson } from "../../../lib/progress/index.js";
import { fnv1a } from "../../../lib/progress/journal/fingerprint.js";

const vectors = new URL("../../../../shared/reference/jcs/", import.meta.url);
const present = existsSync(vectors);
if (!present) console.log("skipped: the test vectors of RFC 8785 are not at ../shared/reference/jcs");

describe("canonicalJson()", () => {
  // Test data published with RFC 8785, read.
  test.skipIf(!present)("gives the published bytes for the published inputs", () => {
    const inputs = readdirSync(vectors).filter((name) => name.startsWith("input-"));
    expect(inputs.length).toBeGreaterThan(0);
    for (const name of inputs) {
      const read = (file: string): string => readFileSync(new URL(file, vectors), "utf8");
      expect(canonicalJson(JSON.parse(read(name))), name).toBe(read(name.replace("input", "output")).trimEnd());
    }
  });

  test("leaves out what has no value and refuses what JSON cannot hold", () => {
    expect(canonicalJson({ b: undefined, a: [1, "é", null, -0] })).toBe('{"a":[1,"é",null,0]}');
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, () => 1, [undefined]])
      expect(() => canonicalJson(value)).toThrow(TypeError);
  });
});

describe("fnv1a()", () => {
  // Vectors of Fowler, Noll and Vo for 64-bit FNV-1a, from memory.
  test.each([
    ["", "cbf29ce484222325"],
    ["a", "af63dc4c8601ec8c"],
    ["foobar", "85944171f73967e8"],
  ])("of %j is %s", (text, hash) => expect(fnv1a(text)).toBe(hash));
});
