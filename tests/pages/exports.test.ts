import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type DoorName, doorNames } from "../doors.js";
import { ROOT } from "../sources.js";
import { writing } from "./writing.js";

const MARK = "<!-- exports -->";

/** The page of a door: of its room, and of the library for the root. */
function pageOf(door: string): string {
  const room = door.split("/")[1];
  if (room === undefined) return "lib/README.md";
  return `lib/${["recording", "sheet", "sound"].includes(room) ? "render" : room}/README.md`;
}

/** The first sentence of a doc comment, as a cell of a table. */
function firstSentence(doc: string): string {
  const [first = ""] = doc.replaceAll(/\s+/g, " ").split(/(?<=\.)\s(?=[A-Z`"])/);
  return first.replaceAll("|", "\\|");
}

/** What a name is for. A module given as one name has no doc comment of its own. */
function meansOf({ doc, name }: DoorName): string {
  if (name === "fraction") return "Exact fractions: the functions below.";
  if (name === "english") return "The language that the library is written in, for `wordsOf`.";
  return firstSentence(doc);
}

function tableOf(door: string, names: readonly DoorName[]): string {
  const isCatalogue = ({ name }: DoorName): boolean => name.endsWith("InEnglish");
  const catalogues = names.filter(isCatalogue).map(({ name }) => `\`${name}\``);
  const rows = names
    .filter((each) => each.kind !== "type" && !isCatalogue(each))
    .map((each) => `| \`${each.name}\` | ${each.kind} | ${meansOf(each)} |`);
  const types = names.filter(({ kind }) => kind === "type").map(({ name }) => `\`${name}\``);
  return [
    `### ${door.replace(".", "leeway")}`,
    "",
    ...(rows.length === 0 ? [] : ["| name | | |", "|---|---|---|", ...rows, ""]),
    ...(catalogues.length === 0
      ? []
      : [`The English words of each topic, for \`wordsOf\`: ${catalogues.join(", ")}.`, ""]),
    ...(types.length === 0 ? [] : [`Types: ${types.join(", ")}.`, ""]),
  ].join("\n");
}

test("the page of each room has everything at its doors, with the first sentence of its docs", () => {
  const order = { function: 0, value: 1, type: 2 };
  const all = doorNames();
  const names = all.toSorted((a, b) => order[a.kind] - order[b.kind] || (a.name < b.name ? -1 : 1));
  expect(
    names.filter((each) => each.kind !== "type" && !each.name.endsWith("InEnglish") && meansOf(each) === ""),
  ).toEqual([]);
  const tables = new Map<string, string[]>();
  for (const door of new Set(all.map((each) => each.door))) {
    const page = pageOf(door);
    tables.set(page, [
      ...(tables.get(page) ?? []),
      tableOf(
        door,
        names.filter((each) => each.door === door),
      ),
    ]);
  }
  for (const [page, made] of tables) {
    const path = join(ROOT, page);
    const text = existsSync(path) ? readFileSync(path, "utf8") : "";
    const [before] = text.split(MARK);
    const written = `${before}${MARK}\n\n${made.join("\n")}`;
    if (writing) writeFileSync(path, written);
    else expect(text, page).toBe(written);
  }
});
