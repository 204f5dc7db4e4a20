import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { importsOf, ROOT, sourcesIn } from "./sources.js";

/** Folders that may touch the machine: whole rooms. */
const IMPURE = /^lib\/(?:store|node|cli|browser|page|server)\//;

/**
 * Parts of the language itself that are not functions of their arguments: clocks, chance, locale, code from text. What only a browser
 * or only Node has (process, console, fetch, document, ...) is not declared where the core is compiled below.
 */
const FORBIDDEN: ReadonlySet<string> = new Set(
  "Date Math.random globalThis eval Function Intl localeCompare toLocaleString toLocaleLowerCase toLocaleUpperCase".split(
    " ",
  ),
);

const pure = sourcesIn("lib").filter((file) => !IMPURE.test(file.path));

/** Forbidden names the code uses as values (comments, texts, types and property names do not count). */
function forbiddenIn(path: string, text: string): readonly string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node)) return;
    if (ts.isPropertyAccessExpression(node)) {
      const whole = node.getText(file);
      if (FORBIDDEN.has(whole)) found.push(whole);
      if (FORBIDDEN.has(node.name.text)) found.push(node.name.text);
      visit(node.expression);
      return;
    }
    if (ts.isIdentifier(node) && FORBIDDEN.has(node.text)) found.push(node.text);
    if (ts.isPropertyAssignment(node)) visit(node.initializer);
    else ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

describe("the core", () => {
  test("the check finds what it looks for", () => {
    const text =
      "const a = Date.now() + Math.random(); export const b: Date | undefined = a ? eval(`1`) : ``.localeCompare(``); const c = { Intl: 1 };";
    expect(forbiddenIn("x.ts", text)).toEqual(["Date", "Math.random", "eval", "localeCompare"]);
  });

  test("uses no clock, chance, locale or code from text, and no module of Node's", () => {
    expect(pure.length).toBeGreaterThan(100);
    const offences = pure.flatMap((file) =>
      [...forbiddenIn(file.path, file.text), ...importsOf(file).filter((name) => name.startsWith("node:"))].map(
        (name) => `${file.path}: ${name}`,
      ),
    );
    expect(offences).toEqual([]);
  });

  test("compiles with neither Node's nor a browser's globals", () => {
    // The few that both have and that are functions of their arguments alone.
    const ambient = `
      declare class TextDecoder { constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean }); decode(input?: Uint8Array): string }
      declare class TextEncoder { encode(input?: string): Uint8Array }
      declare function structuredClone<T>(value: T): T;`;
    const options: ts.CompilerOptions = {
      ...ts.parseJsonConfigFileContent(
        ts.readConfigFile(join(ROOT, "tsconfig.json"), ts.sys.readFile).config,
        ts.sys,
        ROOT,
      ).options,
      noEmit: true,
      types: [],
    };
    const host = ts.createCompilerHost(options);
    const readFile = host.getSourceFile;
    const shared = join(ROOT, "shared-globals.d.ts");
    host.getSourceFile = (name, version, ...rest) =>
      name === shared ? ts.createSourceFile(name, ambient, version) : readFile(name, version, ...rest);
    const exists = host.fileExists;
    host.fileExists = (name) => name === shared || exists(name);
    const program = ts.createProgram([shared, ...pure.map((file) => join(ROOT, file.path))], options, host);
    const told = ts
      .getPreEmitDiagnostics(program)
      .map((each) => `${each.file?.fileName}: ${ts.flattenDiagnosticMessageText(each.messageText, "\n")}`);
    expect(told).toEqual([]);
  });
});
