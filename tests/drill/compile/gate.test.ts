import { describe, expect, test } from "vitest";
import { collector } from "../../../lib/drill/compile/collector.js";
import { compileGate, compileGoBack } from "../../../lib/drill/compile/gate.js";
import type { GateDocument, GoBackDocument } from "../../../lib/schema/index.js";

function compiled<Document, Value>(
  compile: (document: Document, found: ReturnType<typeof collector>) => Value,
  document: Document,
): { readonly value: Value; readonly problems: readonly string[] } {
  const found = collector();
  const value = compile(document, found);
  return { value, problems: found.problems.map(({ code, where }) => `${code} ${where.pointer}`) };
}

const SEQUENTIAL = { able: "90 %", unready: "60 %", "wrongly-let-on": "5 %", "wrongly-held": "10 %" };

describe("compileGate()", () => {
  test.each<[GateDocument, object]>([
    [
      { clean: 1, of: 1 },
      { kind: "clean of last", clean: 1, of: 1 },
    ],
    [
      { clean: 3, of: 3 },
      { kind: "clean of last", clean: 3, of: 3 },
    ],
    [
      { clean: 3, of: 5 },
      { kind: "clean of last", clean: 3, of: 5 },
    ],
    [{ "in-a-row": 1 }, { kind: "in a row", count: 1 }],
  ])("takes %j, the smallest and the strictest gates included", (document, gate) => {
    expect(compiled(compileGate, document)).toEqual({ value: gate, problems: [] });
  });

  test("asks for 3 clean takes of 4 when a drill says nothing", () => {
    expect(compileGate(undefined, collector())).toEqual({ kind: "clean of last", clean: 3, of: 4 });
  });

  test.each<[GateDocument, string]>([
    [{ clean: 0, of: 4 }, "GATE_CANNOT_BE_MET /gate/clean"],
    [{ clean: 5, of: 4 }, "GATE_CANNOT_BE_MET /gate/clean"],
    [{}, "GATE_FORM /gate"],
    [{ of: 4 }, "GATE_FORM /gate"],
    [{ clean: 3 }, "GATE_FORM /gate"],
    [{ clean: 3, "in-a-row": 2 }, "GATE_FORM /gate"],
    [{ clean: 3, of: 4, "in-a-row": 2 }, "GATE_FORM /gate"],
    [{ of: 4, "in-a-row": 2 }, "GATE_FORM /gate"],
    [{ "in-a-row": 2, sequential: SEQUENTIAL }, "GATE_FORM /gate"],
  ])("refuses %j", (document, problem) => {
    expect(compiled(compileGate, document)).toEqual({ value: undefined, problems: [problem] });
  });

  test.each(["able", "unready", "wrongly-let-on", "wrongly-held"])(
    "makes no sequential gate of which %s cannot be read",
    (key) => {
      const document = { sequential: { ...SEQUENTIAL, [key]: "often" } };
      const problems = [`GATE_SHARE_NOT_READ /gate/sequential/${key}`];
      expect(compiled(compileGate, document)).toEqual({ value: undefined, problems });
    },
  );

  test.each([
    ["97.25 %", 0.9725],
    ["90%", 0.9],
    [" 90  % ", 0.9],
  ])("reads the share %j", (able, share) => {
    expect(compileGate({ sequential: { ...SEQUENTIAL, able } }, collector())).toMatchObject({ able: share });
  });

  test.each(["0 %", "at most 90 %", "90 % or so", "90.x %"])("refuses the share %j", (able) => {
    const problems = ["GATE_SHARE_NOT_READ /gate/sequential/able"];
    expect(compiled(compileGate, { sequential: { ...SEQUENTIAL, able } })).toEqual({ value: undefined, problems });
  });

  test("makes no sequential gate for players that it could not tell apart", () => {
    const document = { sequential: { ...SEQUENTIAL, able: "60 %" } };
    const problems = ["GATE_CANNOT_BE_MET /gate/sequential/able"];
    expect(compiled(compileGate, document)).toEqual({ value: undefined, problems });
  });
});

describe("compileGoBack()", () => {
  test.each<[GoBackDocument, object]>([
    [{ after: 1 }, { after: 1, by: 1 }],
    [
      { after: 3, by: "1" },
      { after: 3, by: 1 },
    ],
    [
      { after: 3, by: " 12 rungs " },
      { after: 3, by: 12 },
    ],
  ])("takes %j", (document, goBack) => {
    expect(compiled(compileGoBack, document)).toEqual({ value: goBack, problems: [] });
  });

  test.each<[GoBackDocument, string]>([
    [{ after: 0 }, "GO_BACK_GOES_NOWHERE /go-back/after"],
    [{ after: 3, by: "0 rungs" }, "GO_BACK_GOES_NOWHERE /go-back/by"],
    [{ after: 3, by: "2 rungs or so" }, "GO_BACK_NOT_READ /go-back/by"],
  ])("refuses %j, and the student never goes back by it", (document, problem) => {
    expect(compiled(compileGoBack, document)).toEqual({ value: undefined, problems: [problem] });
  });
});
