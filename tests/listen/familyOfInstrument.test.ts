import { describe, expect, test } from "vitest";
import { familyOfInstrument } from "../../lib/listen/index.js";
import { INSTRUMENTS } from "../../lib/pattern/index.js";

describe("familyOfInstrument()", () => {
  test("knows every instrument of the built-in table", () => {
    expect(Object.keys(INSTRUMENTS).filter((name) => familyOfInstrument(name) === undefined)).toEqual([]);
  });
  test.each([
    ["alto saxophone", "blown"],
    ["sousaphone", "blown"],
    ["bass clarinet", "blown"],
    ["baritone saxophone", "blown"],
    ["bass trombone", "blown"],
    ["bass voice", "blown"],
    ["harmonica", "blown"],
    ["double bass", "plucked"],
    ["electric bass", "plucked"],
    ["Guitar", "plucked"],
    ["harp", "plucked"],
    ["piano", "plucked"],
    ["cello", "bowed"],
    ["bass drum", "percussive"],
    ["drum kit", "percussive"],
    ["vibraphone", "percussive"],
    ["hand claps", "percussive"],
  ] as const)("%s is %s", (name, family) => expect(familyOfInstrument(name)).toBe(family));
  test("says nothing of what it does not know", () => expect(familyOfInstrument("theremin")).toBe(undefined));
});
