import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sample } from "../samples.js";
import { ROOT } from "../sources.js";
import { chance, mutated } from "./mutate.js";
import { readersIn } from "./readers.js";

/** Inputs a reader: a small part of those of `npm run bench -- mutations`, which says how long the slowest takes and how much memory. */
const INPUTS = sample({ suite: 1000, proof: 10_000 });
/** Milliseconds for a reader in the suite, and how many inputs must have been read by then (our choice: fewer show little). */
const LONG = sample({ suite: 20_000, proof: 240_000 });
const FEWEST = 200;

const readers = readersIn(ROOT);

describe("a reader of broken input", () => {
  test.each(Object.keys(readers))("%s: throws nothing, and what it lets in is whole", async (name) => {
    const { read, ...material } = readers[name]!;
    let tried = 0;
    await fc.assert(
      fc.asyncProperty(fc.nat(material.seeds.length - 1), fc.integer({ min: 1 }), async (seed, number) => {
        tried++;
        await read(mutated(material.seeds[seed]!, material, chance(number)));
      }),
      { numRuns: INPUTS, interruptAfterTimeLimit: LONG, endOnFailure: true },
    );
    if (tried < INPUTS) console.log(`${name}: ${tried} of ${INPUTS} inputs in ${LONG / 1000} s`);
    expect(tried).toBeGreaterThanOrEqual(FEWEST);
  });

  test.each(Object.keys(readers))("%s: lets the good inputs in that mutations begin with", async (name) => {
    const { seeds, read } = readers[name]!;
    for (const seed of seeds) await read(seed);
  });
});
