import { readJournal } from "../../../progress/index.js";
import { exportJournals, importJournals } from "../../../store/index.js";
import { COPIES, keptLine } from "../keptLine.js";
import type { Page } from "../page.js";
import { keep, recall } from "../state/students.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";
import { saveFile } from "../view/saveFile.js";

/** Largest file of journals that is read, bytes: our choice, some ten thousand events. */
const LARGEST = 20_000_000;

/** Copies of the journal: to send to the teacher or to another device, and to take in from there. */
export async function copySection(page: Page): Promise<HTMLElement> {
  const { words } = page;
  const kept = h("p", { class: "small" }, await keptLine(page));
  const answer = h("div", { role: "status" });
  const file = h("input", { type: "file", id: "journal", accept: ".jsonl,.json,application/jsonl,text/plain" });
  file.addEventListener("change", () => {
    const chosen = file.files?.[0];
    if (chosen !== undefined) void takeIn(page, chosen, answer);
  });
  return h(
    "section",
    { "aria-labelledby": "copies" },
    h("h2", { id: "copies" }, words.say("page.journal")),
    h("p", {}, words.say("page.journal-is")),
    kept,
    h(
      "div",
      { class: "presses" },
      h(
        "button",
        { type: "button", id: "export", click: () => void giveOut(page, kept) },
        words.say("page.save-journal"),
      ),
      (await page.kept()) === "best effort" &&
        h("button", { type: "button", click: () => void askToKeep(page, kept) }, words.say("page.ask-to-keep")),
    ),
    h(
      "div",
      { class: "field" },
      h("label", { class: "label", for: "journal" }, words.say("page.take-in-journal")),
      file,
    ),
    answer,
  );
}

async function askToKeep(page: Page, kept: HTMLElement): Promise<void> {
  await page.askToKeep();
  kept.textContent = await keptLine(page);
}

/** The journal as a file that `leeway journal import` takes. */
async function giveOut(page: Page, kept: HTMLElement): Promise<void> {
  const { name } = page.student!;
  let text = "";
  for await (const piece of exportJournals(await page.store(), { student: name })) text += piece;
  saveFile(`${fileName(name)}.jsonl`, text, "application/jsonl");
  keep(COPIES, { ...recall<Record<string, string>>(COPIES), [name]: new Date().toISOString() });
  kept.textContent = await keptLine(page);
}

async function takeIn(page: Page, file: File, answer: HTMLElement): Promise<void> {
  const { words } = page;
  if (file.size > LARGEST)
    return fill(answer, h("p", {}, words.say("page.file-too-large", { megabytes: LARGEST / 1e6 })));
  const read = readJournal(await file.text());
  const lines = read.events.map((value, i) => ({ value, line: read.lines[i]! }));
  const { added, known, problems } = await importJournals(await page.store(), lines);
  const all = [...read.problems, ...problems];
  fill(answer, h("p", {}, words.say("page.taken-in", { added, known })), all.length > 0 && problemList(all, words));
}

/** A name for a file: what no system refuses. */
function fileName(name: string): string {
  return name.replaceAll(/[^\p{L}\p{N}_-]+/gu, "-").replaceAll(/^-+|-+$/g, "") || "journal";
}
