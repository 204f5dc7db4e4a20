import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type ProblemCatalogue, problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { REASONS } from "../../lib/take/index.js";
import { listLanguages, loadWords } from "../../lib/words/index.js";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";
import { readCatalogues } from "../words/catalogues.js";
import { saidBy } from "./said.js";

const TABLE = join(ROOT, "lib", "cli", "explain", "generated", "explanations.ts");
const FIXTURES = join(ROOT, "tests", "problems");

/** The table that `leeway explain` reads: every code of the catalogues, with the line and the remedy of its first fixture. */
async function tableFromFixtures(): Promise<string> {
  const rows: string[] = [];
  const fixtures = readdirSync(FIXTURES).filter((file) => file.endsWith(".yaml"));
  for (const file of readdirSync(join(ROOT, "lib"), { encoding: "utf8", recursive: true }).sort()) {
    if (!/(^|\/)codes\.ts$/.test(file)) continue;
    const module = (await import(/* @vite-ignore */ join(ROOT, "lib", file))) as Record<string, unknown>;
    for (const [name, catalogue] of Object.entries(module)) {
      if (!name.endsWith("Codes")) continue;
      for (const [code, severity] of Object.entries(catalogue as ProblemCatalogue)) {
        const fixture = fixtures.find((each) => each.replace(/(@.*)?\.yaml$/, "") === code);
        const shown = fixture === undefined ? [] : exampleIn(fixture, code);
        rows.push(`  ${code}: ${JSON.stringify([severity, ...shown])},`);
      }
    }
  }
  return [
    `import type { Message } from "../../../base/index.js";`,
    "",
    "/** Written from the catalogues and the fixtures by `EXPLAIN=write npx vitest run tests/cli/explain.test.ts`. */",
    "export const EXPLANATIONS: Readonly<",
    "  Record<string, readonly [severity: string, line?: string, remedy?: string, said?: Message]>",
    "> = {",
    ...rows,
    "};",
    "",
  ].join("\n");
}

function exampleIn(fixture: string, code: string): readonly unknown[] {
  const text = readFileSync(join(FIXTURES, fixture), "utf8");
  const problem = problemsIn(readCurriculum(text, { file: fixture, readFile: () => undefined })).find(
    (each) => each.code === code,
  );
  const line = text.split("\n")[(problem?.where.line ?? 0) - 1]?.trim() ?? "";
  if (problem?.remedy === undefined || line === "" || line.length > 120) return [];
  return [line, problem.remedy, problem.words?.remedy];
}

test("leeway explain has every code, with the line of a fixture that has the problem and its remedy", async () => {
  const table = await tableFromFixtures();
  if (process.env.EXPLAIN === "write") writeFileSync(TABLE, table);
  expect(readFileSync(TABLE, "utf8")).toBe(table);
  expect(table.split("\n").length).toBeGreaterThan(200);
});

test("leeway explain CODE says what it means, a line that has it and what to do", async () => {
  const { out, status } = await saidBy(["explain", "meter_not_read"]);
  expect(status).toBe(0);
  expect(out).toMatch(/^METER_NOT_READ \(error\)\n.+\n\n {2}such a line: {2}meter: .+\n {2}what to do: {3}write /);
});

test("leeway explain --language says what every code means in that language, from the command line that is built", async () => {
  const catalogues = await readCatalogues();
  // Words of the notation are marked as literals, and shown as they are.
  const shown = (source: string): string => source.replaceAll(/\{\|([^|]*)\|\}/g, "$1");
  for (const [tag, messages] of catalogues) {
    const own = [...messages].filter(([key]) => key.startsWith("code."));
    if (tag === "en" || own.length === 0) continue;
    const { out } = await saidBy(["explain", "TEMPO_NOT_READ", "--language", tag]);
    expect(out.split("\n")[1], tag).toBe(shown(messages.get("code.tempo-not-read")!.source));
    const built = spawnSync(process.execPath, [builtEntry(), "explain", "BAR_TOO_SHORT", "--language", tag, "--json"]);
    expect(JSON.parse(String(built.stdout)).means, tag).toBe(shown(messages.get("code.bar-too-short")!.source));
  }
});

test("no code is explained in the files of languages that pages load", async () => {
  for (const { tag } of listLanguages()) {
    const loaded = await loadWords(tag, { problems: false });
    if (!loaded.ok) throw new Error(tag);
    const { source } = (await readCatalogues()).get("en")!.get("code.meter-not-read")!;
    expect(loaded.value.say("code.meter-not-read"), tag).toBe(source);
  }
});

test("leeway explain knows every reason of a finding, says whether it stands against a verdict, and what to do", async () => {
  const texts = new Set<string>();
  for (const code of Object.keys(REASONS)) {
    const { out, status } = await saidBy(["explain", code]);
    expect(status).toBe(0);
    expect(out).toMatch(
      new RegExp(`^${code} \\(a reason in a finding: .+\\)\\n[A-Z].+\\.\\n\\n {2}what to do: {2}\\S.+\\n$`),
    );
    texts.add(out.split("\n").slice(1).join());
  }
  expect(texts.size).toBe(Object.keys(REASONS).length);
  expect((await saidBy(["explain", "ANOTHER_TEMPO"])).out).toContain("is about is unclear");
  expect((await saidBy(["explain", "LANDING_LEFT_OUT"])).out).toContain("whatever the verdict");
  expect(JSON.parse((await saidBy(["explain", "guided", "--json"])).out)).toMatchObject({
    code: "GUIDED",
    verdict: "any",
  });
  expect((await saidBy(["explain", "ANOTHER_TEMPI"])).err).toContain("write ANOTHER_TEMPO");
});
