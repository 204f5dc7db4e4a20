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
  test.each(Object.keys(readers))("%s: throws nothing, and what it lets in is whole", async (name) => {
    const { read, ...material } = readers[name]!;
    await fc.assert(
      fc.asyncProperty(fc.nat(material.seeds.length - 1), fc.integer({ min: 1 }), async (seed, number) => {
        await read(mutated(material.seeds[seed]!, material, chance(number)));
      }),
      { numRuns: INPUTS, endOnFailure: true },
    );
  });
});
