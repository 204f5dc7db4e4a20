import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { PARAMETERS, rungs, scoreOf } from "../../lib/drill/index.js";

const PAGE = readFileSync(new URL("../../curricula/README.md", import.meta.url), "utf8");
const TRIAL = readFileSync(new URL("trial.yaml", import.meta.url), "utf8");

function read(text: string): { readonly course: Curriculum | undefined; readonly said: readonly string[] } {
  const result = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  const said = problemsIn(result).map(({ code, message, where }) => `${where.line}:${where.column} ${code} ${message}`);
  return { course: result.ok ? result.value : undefined, said };
}

describe("the page that describes courses", () => {
  const blocks = [...PAGE.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map((match) => match[1]!);

  test("shows courses with neither problems nor advice", () => {
    expect(blocks.length).toBeGreaterThan(0);
    for (const block of blocks) expect(read(block).said).toEqual([]);
  });

  test("names the schema for an editor by a path that is there where leeway was installed beside a course", () => {
    const root = new URL("../../", import.meta.url);
    const { name, files } = JSON.parse(readFileSync(new URL("package.json", root), "utf8")) as {
      readonly name: string;
      readonly files: readonly string[];
    };
    const [, schema] = /\$schema=node_modules\/(\S+?)`/.exec(PAGE)!;
    expect(schema).toBe(`${name}/schemas/curriculum.schema.json`);
    expect(files).toContain("schemas/*.schema.json");
    expect(readFileSync(new URL("schemas/curriculum.schema.json", root), "utf8")).not.toMatch(/"\$ref": "(?!#)/);
    expect(readFileSync(new URL("lib/cli/TOUR.md", root), "utf8")).toContain(`$schema=node_modules/${schema}\n`);
  });

  test("has every key of a course, a pattern, a part, a drill and a ladder", () => {
    const schema = JSON.parse(
      readFileSync(new URL("../../schemas/curriculum.schema.json", import.meta.url), "utf8"),
    ) as { readonly $defs: Readonly<Record<string, { readonly properties: object }>> };
    for (const part of ["part", "drill", "dropout", "ladder", "tolerance", "countIn", "gate", "go-back", "open"])
      for (const key of Object.keys(schema.$defs[part]!.properties)) {
        // What a person seldom writes is explained by the editor.
        if (["formerly", "title", "about", "track", "part", "bars", "seed", "subdivision"].includes(key)) continue;
        expect(PAGE, `${part}: ${key}`).toMatch(
          new RegExp(`\`[^\`\n]*\\b${key}\\b|^ +${key}:|\\{[^}\n]*\\b${key}:`, "m"),
        );
      }
    for (const parameter of PARAMETERS) expect(PAGE).toMatch(new RegExp(`^\\| \`- ${parameter}:`, "m"));
  });

  // Written as a saxophone teacher would, from the page alone. The first version laid the landing on the open bar: the page says since then where silences land.
  test("is enough to write a course of: alto and tenor, three densities, growing silences, an open bar in a blues scale, four mixes", () => {
    const { course, said } = read(TRIAL);
    expect(said).toEqual([]);
    const growing = course!.drills.find(({ name }) => name === "growing")!;
    expect(growing.players.map(({ instrument }) => instrument.name)).toEqual(["alto saxophone", "tenor saxophone"]);
    expect(rungs(growing).count).toBe(9);
    const score = scoreOf(rungs(growing).at(0), "playing");
    const beats = score.dropouts.map(({ from, to }) => Math.round((to - from) / score.beat));
    expect(beats).toEqual([2, 2, 4, 4, 6, 6]);
    expect(score.open.map(({ scale, bars }) => [scale, ...bars])).toEqual(
      [4, 8, 12, 16, 20, 24].map((bar) => ["G minor blues", bar]),
    );
    const sounding = (mix: string): readonly string[] =>
      scoreOf(rungs(growing).at(0), mix).parts.flatMap(({ name, does }) => (does === "off" ? [] : [`${name} ${does}`]));
    expect(sounding("playing")).toEqual(["kit drops", "bass drops"]);
    expect(sounding("listening")).toEqual(["kit drops", "bass drops", "lead plays"]);
    expect(sounding("alone")).toEqual(["bass drops"]);
    expect(sounding("drums only")).toEqual(["kit plays"]);
  });
});
