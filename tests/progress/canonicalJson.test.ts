import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { fnv1a } from "../../lib/progress/fingerprint.js";
import { canonicalJson, isTimestamp } from "../../lib/progress/index.js";

const vectors = new URL("../../../shared/reference/jcs/", import.meta.url);
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

describe("isTimestamp()", () => {
  // RFC 3339 section 5.8, examples, from memory; the last two are times only without their offset or with a month too many.
  test.each([
    ["1985-04-12T23:20:50.52Z", true],
    ["1996-12-19T16:39:57-08:00", true],
    ["1990-12-31T23:59:60Z", true],
    ["1937-01-01T12:00:27.87+00:20", true],
    ["1985-04-12T23:20:50", false],
    ["1985-13-12T23:20:50Z", false],
  ])("of %s is %s", (text, is) => expect(isTimestamp(text)).toBe(is));
});
