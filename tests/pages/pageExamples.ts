import { spawnSync } from "node:child_process";
import { chmodSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { builtEntry } from "../built.js";
import { programOf, said } from "../compiler.js";
import { ROOT } from "../sources.js";
import { writing } from "./writing.js";

interface Block {
  readonly line: number;
  readonly language: string;
  readonly text: string;
  /** The text of a `text` block that follows directly: what the block prints. */
  readonly prints?: string;
}

const LANGUAGES = ["sh", "ts", "yaml", "json", "jsonl", "html", "text"];

export function blocksOf(page: string): readonly Block[] {
  const text = readFileSync(join(ROOT, page), "utf8");
  const blocks = [...text.matchAll(/^```([\w-]*)\n(.*?)^```$/gms)];
  return blocks.map((block, i) => {
    const next = blocks[i + 1];
    const follows =
      next !== undefined && next[1] === "text" && text.slice(block.index + block[0].length, next.index).trim() === "";
    return {
      line: text.slice(0, block.index).split("\n").length,
      language: block[1]!,
      text: block[2]!,
      ...(follows ? { prints: next[2]! } : {}),
    };
  });
}

/**
 * Tests every example of a page, in the order of the page and in one folder as a stranger has it: the package as a dependency, its courses beside. `sh` blocks
 * run, a `text` block after one is what it prints; `ts` blocks compile and run; `yaml` blocks are courses without problems, and are there as files where their
 * first line names one (`# quay.yaml`); the rest is JSON.
 */
export function pageExamples(page: string): void {
  const blocks = blocksOf(page);
  const written = (...languages: readonly string[]): readonly (readonly [number, Block])[] =>
    blocks.filter(({ language }) => languages.includes(language)).map((block) => [block.line, block]);
  let folder: string;

  beforeAll(() => {
    const entry = builtEntry();
    folder = mkdtempSync(join(tmpdir(), "leeway-page-"));
    mkdirSync(join(folder, "node_modules"));
    symlinkSync(ROOT, join(folder, "node_modules", "leeway"), "dir");
    cpSync(join(ROOT, "curricula"), join(folder, "curricula"), { recursive: true });
    writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
    mkdirSync(join(folder, "bin"));
    writeFileSync(join(folder, "bin", "leeway"), `#!/bin/sh\nexec "${process.execPath}" "${entry}" "$@"\n`);
    chmodSync(join(folder, "bin", "leeway"), 0o755);
    for (const { language, text } of blocks) {
      const [, file] = /^# ([\w-]+\.yaml)\n/.exec(text) ?? [];
      if (language === "yaml" && file !== undefined) writeFileSync(join(folder, file), text);
    }
  });
  afterAll(() => rmSync(folder, { force: true, recursive: true }));

  function run(command: string, args: readonly string[]): string {
    const env = { ...process.env, NO_COLOR: "1", PATH: `${join(folder, "bin")}:${process.env.PATH}` };
    const { status, stdout, stderr } = spawnSync(command, args, { cwd: folder, encoding: "utf8", env });
    expect(status, stderr).toBe(0);
    return stdout;
  }

  function compare(block: Block, printed: string): void {
    if (block.prints === undefined) return;
    if (!writing) {
      expect(printed).toBe(block.prints);
      return;
    }
    const path = join(ROOT, page);
    const shown = (prints: string): string => `${block.text}\`\`\`\n\n\`\`\`text\n${prints}\`\`\``;
    const text = readFileSync(path, "utf8");
    expect(text).toContain(shown(block.prints));
    writeFileSync(
      path,
      text.replace(shown(block.prints), () => shown(printed)),
    );
  }

  describe(page, () => {
    test("has examples, all in languages that are checked", () => {
      expect(blocks.filter(({ language }) => !LANGUAGES.includes(language))).toEqual([]);
      expect(blocks.length).toBeGreaterThan(0);
    });

    test.each(written("sh"))("line %i: the commands run, and print what is shown", (_line, block) => {
      if (/^npm |^npx /m.test(block.text)) {
        expectScripts(block.text);
        return;
      }
      compare(block, run("bash", ["-euo", "pipefail", "-c", block.text]));
    });

    test.runIf(written("ts").length > 0)("the programs compile", () => {
      const programs = written("ts").map(([line, { text }]) => {
        const source = join(folder, `line-${line}.ts`);
        writeFileSync(source, text);
        return source;
      });
      expect(complaintsOf(programs)).toEqual([]);
    });

    test.each(written("ts"))("line %i: the program runs, and prints what is shown", (line, block) => {
      const { outputText } = ts.transpileModule(block.text, {
        compilerOptions: { module: ts.ModuleKind.ES2022, target: ts.ScriptTarget.ES2022 },
      });
      writeFileSync(join(folder, `line-${line}.mjs`), outputText);
      compare(block, run(process.execPath, [join(folder, `line-${line}.mjs`)]));
    });

    test.each(written("yaml"))("line %i: the course has no problems", (line, block) => {
      const read = readCurriculum(block.text, { file: `${page}:${line}`, readFile: () => undefined });
      expect(read.ok ? [] : read.problems).toEqual([]);
    });

    test.each(written("json", "jsonl"))("line %i: the data is JSON", (_line, block) => {
      for (const piece of block.language === "json" ? [block.text] : block.text.trim().split("\n"))
        expect(() => JSON.parse(piece), piece).not.toThrow();
    });
  });
}

/** Running these would install or test inside a test: that they exist is what can be checked. */
function expectScripts(text: string): void {
  const { scripts } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
    readonly scripts: Readonly<Record<string, string>>;
  };
  for (const [, name] of text.matchAll(/npm run ([\w:]+)/g)) expect(Object.keys(scripts)).toContain(name);
  expect(text).toMatch(/^(?:np[mx] [^\n]+\n)+$/);
}

/** What the compiler says of programs in one folder, with their names. */
function complaintsOf(programs: readonly string[]): readonly string[] {
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
  const told = ts.getPreEmitDiagnostics(programOf(programs, options));
  return said(told).map((text, i) => `${basename(told[i]!.file?.fileName ?? "")}: ${text}`);
}
