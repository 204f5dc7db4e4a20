import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { ProblemCatalogue } from "../../lib/base/index.js";
import { meaningOf } from "../../lib/cli/explain/explain.js";
import { EXPLANATIONS } from "../../lib/cli/explain/generated/explanations.js";
import { NO_OBSTACLE, REASONS } from "../../lib/take/index.js";
import { messages } from "../../lib/words/generated/en.js";
import { english, type KeyIn, type Topic, wordsOf } from "../../lib/words/index.js";
import { ROOT } from "../sources.js";
import { writing } from "./writing.js";

const PAGE = join(ROOT, "schemas", "PROBLEMS.md");
const { say } = wordsOf<Topic>(english, messages);

/** Rooms, in the order of the page, and what raises their problems. */
const SECTIONS: Readonly<Record<string, string>> = {
  time: "Meters, lengths and tempi",
  pattern: "Riffs and their accompaniment",
  drill: "Drills, ladders, gates",
  curriculum: "The course as a file",
  schema: "Any document",
  formats: "MIDI, MusicXML and sound files",
  listen: "Takes and recordings",
  progress: "Journals",
  practice: "Students and their takes",
  plan: "Plans",
  store: "Stores",
  rehearsal: "Rehearsal",
  records: "Learning records",
  render: "Sheets, sound and pictures",
  words: "Languages",
  node: "On this machine",
  cli: "Commands",
  browser: "In a browser",
  server: "A school",
};

/** Room -> its codes, in the order of its catalogues. */
const rooms = new Map<string, Set<string>>();
for (const file of readdirSync(join(ROOT, "lib"), { encoding: "utf8", recursive: true }).sort()) {
  const path = file.replaceAll("\\", "/").split("/");
  if (path.at(-1) !== "codes.ts") continue;
  const module = (await import(/* @vite-ignore */ join(ROOT, "lib", file))) as Record<string, unknown>;
  for (const [name, catalogue] of Object.entries(module))
    if (name.endsWith("Codes"))
      rooms.set(path[0]!, new Set([...(rooms.get(path[0]!) ?? []), ...Object.keys(catalogue as ProblemCatalogue)]));
}

const indented = (line: string): string => `    ${line}`;

function sectionOf(code: string): string {
  const [severity, line, remedy] = EXPLANATIONS[code]!;
  const means = `*${severity === "error" ? "Error" : "Advice"}.* ${meaningOf(code, say)}`;
  const example = line === undefined ? [] : ["", indented(line), ...(remedy === undefined ? [] : ["", `→ ${remedy}`])];
  return [`### ${code}`, "", means, ...example, ""].join("\n");
}

function reasonSection(code: keyof typeof REASONS): string {
  const key = `reason.${code.toLowerCase().replaceAll("_", "-")}`;
  const verdict = NO_OBSTACLE.has(code) ? "*With any verdict.*" : "*The take or the silence is unclear.*";
  return [
    `### ${code}`,
    "",
    `${verdict} ${say(key as KeyIn<"reason">)}`,
    "",
    `→ ${say(`${key}-remedy` as KeyIn<"reason">)}`,
    "",
  ].join("\n");
}

test("the page of problems has every code, with what `leeway explain` says of it", () => {
  expect([...rooms.keys()].sort()).toEqual(Object.keys(SECTIONS).sort());
  const problems = Object.entries(SECTIONS).flatMap(([room, title]) => [
    `## ${title}\n`,
    ...[...rooms.get(room)!].map(sectionOf),
  ]);
  const reasons = (Object.keys(REASONS) as (keyof typeof REASONS)[]).map(reasonSection);
  const page = readFileSync(PAGE, "utf8");
  const [before] = page.split("<!-- problems -->");
  const written = [`${before}<!-- problems -->\n`, ...problems, "## Reasons in a finding\n", ...reasons].join("\n");
  if (writing) writeFileSync(PAGE, written);
  else expect(page).toBe(written);
});
