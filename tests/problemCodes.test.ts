import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { ROOT } from "./sources.js";

/** What the compiler says of a program beside the sources, one message for each line. */
function told(lines: readonly string[]): readonly string[] {
  const file = join(ROOT, "lib", "made-up.ts");
  const options: ts.CompilerOptions = {
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    noEmit: true,
    skipLibCheck: true,
    strict: true,
    target: ts.ScriptTarget.ES2022,
  };
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile.bind(host);
  const exists = host.fileExists.bind(host);
  host.fileExists = (name) => name === file || exists(name);
  host.getSourceFile = (name, ...rest) =>
    name === file ? ts.createSourceFile(name, lines.join("\n"), ts.ScriptTarget.ES2022, true) : read(name, ...rest);
  const program = ts.createProgram([file], options, host);
  return program.getSemanticDiagnostics(program.getSourceFile(file)).map(({ start, messageText }) => {
    const line = lines.join("\n").slice(0, start).split("\n").length;
    return `${line}: ${ts.flattenDiagnosticMessageText(messageText, " ")}`;
  });
}

describe("Problem.code", () => {
  test("is the union of the codes behind the doors a program imports: another one does not compile", () => {
    const messages = told([
      `import { findDrill, type Curriculum } from "./index.js";`,
      `export function isUnknown(course: Curriculum, name: string): boolean {`,
      `  const found = findDrill(course, name);`,
      `  if (found.ok) return false;`,
      `  return found.problems.some(({ code }) => code === "DRILL_UNKNOWN");`,
      `}`,
      `export function isMisspelt(course: Curriculum, name: string): boolean {`,
      `  const found = findDrill(course, name);`,
      `  return !found.ok && found.problems.some(({ code }) => code === "DRILL_UNKNOWM");`,
      `}`,
      `export function isFull(course: Curriculum, name: string): boolean {`,
      `  const found = findDrill(course, name);`,
      `  return !found.ok && found.problems.some(({ code }) => code === "STORE_FULL");`,
      `}`,
    ]);
    expect(messages.map((message) => message.split(":")[0])).toEqual(["9", "13"]);
    for (const message of messages) expect(message).toContain("no overlap");
  });

  test("of a fault of a store is one of the store's own", () => {
    const messages = told([
      `import { isStoreProblem } from "./store/index.js";`,
      `export const full = (error: unknown): boolean => isStoreProblem(error) && error.problem.code === "STORE_FULL";`,
      `export const odd = (error: unknown): boolean => isStoreProblem(error) && error.problem.code === "EVENT_BEHIND";`,
    ]);
    expect(messages.map((message) => message.split(":")[0])).toEqual(["3"]);
  });
});
