import fc from "fast-check";
import { MessageFormat } from "messageformat";
import { describe, expect, test } from "vitest";
import { messages as compiled, language } from "../../lib/words/generated/en.js";
import { type Compiled, worded, wordingOf } from "../../lib/words/wording.js";
import { inputsOf, readCatalogues } from "./catalogues.js";

const catalogue = (await readCatalogues()).get("en")!;
const wording = wordingOf(language, compiled as Compiled);

/** Values of a parameter: of those a sentence may hold, and those at which forms change. */
function valuesOf({
  kind,
  of,
}: {
  readonly kind: string;
  readonly of?: readonly string[];
}): fc.Arbitrary<string | number> {
  if (of !== undefined) return fc.constantFrom(...of);
  if (kind !== "number") return fc.constantFrom("tern", "half a bar", "`tern` {$x} \\");
  return fc.oneof(
    fc.constantFrom(0, 1, 2, 0.04, 0.05, 0.4, 0.5, 0.95, 1.005, 1.05, 1.5, 2.5, 99.95, 999.5, 1234.5, 1234567.891),
    fc.double({ min: 0, max: 100000, noNaN: true }).map((value) => Math.round(value * 1e6) / 1e6),
  );
}

describe("the English catalogue", () => {
  test("has something to say", () => {
    expect(catalogue.size).toBeGreaterThan(60);
    expect(Object.keys(compiled)).toEqual([...catalogue.keys()]);
  });

  test.each([...catalogue])(
    "%s is worded as an independent MessageFormat 2 formatter words it",
    (key, { source, message }) => {
      const inputs = inputsOf(message);
      // The npm library messageformat 4, which the generator uses to read, formats here from the text.
      const independent = new MessageFormat("en", source, { bidiIsolation: "none" });
      const given = fc.record(Object.fromEntries([...inputs].map(([name, input]) => [name, valuesOf(input)])));
      fc.assert(
        fc.property(given, (parameters) => {
          const expected = independent.format(parameters, (error) => {
            throw error;
          });
          expect(worded(compiled as Compiled, { key, parameters }, wording)).toBe(expected);
        }),
        { numRuns: inputs.size === 0 ? 1 : 100 },
      );
    },
  );

  test("shows no sign before a number", () => {
    for (const [key, { source }] of catalogue) expect(source, key).not.toMatch(/(?<!\d)[+−-]\{/u);
  });
});
