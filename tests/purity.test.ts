import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { programOf } from "./compiler.js";
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

/** The few that both have and that are functions of their arguments alone. */
const AMBIENT = `
  declare class TextDecoder { constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean }); decode(input?: Uint8Array): string }
  declare class TextEncoder { encode(input?: string): Uint8Array }
  declare function structuredClone<T>(value: T): T;`;

/** A program with neither Node's nor a browser's globals. */
function corelike(files: readonly string[], texts: ReadonlyMap<string, string> = new Map()): ts.Program {
  const config = ts.readConfigFile(join(ROOT, "tsconfig.json"), ts.sys.readFile).config as object;
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, ROOT);
  const shared = join(ROOT, "shared-globals.d.ts");
  return programOf([shared, ...files], { ...options, noEmit: true, types: [] }, new Map([...texts, [shared, AMBIENT]]));
}

/** Names in a file that are declared nowhere in the program. Only names are resolved: `npm test` checks types in another place, and that takes ten times as long. */
function unknownIn(program: ts.Program, path: string): readonly string[] {
  const checker = program.getTypeChecker();
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node) && !isOwnName(node)) {
      const symbol = ts.isShorthandPropertyAssignment(node.parent)
        ? checker.getShorthandAssignmentValueSymbol(node.parent)
        : checker.getSymbolAtLocation(node);
      if (symbol?.declarations === undefined && !OF_THE_LANGUAGE.has(node.text)) found.push(node.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(program.getSourceFile(path)!);
  return found;
}

/** Names that the language itself has, without a declaration. */
const OF_THE_LANGUAGE: ReadonlySet<string> = new Set(["undefined", "const", "arguments", "globalThis"]);

/** Whether a name is one of something else: `b` of `a.b`, and of `{ b: 1 }`. */
function isOwnName(node: ts.Identifier): boolean {
  const { parent } = node;
  return (
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    (ts.isQualifiedName(parent) && parent.right === node) ||
    (ts.isBindingElement(parent) && parent.propertyName === node) ||
    (ts.isPropertyAssignment(parent) && parent.name === node) ||
    (ts.isMetaProperty(parent) && parent.name === node) ||
    ts.isImportSpecifier(parent) ||
    ts.isExportSpecifier(parent) ||
    ts.isNamedTupleMember(parent)
  );
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

  test("the search for names finds those of Node and of browsers, as values and as types, and no others", () => {
    const text = `
      import { fraction } from "./base/index.js";
      const at = { fetch: 1, ...process.env };
      export const read = <T>(part: T, { console: said } = at): URL | T => (said ? document : fraction(1, 2)) as T;
      export const kind = typeof Buffer, held = { window }, sure = undefined, text = new TextDecoder();`;
    const made = join(ROOT, "lib", "made-up.ts");
    const program = corelike([made], new Map([[made, text]]));
    expect(unknownIn(program, made)).toEqual(["process", "URL", "document", "Buffer", "window"]);
  });

  test("names nothing that only Node or a browser has", () => {
    const files = pure.map((file) => join(ROOT, file.path));
    const program = corelike(files);
    expect(files.flatMap((file) => unknownIn(program, file).map((name) => `${file}: ${name}`))).toEqual([]);
  });
});
