import { existsSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { LONGEST } from "./longestFirst.js";
import { ROOT, type SourceFile, sourcesIn } from "./sources.js";

const tests = sourcesIn("tests").filter(({ path }) => !path.startsWith("tests/bench/"));
const judges = judgesIn(tests);

/** Calls that give a promise, and let a test pass that fails later unless they are awaited or returned. */
const PROMISED: ReadonlySet<string> = new Set(["resolves", "rejects"]);
/** Options that fast-check 4 takes: it says nothing of another. */
const ASSERT_OPTIONS: ReadonlySet<string> = new Set(
  "seed randomType numRuns maxSkipsPerRun timeout skipAllAfterTimeLimit interruptAfterTimeLimit markInterruptAsFailure skipEqualValues ignoreEqualValues path logger unbiased verbose examples endOnFailure reporter asyncReporter includeErrorInReport errorWithCause".split(
    " ",
  ),
);

/** What makes a test of a file unable to fail, each as `path:line what`. */
function idleIn({ path, text }: SourceFile, judges: ReadonlySet<string>): readonly string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  const report = (node: ts.Node, what: string): void => {
    found.push(`${path}:${file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1} ${what}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isExpressionStatement(node)) {
      const chain = chainOf(node.expression);
      if (chain !== undefined) {
        const last = chain.names.at(-1);
        if (chain.names.length === 0 || !chain.called) report(node, "expect without a matcher that is called");
        else if (chain.names.some((name) => PROMISED.has(name))) report(node, "a promise that is not awaited");
        else if (last === "toBeDefined" && isLiteral(chain.subject)) report(node, "a literal is always defined");
        if (isLiteral(chain.subject) && chain.names.length > 0) report(node, "expects something of a literal");
      }
      if (isCallOf(node.expression, "fc.assert") && isCallOf(node.expression.arguments[0], "fc.asyncProperty"))
        report(node, "a promise that is not awaited");
      if (isCallOf(node.expression, "fc.property") || isCallOf(node.expression, "fc.asyncProperty"))
        report(node, "a property that is never asserted");
    }
    if (isCallOf(node, "fc.assert")) {
      const options = node.arguments[1];
      if (options !== undefined && ts.isObjectLiteralExpression(options))
        for (const option of options.properties)
          if (option.name !== undefined && !ASSERT_OPTIONS.has(option.name.getText(file)))
            report(option, `fast-check has no option ${option.name.getText(file)}`);
    }
    // A test whose name is a parameter is made by a function that others give the body to.
    if (ts.isCallExpression(node) && isTest(node.expression) && !ts.isIdentifier(node.arguments[0]!)) {
      const body = node.arguments.find((each) => ts.isArrowFunction(each) || ts.isFunctionExpression(each));
      if (body !== undefined && !calledIn(body).some((name) => judges.has(name)) && !throwsIn(body))
        report(node, "a test that expects nothing");
      if (/\.(?:only|todo)\b/.test(node.expression.getText(file))) report(node, "only or todo");
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** Names of what is called in a piece of code: `f` of `f(x)`, `g` of `a.g(x)`, and of `a.map(f)` also `f`. */
function calledIn(code: ts.Node): readonly string[] {
  const names: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node)) {
      const callee = node.expression;
      names.push(ts.isPropertyAccessExpression(callee) ? callee.name.text : callee.getText());
      for (const argument of node.arguments) if (ts.isIdentifier(argument)) names.push(argument.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(code);
  return names;
}

function throwsIn(code: ts.Node): boolean {
  return ts.isThrowStatement(code) || (ts.forEachChild(code, (each) => throwsIn(each) || undefined) ?? false);
}

/** Names of the functions of the tests that may fail: `expect` and `assert`, what throws, and what calls one of these. */
function judgesIn(files: readonly SourceFile[]): ReadonlySet<string> {
  const judges = new Set(["expect", "assert"]);
  const functions: (readonly [name: string, called: readonly string[]])[] = [];
  for (const { path, text } of files) {
    const visit = (node: ts.Node): void => {
      const name = functionName(node);
      if (name !== undefined) {
        functions.push([name, calledIn(node)]);
        if (throwsIn(node)) judges.add(name);
      }
      ts.forEachChild(node, visit);
    };
    visit(ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true));
  }
  for (let before = 0; before < judges.size; ) {
    before = judges.size;
    for (const [name, called] of functions) if (called.some((each) => judges.has(each))) judges.add(name);
  }
  return judges;
}

function functionName(node: ts.Node): string | undefined {
  if (ts.isFunctionDeclaration(node)) return node.name?.text;
  if (!ts.isArrowFunction(node) && !ts.isFunctionExpression(node)) return undefined;
  return ts.isVariableDeclaration(node.parent) ? node.parent.name.getText() : undefined;
}

/** `expect(x).not.toBe(y)`: its subject, the names after it, and whether the last is called. `undefined` for what does not begin with `expect(`. */
function chainOf(
  expression: ts.Expression,
):
  | { readonly subject: ts.Expression | undefined; readonly names: readonly string[]; readonly called: boolean }
  | undefined {
  const names: string[] = [];
  let at = expression;
  const called = ts.isCallExpression(at);
  if (ts.isCallExpression(at) && !ts.isIdentifier(at.expression)) at = at.expression;
  while (ts.isPropertyAccessExpression(at)) {
    names.unshift(at.name.text);
    at = at.expression;
  }
  if (!isCallOf(at, "expect")) return undefined;
  return { subject: at.arguments[0], names, called: called && names.length > 0 };
}

function isCallOf(node: ts.Node | undefined, name: string): node is ts.CallExpression {
  return node !== undefined && ts.isCallExpression(node) && node.expression.getText() === name;
}

/** `test(`, `test.skipIf(...)(`, `test.each(...)(`, but not the call that only makes one of these. */
function isTest(callee: ts.Expression): boolean {
  const text = callee.getText();
  return (
    /^(?:test|it)(?:\.(?:only|todo|concurrent|skip))*$/.test(text) ||
    (ts.isCallExpression(callee) && /^(?:test|it)\./.test(text))
  );
}

function isLiteral(node: ts.Expression | undefined): boolean {
  return (
    node !== undefined &&
    (ts.isNumericLiteral(node) ||
      ts.isStringLiteral(node) ||
      node.kind === ts.SyntaxKind.TrueKeyword ||
      node.kind === ts.SyntaxKind.FalseKeyword)
  );
}

describe("the tests", () => {
  test("can fail", () => {
    expect(tests.length).toBeGreaterThan(200);
    expect(tests.flatMap((each) => idleIn(each, judges))).toEqual([]);
  });

  test("are searched by something that finds what it looks for", () => {
    const text = `
      test("a", () => { expect(x); });
      test("b", () => { expect(x).toBe; });
      test("c", async () => { expect(load()).resolves.toBe(1); });
      test("d", async () => { await expect(load()).rejects.toThrow(); });
      test("e", () => { fc.assert(fc.asyncProperty(a, f)); });
      test("f", () => { fc.property(a, (x) => expect(x).toBe(1)); });
      test("g", () => { fc.assert(fc.property(a, f), { runs: 5 }); });
      test.each([1])("h", () => { sum(1, 2); });
      test("i", () => { expect(true).toBe(true); });
      test.only("j", () => { expect(x).not.toBe(1); });
      test("k", () => { hold(x); });`;
    const hold = "function hold(x) { expect(x).toBe(1); }";
    expect(idleIn({ path: "x.test.ts", text }, judgesIn([{ path: "x.ts", text: hold }]))).toEqual([
      "x.test.ts:2 expect without a matcher that is called",
      "x.test.ts:3 expect without a matcher that is called",
      "x.test.ts:4 a promise that is not awaited",
      "x.test.ts:6 a promise that is not awaited",
      "x.test.ts:7 a property that is never asserted",
      "x.test.ts:8 fast-check has no option runs",
      "x.test.ts:9 a test that expects nothing",
      "x.test.ts:10 expects something of a literal",
      "x.test.ts:11 only or todo",
    ]);
  });

  test("that have a size for a proof have no time limit of their own, which would stop the proof", () => {
    const limit = /\bsetConfig\(|\btestTimeout\b|AfterTimeLimit\b|(?:\}, |^\s+)\d[\d_]*,?\s*\);$/m;
    expect(
      ["test(name, () => {}, 9_000);", "  test(name, run, {\n  }, 9_000);"].every((text) => limit.test(text)),
    ).toBe(true);
    const sized = tests.filter(({ text }) => /\bsample\(\{/.test(text) && !text.includes("function sample"));
    expect(sized.length).toBeGreaterThan(10);
    expect(sized.filter(({ text }) => limit.test(text)).map(({ path }) => path)).toEqual([]);
  });

  test("that are started first because they are long are there", () => {
    expect(LONGEST.length).toBeGreaterThan(0);
    expect(LONGEST.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });
});
