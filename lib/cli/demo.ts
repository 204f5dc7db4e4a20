import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { CAUTIONS } from "../base/index.js";
import { leaveWithReader } from "./leaveWithReader.js";
import { leeway } from "./program.js";
import { type Terminal, thisTerminal } from "./terminal.js";

// The whole job on the course and the takes that come with the package: check, look, listen, decide.
leaveWithReader();
const terminal = thisTerminal();
const folder = mkdtempSync(join(tmpdir(), "leeway-demo-"));
process.chdir(fileURLToPath(new URL("../../", import.meta.url)));
const course = "curricula/quayside-first-course.yaml";
const takes = "curricula/takes";

try {
  say("A course of four drills. Is anything wrong with it?");
  await show("check", course);
  say("One of them climbs by tempo, its silence half a bar long:");
  await show("rungs", course, "half-bar");
  say("What the first rung sounds like:");
  await show("score", course, "half-bar", "1");
  say("A student has recorded a take of it to a MIDI file:");
  await show("assess", course, "half-bar", "1", `${takes}/half-bar.mid`);
  say("A whole bar of silence is harder:");
  await show("assess", course, "one-bar", "1", `${takes}/one-bar-hurried.mid`);
  say("Who gets through the gate of a drill, and how soon?");
  await show("gate", course, "steady");
  say("Four takes of the first drill, one for each evening of a week. What next?");
  const findings = join(folder, "findings.jsonl");
  writeFileSync(findings, await output("assess", course, "steady", "1", `${takes}/steady-week.jsonl`, "--json"));
  const journal = join(folder, "tern.jsonl");
  const asked = ["decide", course, "--journal", journal, "--student", "tern", "--findings", findings];
  terminal.print(`\n$ ${line(asked)} >> tern.jsonl\n`);
  const events = await output(...asked, "--at", "2026-03-05T18:00:00Z");
  writeFileSync(journal, events);
  say(`The journal has ${events.trimEnd().split("\n").length} events now. The last one:`);
  terminal.print(`\n${events.trimEnd().split("\n").at(-1)}\n`);
  terminal.print(`\n${CAUTIONS.join("\n")}\n`);
  say("To hear a drill, play it and be told: npm start serves the practice page at http://127.0.0.1:8420/");
} finally {
  rmSync(folder, { force: true, recursive: true });
}

function say(sentence: string): void {
  terminal.print(`\n${sentence}\n`);
}

function line(words: readonly string[]): string {
  return ["leeway", ...words.map((word) => word.replace(`${folder}/`, ""))].join(" ");
}

/** Runs a command line and shows it. */
async function show(...words: readonly string[]): Promise<void> {
  terminal.print(`\n$ ${line(words)}\n`);
  await run(words, terminal);
}

/** Runs a command line and returns its standard output; its standard error is shown. */
async function output(...words: readonly string[]): Promise<string> {
  let printed = "";
  await run(words, {
    ...terminal,
    tell: terminal.print,
    print: (text) => {
      printed += text;
    },
  });
  return printed;
}

async function run(words: readonly string[], on: Terminal): Promise<void> {
  const outcome = await leeway(words, on);
  if (outcome !== 0) process.exitCode = outcome;
}
