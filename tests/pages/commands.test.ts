import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { COMMAND_EXAMPLES } from "./commandExamples.js";
import { pageExamples } from "./pageExamples.js";
import { writing } from "./writing.js";

const PAGE = join(ROOT, "lib", "cli", "README.md");

pageExamples("lib/cli/README.md");

describe("the page of the commands", () => {
  test("has every command with what its help says, and an example of each", async () => {
    const page = readFileSync(PAGE, "utf8");
    const [before] = page.split("<!-- commands -->");
    const commands = commandsIn((await saidBy(["--help"])).out);
    expect(Object.keys(COMMAND_EXAMPLES)).toEqual(commands);
    const sections: string[] = [];
    for (const name of commands) {
      const { out } = await saidBy([name, "--help"]);
      sections.push(sectionOf(name, out));
      for (const inner of commandsIn(out))
        sections.push(partOf(`${name} ${inner}`, (await saidBy([name, inner, "--help"])).out));
      sections.push(exampleOf(name));
    }
    const written = `${before}<!-- commands -->\n${sections.map((section) => withPrinted(section, page)).join("")}`;
    if (writing) writeFileSync(PAGE, written);
    else expect(page).toBe(written);
  });
});

function commandsIn(help: string): readonly string[] {
  const [, list = ""] = /^Commands:\n((?: {2}.*\n)+)/m.exec(help) ?? [];
  return [...list.matchAll(/^ {2}(\w+) /gm)].map(([, name]) => name!).filter((name) => name !== "help");
}

/** A command: what it does, how it is called, its arguments and options. */
function sectionOf(name: string, help: string): string {
  return `\n## ${name}\n\n${describedIn(help)}`;
}

/** A command inside another. */
function partOf(name: string, help: string): string {
  return `\n### ${name}\n\n${describedIn(help)}`;
}

function describedIn(help: string): string {
  const [, usage, about] = /^Usage: (.*?)\n\n(.*?)\n\n/s.exec(help) ?? [];
  const rows = [...optionsIn(help)].filter(([option]) => !/^(?:-h, |--json|--language|help )/.test(option));
  const table = (heading: string, of: readonly (readonly [string, string])[]): string =>
    of.length === 0
      ? ""
      : `\n| ${heading} | |\n|---|---|\n${of.map((row) => `| \`${inCell(row[0])}\` | ${inCell(row[1])} |`).join("\n")}\n`;
  const isOption = ([each]: readonly [string, string]): boolean => each.startsWith("-");
  const flat = usage!.replaceAll(/\s+/g, " ").replace("[options] ", "");
  return `${sentence(about!)}\n\n    ${flat}\n${table(
    "what",
    rows.filter((row) => !isOption(row)),
  )}${table("option", rows.filter(isOption))}`;
}

function inCell(text: string): string {
  return text.replaceAll("|", "\\|");
}

/** The example of a command, with room for what it prints. */
function exampleOf(name: string): string {
  const example = COMMAND_EXAMPLES[name]!;
  return example.startsWith(" ")
    ? `\n    ${example.trim()}\n`
    : `\n\`\`\`sh\n${example}\n\`\`\`\n\n\`\`\`text\n\`\`\`\n`;
}

/** Arguments, options and commands with what they mean, which the help may break over lines. */
function* optionsIn(help: string): Generator<readonly [string, string]> {
  for (const [, list] of help.matchAll(/^(?:Arguments|Options|Commands):\n((?: {2}.*\n?)+)/gm)) {
    const column = Math.min(...[...list!.matchAll(/^( {2}\S.*? {2,})\S/gm)].map(([, start]) => start!.length));
    let row: [string, string] | undefined;
    for (const line of list!.split("\n").filter((each) => each !== "")) {
      if (/^ {2}\S/.test(line)) {
        if (row !== undefined) yield row;
        row = [line.slice(0, column).trim(), line.slice(column).trim()];
      } else row![1] = `${row![1]} ${line.trim()}`.trim();
    }
    if (row !== undefined) yield row;
  }
}

function sentence(about: string): string {
  const flat = about.replaceAll(/\s+/g, " ").trim();
  return `${flat[0]!.toUpperCase()}${flat.slice(1)}.`;
}

/** A section with what its example prints as the page has it; the example is run by itself. */
function withPrinted(section: string, page: string): string {
  const [, example] = /^(```sh\n.*?```\n\n```text\n)```$/ms.exec(section) ?? [];
  if (example === undefined) return section;
  const at = page.indexOf(example);
  if (at < 0) return section;
  const from = at + example.length;
  return section.replace(`${example}\`\`\``, () => `${example}${page.slice(from, page.indexOf("```", from))}\`\`\``);
}
