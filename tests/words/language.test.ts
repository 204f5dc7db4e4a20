import fc from "fast-check";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { digitsOf, type Language, localised } from "../../lib/words/language.js";
import { languageOf } from "./catalogues.js";

/** The language as it would be generated, run. */
function compiled(tag: string): Language {
  const script = ts.transpile(languageOf(tag), { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 });
  const module = { exports: {} as { language: Language } };
  new Function("exports", "module", script)(module.exports, module);
  return module.exports.language;
}

// Languages whose numbers or plurals differ in kind: grouping from five digits, a narrow space, forms for 2, for few and many, for decimals.
const TAGS = ["en", "de", "fr", "es", "pl", "ru", "cs", "ja", "lv", "sl", "cy", "pt-PT", "he"];

describe.each(TAGS)("numbers in %s", (tag) => {
  const language = compiled(tag);
  const value = fc.oneof(
    fc.nat(200),
    fc.double({ min: 0, max: 1e7, noNaN: true }).map((size) => Math.round(size * 1e4) / 1e4),
  );
  const decimals = fc.tuple(fc.nat(3), fc.nat(3)).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

  // Intl is the platform's reading of Unicode CLDR; here it is the independent reader of rules that were compiled ahead.
  test("are written as Intl.NumberFormat writes them", () => {
    fc.assert(
      fc.property(value, decimals, (size, [least, most]) => {
        const intl = new Intl.NumberFormat(tag, { minimumFractionDigits: least, maximumFractionDigits: most });
        expect(localised(digitsOf(size, least, most), language)).toBe(intl.format(size));
        const below = digitsOf(-size, least, most);
        expect(below).toBe(Number(below) === 0 ? digitsOf(size, least, most) : `-${digitsOf(size, least, most)}`);
      }),
    );
  });

  test("have the plural form that Intl.PluralRules gives them", () => {
    fc.assert(
      fc.property(value, decimals, (size, [least, most]) => {
        const intl = new Intl.PluralRules(tag, { minimumFractionDigits: least, maximumFractionDigits: most });
        expect(language.plural(digitsOf(size, least, most))).toBe(intl.select(size));
      }),
    );
  });
});

describe("digitsOf()", () => {
  test.each([
    [1.005, 2, 2, "1.01"],
    [0.5, 0, 0, "1"],
    [-0.4, 0, 0, "0"],
    [-2.5, 0, 0, "-3"],
    [1e21, 0, 0, "1e+21"],
    [5e-7, 0, 1, "0"],
    [2, 1, 3, "2.0"],
  ])("of %d with %d to %d decimals is %s", (value, least, most, digits) => {
    expect(digitsOf(value, least, most)).toBe(digits);
  });

  test("refuses what is no finite number", () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, "3" as unknown as number])
      expect(() => digitsOf(value, 0, 0)).toThrow(TypeError);
  });
});
