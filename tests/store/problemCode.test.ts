import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { programOf } from "../compiler.js";
import { ROOT } from "../sources.js";

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
  const program = programOf([file], options, new Map([[file, lines.join("\n")]]));
  return program.getSemanticDiagnostics(program.getSourceFile(file)).map(({ start, messageText }) => {
    const line = lines.join("\n").slice(0, start).split("\n").length;
    return `${line}: ${ts.flattenDiagnosticMessageText(messageText, " ")}`;
  });
}

describe("StoreProblem", () => {
  test("has the codes of a store and no others: another one does not compile", () => {
    const messages = told([
      `import { isStoreProblem } from "./store/index.js";`,
      `export const full = (error: unknown): boolean => isStoreProblem(error) && error.problem.code === "STORE_FULL";`,
      `export const odd = (error: unknown): boolean => isStoreProblem(error) && error.problem.code === "EVENT_BEHIND";`,
    ]);
    expect(messages.map((message) => message.split(":")[0])).toEqual(["3"]);
  });
});
