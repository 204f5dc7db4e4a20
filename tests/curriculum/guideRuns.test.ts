import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { builtEntry } from "../built.js";
import { saidBy, useFolder } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { keepPart } from "./generated.js";

const GUIDE = "curricula/README.md";
const STEPS = readFileSync(join(ROOT, "curricula", "recipes", "six-steps.yaml"), "utf8");

useFolder("leeway-guide-runs-");

/** The course of the steps, with one line of its second step in other words. */
function courseWith(line: RegExp, other: string): string {
  const [before, rest] = [STEPS.slice(0, STEPS.indexOf("  step-2:")), STEPS.slice(STEPS.indexOf("  step-2:"))];
  expect(rest).toMatch(line);
  writeFileSync("course.yaml", before + rest.replace(line, other));
  return "course.yaml";
}

async function answer<T>(...words: readonly string[]): Promise<T> {
  const { status, out, err } = await saidBy([...words, "--json"]);
  expect(status, err).toBe(0);
  return JSON.parse(out) as T;
}

const table = (rows: readonly (readonly string[])[]): string => {
  const [head, ...others] = rows.map((row) => `| ${row.join(" | ")} |`);
  return [head, `|${rows[0]!.map(() => "---|").join("")}`, ...others].join("\n");
};

interface Curve {
  readonly p: number;
  readonly within: readonly number[];
  readonly expectedTakes: number;
}

describe("the guide says what its commands say", () => {
  test("of gates: how many takes they need, and whom they let on by luck", async () => {
    const gates = [
      "{ clean: 2, of: 3 }",
      "{ clean: 3, of: 4 }",
      "{ clean: 4, of: 5 }",
      "{ in-a-row: 3 }",
      "{ sequential: { able: 85 %, unready: 50 % } }",
    ];
    const rows: string[][] = [];
    for (const gate of gates) {
      const course = courseWith(/tolerance: .*/, `tolerance: { landing: 120 ms }\n    gate: ${gate}`);
      const said = await answer<{ takes: readonly number[]; curves: readonly Curve[] }>("gate", course, "step-2");
      const of = (p: number): Curve => said.curves.find((curve) => curve.p === p)!;
      const takes = [0.9, 0.7, 0.5].map((p) => of(p).expectedTakes.toFixed(1));
      const luck = of(0.5).within[said.takes.indexOf(10)]!;
      rows.push([`\`${gate}\``, ...takes, `${Math.round(luck * 100)} %`]);
    }
    const head = [
      "gate",
      "takes, if clean 90 % of the time",
      "70 %",
      "50 %",
      "clean 50 % of the time: let on within 10 takes",
    ];
    keepPart(GUIDE, "gates", table([head, ...rows]));
  });

  test("of limits: how many first takes are clean, by how steady students are", async () => {
    const rows: string[][] = [];
    const cleanBy = new Map<string, number[]>();
    for (const limit of [80, 120, 160, 240]) {
      const cells: string[] = [];
      for (const silence of ["1/2 bar", "1 bar", "2 bars"]) {
        const course = courseWith(
          /dropout: \{ length: 1\/2 bar \}\n {4}tolerance: .*/,
          `dropout: { length: ${silence} }\n    tolerance: { landing: ${limit} ms }`,
        );
        const run = ["rehearse", course, "--drill", "step-2", "--students", "200", "--keep", "kept", "--workers", "1"];
        const said = await answer<Rehearsed>(...run);
        const [rung] = said.results.drills[0]!.rungs;
        const clean = (kind: string): number => rung!.arrival.find((each) => each.kind === kind)!.clean;
        const [all, least] = [clean("all"), clean("least steady quarter")];
        cells.push(`${Math.round(all * 100)} % (${Math.round(least * 100)} %)`);
        cleanBy.set(silence, [...(cleanBy.get(silence) ?? []), all]);
      }
      rows.push([`\`landing: ${limit} ms\``, ...cells]);
    }
    // Who may land further off is not clean less often.
    for (const [silence, shares] of cleanBy) expect(shares, silence).toEqual([...shares].sort((a, b) => a - b));
    keepPart(GUIDE, "limits", table([["limit", "silence of 1/2 bar", "1 bar", "2 bars"], ...rows]));
  }, 240_000);
});

/** The commands of a section of the guide, as a teacher types them. */
const commandsOf = (section: string): readonly string[] => {
  const [, text] = new RegExp(`\\n## ${section}\\n([\\s\\S]*?)\\n## `).exec(readFileSync(join(ROOT, GUIDE), "utf8"))!;
  return [...text!.matchAll(/`leeway ([^`]+)`/g)].map(([, words]) => words!);
};

describe("the commands that show a course", () => {
  test("are there, and do it", () => {
    writeFileSync("course.yaml", readFileSync(join(ROOT, "curricula", "recipes", "one-beat.yaml"), "utf8"));
    const commands = commandsOf("See it, hear it");
    expect(commands.map((words) => words.split(" ")[0])).toEqual(
      ["check", "rungs", "score", "render", "page", "publish"], // in the order in which a course is made
    );
    for (const command of commands) {
      const words = command.replace("NAME", "one-beat").split(" ");
      // Sound takes long and a page is served until it is stopped: what they would do is enough here.
      const more = words[0] === "publish" ? ["--dry-run"] : words[0] === "score" ? ["--mix", "listen"] : [];
      const typed = words[0] === "page" ? ["page", "course.yaml", "--out", "page"] : [...words, ...more];
      // The built command line, as sound is made in threads.
      const { status, stderr } = spawnSync(process.execPath, [builtEntry(), ...typed], { encoding: "utf8" });
      expect(status, `${command}\n${stderr}`).toBe(0);
    }
    const made = readdirSync("folder", { encoding: "utf8", recursive: true }).map((file) => file.split(".").at(-1));
    expect(made).toEqual(expect.arrayContaining(["wav", "pdf", "svg"]));
  }, 120_000);
});

interface Rehearsed {
  readonly results: {
    readonly drills: readonly {
      readonly rungs: readonly { readonly arrival: readonly { readonly kind: string; readonly clean: number }[] }[];
    }[];
  };
}
