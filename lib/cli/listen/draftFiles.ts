import { join } from "node:path";
import { makeFolder, writeWhole } from "../../node/index.js";
import type { Draft } from "../../recording/index.js";
import { meterText } from "../../time/index.js";
import type { Words } from "../../words/index.js";
import { openCourse } from "../input/courseFile.js";
import { DONE, type Outcome, refuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import type { Drafting } from "./drafting.js";
import { isStrokes, lineOf, notHeard } from "./draftText.js";

/** Name of the course in the folder of a draft. */
const FILE = "draft.yaml";
/** A note that is less sure than this is named in the course: our choice. */
const SURE = 0.9;

/** Writes a draft as a course of one riff, and its sheet beside it; without an engraver the course alone. */
export async function writeDraft(setting: Setting, draft: Draft, drafting: Drafting, out: string): Promise<Outcome> {
  const folder = await makeFolder(out);
  if (!folder.ok) return refuse(setting, folder.problems);
  const file = join(out, FILE);
  const written = await writeWhole(file, new TextEncoder().encode(courseText(draft, drafting, setting.words)));
  if (!written.ok) return refuse(setting, written.problems);
  const course = openCourse(file, setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  tellProblems(setting, course.advice);
  const [{ planOf }, { sheetFiles }] = await Promise.all([import("../render/plan.js"), import("../render/sheets.js")]);
  const reader = drafting.instrument === undefined ? {} : { for: [drafting.instrument] };
  const options = { as: ["pdf"], out, paper: "a4", folders: "drill", ...reader } as const;
  const drill = course.value.drills[0]!.name;
  const plan = planOf(course.value, { file, drill, rung: undefined }, options);
  if (!plan.ok) return refuse(setting, plan.problems);
  const sheets = await sheetFiles(setting, plan.value, options);
  tellProblems(setting, sheets.ok ? sheets.advice : sheets.problems);
  const files = [FILE, ...(sheets.ok ? sheets.value.map((each) => each.file) : [])];
  if (!setting.json)
    setting.terminal.print(`${plain(setting.words.say("cli.draft-written", { files, folder: out }))}\n`);
  return DONE;
}

/** A draft as a course that can be checked, printed and played; what is not sure, and what was not heard, is said in its comments. */
function courseText(draft: Draft, drafting: Drafting, words: Words): string {
  const { instrument, key, meter, options } = drafting;
  const { perBar, perBeat } = options;
  const strokes = isStrokes(draft, drafting);
  const line = lineOf(draft, drafting);
  const unsure = draft.notes.flatMap(({ place, pitches, sure }) => {
    const bar = 1 + Math.floor(place / perBar);
    const beat = 1 + (place - perBar * (bar - 1)) / perBeat;
    const isUnsure = [sure.place, sure.length ?? 1, sure.pitch ?? 1].some((share) => share < SURE);
    const isUnheard = pitches.length === 0 && !strokes;
    if (!isUnsure && !isUnheard) return [];
    return [words.say("cli.draft-unsure", { bar, beat, of: isUnheard ? "unheard" : "unsure" })];
  });
  const comments = [words.say("cli.draft-head"), ...notHeard(draft, drafting, words), ...unsure];
  const { lower, groups } = meter;
  const upper = groups.reduce((sum, each) => sum + each, 0);
  const clicks = lower >= 8 || upper > 1 ? "x".repeat(upper) : "xxxx";
  const lead = strokes ? `{ voices: { snare: ${JSON.stringify(line)} } }` : `{ notes: ${JSON.stringify(line)} }`;
  return `${comments.map((each) => `# ${plain(each)}\n`).join("")}curriculum: draft
edition: 0.1.0
title: Draft
${instrument === undefined ? "" : `players: [${JSON.stringify(instrument)}]\n`}patterns:
  riff:
    meter: ${meterText(meter)}
    bars: ${draft.bars}
    key: ${JSON.stringify(key)}
    parts:
      clicks: { voices: { hat: "${draft.bars > 1 ? `${clicks} | ...` : clicks}" } }
      lead: ${lead}
drills:
  riff:
    pattern: riff
    student: lead
    count-in: 1 bar
    tempo: ${options.tempo}
    dropout: { length: 1 bar, parts: [clicks] }
    mixes: { play: { lead: off }, listen: { lead: plays } }
    tolerance: { drift: 6 % }
    gate: { clean: 3, of: 4 }
`;
}
