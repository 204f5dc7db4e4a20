import { type Draft, type DraftNote, strokeLine, valueText } from "../../recording/index.js";
import { meterText } from "../../time/index.js";
import type { Words } from "../../words/index.js";
import { plain } from "../output/printableText.js";
import { table } from "../output/textTable.js";
import type { Drafting } from "./drafting.js";

/** Whether only strokes were heard, of drums: no note has a pitch. */
export function isStrokes({ notes }: Draft, { family }: Pick<Drafting, "family">): boolean {
  return (family === "percussive" || family === "midi") && notes.every(({ pitches }) => pitches.length === 0);
}

/** The line of a draft: of notes, or of strokes. */
export function lineOf(draft: Draft, drafting: Drafting): string {
  const { perBar } = drafting.options;
  return isStrokes(draft, drafting) ? strokeLine(draft.notes, { perBar, bars: draft.bars }) : draft.line;
}

/** What a draft does not say, as it cannot be heard. */
export function notHeard(draft: Draft, drafting: Drafting, { say }: Words): readonly string[] {
  const { family, options } = drafting;
  const strokes = isStrokes(draft, drafting);
  return [
    ...(strokes ? [say("cli.draft-not-heard", { what: "drums" })] : []),
    ...(!strokes && family !== "midi" ? [say("cli.draft-not-heard", { what: "chords" })] : []),
    ...(family === "plucked" ? [say("cli.draft-not-heard", { what: "lengths" })] : []),
    ...(family === "bowed" || family === "blown" ? [say("cli.draft-not-heard", { what: "slurs" })] : []),
    ...(options.starts === undefined ? [say("cli.draft-not-heard", { what: "bar-1" })] : []),
    say("cli.draft-not-heard", { what: "loudness" }),
    say("cli.draft-not-heard", { what: "tuplets" }),
  ];
}

/** A draft for people: the line, and how sure each note is. */
export function draftText(draft: Draft, drafting: Drafting, words: Words): string {
  const { say } = words;
  const { perBar, perBeat, perWhole } = drafting.options;
  const said = {
    notes: draft.notes.length,
    bars: draft.bars,
    meter: meterText(drafting.meter),
    grid: drafting.grid,
    tempo: draft.tempo.toFixed(1),
    ms: draft.scatterMs.toFixed(0),
  };
  const early = draft.notes.filter(({ place }) => place < 0).length;
  const rows = draft.notes.map((note) => [
    `${1 + Math.floor(note.place / perBar)}`,
    beatText((note.place - perBar * Math.floor(note.place / perBar)) / perBeat),
    note.pitches.join("+") || say("cli.draft-unheard"),
    valueText(note.length, perWhole),
    sureText(note.sure.place),
    sureText(note.sure.pitch),
    sureText(note.sure.length),
  ]);
  const headings = (["bar", "beat", "pitch", "length", "place", "pitch-sure", "length-sure"] as const).map(
    (of) => ` ${say("cli.draft-column", { of })}`,
  );
  const lines = [
    say("cli.drafted", said),
    "",
    `  ${lineOf(draft, drafting)}`,
    "",
    ...(early > 0 ? [say("cli.draft-before-bar-1", { notes: early })] : []),
  ];
  const unheard = notHeard(draft, drafting, words).map((each) => `  ${plain(each)}\n`);
  return `${lines.map((line) => `${plain(line)}\n`).join("")}${table(headings, rows)}${unheard.join("")}`;
}

/** "2.5": a beat from 1. */
function beatText(beats: number): string {
  return String(Math.round(1000 * (1 + beats)) / 1000);
}

/** "97 %"; nothing for what was not heard. */
function sureText(share: DraftNote["sure"]["pitch"]): string {
  return share === undefined ? "" : `${Math.floor(100 * share)} %`;
}
