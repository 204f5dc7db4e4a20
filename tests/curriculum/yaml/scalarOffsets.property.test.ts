import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isScalar, type ParsedNode, parseDocument } from "yaml";
import { offsetsInScalar } from "../../../lib/curriculum/yaml/scalarOffsets.js";

/** Where a letter that occurs once in the value stands in the text: found by looking for it, without knowing YAML. */
function places(text: string): { readonly value: string; readonly node: ParsedNode } {
  const document = parseDocument(text);
  expect(document.errors).toEqual([]);
  const node = document.getIn(["key"], true) as ParsedNode;
  if (!isScalar(node) || typeof node.value !== "string") throw new Error(`not a text: ${text}`);
  return { value: node.value, node };
}

function expectLettersFound(text: string): void {
  const { value, node } = places(text);
  for (const mark of new Set(value.match(/[A-Z]/g) ?? [])) {
    if (!text.includes(`\\${mark}`)) expect(text.split(mark).length, `${mark} once in ${text}`).toBe(2);
    expect(text[offsetsInScalar(text, node)[value.indexOf(mark)]!], `${mark} in ${JSON.stringify(text)}`).toBe(mark);
  }
}

describe("offsetsInScalar() finds a character of the value in the text", () => {
  test.each([
    ["plain", "key: xA yB | C"],
    ["plain over lines", "key: xA\n  B\n\n  C   D\n"],
    ["single quotes", "key: 'it''s A''''B'"],
    ["single quotes over lines", "key: 'A  \n\n  it''s B'"],
    ["double quotes", 'key: "\\u00e9A \\x61\\tB \\U0001f3b0 C\\\\D"'],
    ["double quotes over lines", 'key: "A \\\n   B\n\n\n  C"'],
    ["literal block", "key: |\n  A b\n    B\n\n  C\n"],
    ["literal block with indicator", "key: |2-\n    A\n  B\n"],
    ["folded block", "key: >-\n  A b |\n  B c |\n\n  D\n    E\n  F\n"],
    ["folded block with comment", "key: >- # a comment: x\n  A\n  B\n"],
    ["carriage returns", "key: >-\r\n  A b\r\n  B\r\n"],
    ["flow", "{ key: xA | B, other: 1 }"],
  ])("%s", (_, text) => expectLettersFound(text));

  const word = fc.stringMatching(/^[a-z'"\\|%/.]{0,4}$/);
  const lines = fc.array(fc.array(word, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 5 });

  test("in folded and literal blocks of any words", () => {
    fc.assert(
      fc.property(lines, fc.constantFrom("|", ">", "|-", ">-", "|+", ">+"), (written, header) => {
        let next = 0;
        const mark = (): string => String.fromCharCode(65 + next++);
        const body = written.map((words) => `  ${mark()}${words.join(" ")}`).join("\n");
        expectLettersFound(`key: ${header}\n${body}\n`);
      }),
    );
  });

  test("in quoted texts of any words", () => {
    fc.assert(
      fc.property(lines, fc.boolean(), (written, double) => {
        let next = 0;
        const quote = (text: string): string =>
          double ? JSON.stringify(text).slice(1, -1) : text.replaceAll("'", "''");
        const body = written
          .map((words) => `${String.fromCharCode(65 + next++)}${quote(words.join(" "))}`)
          .join("\n  ");
        const mark = double ? '"' : "'";
        expectLettersFound(`key: ${mark}${body}${mark}\n`);
      }),
    );
  });

  test("the end of the value is the end of the text in it", () => {
    const text = "key: xyz # comment";
    const { node } = places(text);
    expect(offsetsInScalar(text, node)[3]!).toBe("key: xyz".length);
  });
});
