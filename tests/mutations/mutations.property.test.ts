import fc from "fast-check";
import { describe, test } from "vitest";
import { sample } from "../samples.js";
import { ROOT } from "../sources.js";
import { chance, mutated } from "./mutate.js";
import { readersIn } from "./readers.js";

/** Inputs a reader: a small part of those of `npm run bench -- mutations`, which says how long the slowest takes and how much memory. */
const INPUTS = sample({ suite: 1000, proof: 10_000 });
const readers = readersIn(ROOT);

describe("a reader of broken input", () => {
  const cases = Object.entries(readers).flatMap(([name, { seeds }]) => seeds.map((_, i) => [name, i + 1] as const));
  test.each(cases)("%s, from sound text %d: throws nothing, and what it lets in is whole", async (name, number) => {
    const { read, ...material } = readers[name]!;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1 }), async (luck) => {
        await read(mutated(material.seeds[number - 1]!, material, chance(luck)));
      }),
      { numRuns: Math.ceil(INPUTS / material.seeds.length), endOnFailure: true },
    );
  });
});
