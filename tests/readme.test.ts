import { spawnSync } from "node:child_process";
import { chmodSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../lib/curriculum/index.js";
import { builtEntry } from "./built.js";
import { ROOT } from "./sources.js";

interface Block {
  readonly file: string;
  readonly line: number;
  readonly language: string;
  readonly text: string;
  /** The text of a `text` block that follows directly: what the block prints. */
  readonly prints?: string;
}

function blocksOf(file: string): readonly Block[] {
  const text = readFileSync(join(ROOT, file), "utf8");
  const blocks = [...text.matchAll(/^```([\w-]*)\n(.*?)^```$/gms)];
  return blocks.map((block, i) => {
    const next = blocks[i + 1];
    const follows =
      next !== undefined && next[1] === "text" && text.slice(block.index + block[0].length, next.index).trim() === "";
    return {
      file,
      line: text.slice(0, block.index).split("\n").length,
      language: block[1]!,
      text: block[2]!,
      ...(follows ? { prints: next[2]! } : {}),
    };
  });
}

const blocks = ["README.md", "DEVELOPERS.md", "curricula/README.md", "lib/progress/README.md"].flatMap(blocksOf);
const written = (...languages: readonly string[]): readonly (readonly [string, Block])[] =>
  blocks.filter((block) => languages.includes(block.language)).map((block) => [`${block.file}:${block.line}`, block]);

/** A stranger's folder: the package as a dependency, the shipped courses and takes beside the reader. */
let folder: string;
beforeAll(() => {
  const entry = builtEntry();
  folder = mkdtempSync(join(tmpdir(), "leeway-readme-"));
  mkdirSync(join(folder, "node_modules"));
  symlinkSync(ROOT, join(folder, "node_modules", "leeway"), "dir");
  cpSync(join(ROOT, "curricula"), join(folder, "curricula"), { recursive: true });
  writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
  mkdirSync(join(folder, "bin"));
  writeFileSync(join(folder, "bin", "leeway"), `#!/bin/sh\nexec "${process.execPath}" "${entry}" "$@"\n`);
  chmodSync(join(folder, "bin", "leeway"), 0o755);
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

function run(command: string, args: readonly string[]): string {
  const env = { ...process.env, NO_COLOR: "1", PATH: `${join(folder, "bin")}:${process.env.PATH}` };
  const { status, stdout, stderr } = spawnSync(command, args, { cwd: folder, encoding: "utf8", env });
  expect(status, stderr).toBe(0);
  return stdout;
}

/** With README=write what is printed is written into the pages instead of compared with them. */
const writing = process.env.README === "write";

function compare(block: Block, printed: string): void {
  if (block.prints === undefined) return;
  if (!writing) {
    expect(printed).toBe(block.prints);
    return;
  }
  const path = join(ROOT, block.file);
  const shown = (prints: string): string => `${block.text}\`\`\`\n\n\`\`\`text\n${prints}\`\`\``;
  const page = readFileSync(path, "utf8");
  expect(page).toContain(shown(block.prints));
  writeFileSync(
    path,
    page.replace(shown(block.prints), () => shown(printed)),
  );
}

describe("examples", () => {
  test("are in a language that is checked", () => {
    expect(blocks.filter((block) => !["sh", "ts", "yaml", "json", "jsonl", "text"].includes(block.language))).toEqual(
      [],
    );
    expect(blocks.length).toBeGreaterThan(0);
  });

  test.each(written("sh"))("the commands at %s run, and print what is shown", (_where, block) => {
    const scripts = (
      JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as { scripts: Record<string, string> }
    ).scripts;
    if (/^npm |^npx /m.test(block.text)) {
      // Running these here would install or test inside a test: that they exist is what can be checked.
      for (const [, name] of block.text.matchAll(/npm run ([\w:]+)/g)) expect(Object.keys(scripts)).toContain(name);
      expect(block.text).toMatch(/^(?:np[mx] [^\n]+\n)+$/);
      return;
    }
    const printed = run("bash", ["-euo", "pipefail", "-c", block.text]);
    compare(block, printed);
  });

  test.each(written("ts"))("the program at %s compiles, runs, and prints what is shown", (_where, block) => {
    const source = join(folder, `example-${block.line}.ts`);
    writeFileSync(source, block.text);
    const options: ts.CompilerOptions = {
      module: ts.ModuleKind.NodeNext,
      moduleResolution: ts.ModuleResolutionKind.NodeNext,
      noEmit: true,
      skipLibCheck: true,
      strict: true,
      target: ts.ScriptTarget.ES2022,
      typeRoots: [join(ROOT, "node_modules", "@types")],
      types: ["node"],
    };
    const told = ts
      .getPreEmitDiagnostics(ts.createProgram([source], options))
      .map((each) => ts.flattenDiagnosticMessageText(each.messageText, "\n"));
    expect(told).toEqual([]);
    const program = join(folder, `example-${block.line}.mjs`);
    writeFileSync(
      program,
      ts.transpileModule(block.text, {
        compilerOptions: { module: ts.ModuleKind.ES2022, target: ts.ScriptTarget.ES2022 },
      }).outputText,
    );
    const printed = run(process.execPath, [program]);
    compare(block, printed);
  });

  test.each(written("yaml"))("the course at %s has no problems", (where, block) => {
    const read = readCurriculum(block.text, { file: where, readFile: () => undefined });
    expect(read.ok ? [] : read.problems).toEqual([]);
  });

  test.each(written("json", "jsonl"))("the data at %s is JSON", (_where, block) => {
    for (const piece of block.language === "json" ? [block.text] : block.text.trim().split("\n"))
      expect(() => JSON.parse(piece), piece).not.toThrow();
  });
});
