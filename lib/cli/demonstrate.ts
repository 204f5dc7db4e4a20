import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { cautionsIn } from "../words/index.js";
import { type LoadWords, wordsFor } from "./language.js";
import { DONE, type Outcome } from "./outcome.js";
import { leeway } from "./program.js";
import type { Terminal } from "./terminal.js";

/**
 * The whole job on the course and the takes that come with the package: check, look, listen, decide. Course and takes are found from the folder of the
 * process. `language` is the language of the walk and of every command in it.
 */
export async function demonstrate(terminal: Terminal, language: string, load?: LoadWords): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), "leeway-demo-"));
  const course = "curricula/quayside-first-course.yaml";
  const takes = "curricula/takes";
  const { words } = await wordsFor(language, load);
  let outcome: Outcome = DONE;

  function tell(sentence: string): void {
    terminal.print(`\n${sentence}\n`);
  }

  function line(asked: readonly string[]): string {
    return ["leeway", ...asked.map((word) => word.replace(`${folder}/`, ""))].join(" ");
  }

  /** Runs a command line and shows it. */
  async function show(...asked: readonly string[]): Promise<void> {
    terminal.print(`\n$ ${line(asked)}\n`);
    await run(asked, terminal);
  }

  /** Runs a command line and returns its standard output; its standard error is shown. */
  async function output(...asked: readonly string[]): Promise<string> {
    let printed = "";
    await run(asked, {
      ...terminal,
      tell: terminal.print,
      print: (text) => {
        printed += text;
      },
    });
    return printed;
  }

  async function run(asked: readonly string[], on: Terminal): Promise<void> {
    const ended = await leeway([...asked, "--language", language], on, load);
    if (ended !== DONE) outcome = ended;
  }

  try {
    tell(words.say("cli.demo-check"));
    await show("check", course);
    tell(words.say("cli.demo-rungs"));
    await show("rungs", course, "half-bar");
    tell(words.say("cli.demo-score"));
    await show("score", course, "half-bar", "1");
    tell(words.say("cli.demo-take"));
    await show("assess", course, "half-bar", "1", `${takes}/half-bar.mid`);
    tell(words.say("cli.demo-harder"));
    await show("assess", course, "one-bar", "1", `${takes}/one-bar-hurried.mid`);
    tell(words.say("cli.demo-gate"));
    await show("gate", course, "steady");
    tell(words.say("cli.demo-week"));
    const findings = join(folder, "findings.jsonl");
    writeFileSync(findings, await output("assess", course, "steady", "1", `${takes}/steady-week.jsonl`, "--json"));
    const journal = join(folder, "tern.jsonl");
    const asked = ["decide", course, "--journal", journal, "--student", "tern", "--findings", findings];
    terminal.print(`\n$ ${line(asked)} >> tern.jsonl\n`);
    const events = await output(...asked, "--at", "2026-03-05T18:00:00Z");
    writeFileSync(journal, events);
    tell(words.say("cli.demo-journal", { events: String(events.trimEnd().split("\n").length) }));
    terminal.print(`\n${events.trimEnd().split("\n").at(-1)}\n`);
    terminal.print(`\n${cautionsIn(words).join("\n")}\n`);
    tell(words.say("cli.demo-page", { command: "npm start", address: "http://127.0.0.1:8420/" }));
  } finally {
    rmSync(folder, { force: true, recursive: true });
  }

  return outcome;
}
