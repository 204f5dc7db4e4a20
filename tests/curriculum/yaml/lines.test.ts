import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LineCounter, Parser } from "yaml";
import { placesIn } from "../../../lib/curriculum/yaml/tokens.js";
import { placesIn as problemPlaces } from "../courses.js";

/** Where the last character of a text is. */
const end = (text: string) => placesIn(text)(text.length - 1);

describe("placesIn()", () => {
  test.each([
    ["a line feed", "a\nb", { line: 2, column: 1 }],
    ["a carriage return and a line feed", "a\r\nb", { line: 2, column: 1 }],
    ["a carriage return alone: no line end", "a\rb", { line: 1, column: 3 }],
    ["a form feed: no line end", "a\fb", { line: 1, column: 3 }],
    ["U+2028: no line end", "a\u2028b", { line: 1, column: 3 }],
    ["U+0085: no line end", "a\u0085b", { line: 1, column: 3 }],
    ["a character of two code units", "\u{1d11e}b", { line: 1, column: 3 }],
  ])("counts lines over %s", (_, text, place) => {
    expect(end(text)).toEqual(place);
  });

  test("counts a line feed as the last character of its line, and an offset outside the text as the nearer end", () => {
    const placeAt = placesIn("ab\nc\n");
    expect(placeAt(2)).toEqual({ line: 1, column: 3 });
    expect(placeAt(3)).toEqual({ line: 2, column: 1 });
    expect(placeAt(99)).toEqual({ line: 3, column: 1 });
    expect(placeAt(-1)).toEqual({ line: 1, column: 1 });
    expect(placesIn("")(0)).toEqual({ line: 1, column: 1 });
  });

  test("agrees with splitting the text at line feeds, whatever the text", () => {
    const pieces = fc.constantFrom(
      "a: ",
      "\n",
      "\r\n",
      "\r",
      "\f",
      "\u2028",
      "'",
      '"',
      "|\n  ",
      "[",
      "}",
      "*a ",
      "# c",
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 12 }), fc.nat(), (all, seed) => {
        const text = all.join("");
        const offset = seed % (text.length + 1);
        const lines = text.slice(0, offset).split("\n");
        expect(placesIn(text)(offset)).toEqual({ line: lines.length, column: lines.at(-1)!.length + 1 });
      }),
    );
  });
});

describe("line ends inside a scalar the parser refuses", () => {
  const broken = 'curriculum: *name "quay\n  test"\nedition: 1.0.0\ntitle: [Quay\npatterns: {}\n';

  // When this fails, the library's parser can fill its line counter itself.
  test("are not reported by the library's parser", () => {
    const counter = new LineCounter();
    for (const _ of new Parser(counter.addNewLine).parse(broken));
    expect(counter.lineStarts).not.toContain(broken.indexOf("  test"));
  });

  test("count in the places of later problems", () => {
    expect(problemPlaces(broken)).toEqual(["YAML_SYNTAX 1:19", "YAML_SYNTAX 4:13"]);
  });
});

// Where a large text is cut into entries, such a line begins a section; smaller ones are read whole.
test("a line at the margin that belongs to the lines above it is the one problem", () => {
  const course = "curriculum: quay\ndrills:\n  hold:\n    tempo: 90\nbeat: 1/4\n    phrases: 2\n  on:\n    tempo: 96\n";
  expect(problemPlaces(course)).toEqual(["YAML_SYNTAX 5:1"]);
});
