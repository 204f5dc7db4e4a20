import { settingsWords } from "../../drill/index.js";
import { rungStanding, stayVerdicts } from "../../progress/index.js";
import type { DrillStanding, Standing, Verdict } from "../../schema/index.js";
import { plain } from "./printableText.js";

/** Most takes shown of a rung, the latest; our choice: they fit beside its settings. */
const TAKES_SHOWN = 20;

/** The current rungs of a student, one line for each open drill. */
export function nextText(standing: Standing): string {
  const open = standing.drills.filter(isOpen);
  if (open.length > 0)
    return open.map((held) => `  next: ${plain(held.drill)} at ${plain(settingsWords(held.rung ?? ""))}\n`).join("");
  const isDone = standing.drills.some(({ state }) => state === "complete");
  return isDone ? "  every drill that was open is complete\n" : "  no drill is open\n";
}

/** A standing as text: each drill, the student's rung in it, and the takes since the student came there. */
export function standingText(standing: Standing): string {
  const { student, curriculum, edition, latest } = standing;
  const head = `${plain(student)}  ${plain(curriculum)} ${plain(edition)}, last event ${plain(latest.at)}\n`;
  return head + standing.drills.map(drillText).join("");
}

function drillText(held: DrillStanding): string {
  const state = held.withdrawn ? `${held.state}, not in this edition` : held.state;
  const lines = [`  ${plain(held.drill)}: ${state}`];
  if (isOpen(held)) {
    const rung = rungStanding(held, held.rung ?? "");
    lines.push(`    at ${plain(settingsWords(held.rung ?? ""))} (${held.by})`);
    const stay = rung === undefined ? [] : stayVerdicts(rung);
    lines.push(stay.length === 0 ? "    no takes here yet" : `    takes here: ${verdictsText(stay)}`);
  }
  return lines.map((line) => `${line}\n`).join("");
}

function verdictsText(stay: readonly Verdict[]): string {
  // Equal verdicts in a row are counted: "within x 2, beyond".
  const runs: { word: string; count: number }[] = [];
  for (const word of stay.slice(-TAKES_SHOWN)) {
    const last = runs.at(-1);
    if (last?.word === word) last.count++;
    else runs.push({ word, count: 1 });
  }
  const earlier = stay.length > TAKES_SHOWN ? `${stay.length - TAKES_SHOWN} earlier, ` : "";
  return earlier + runs.map(({ word, count }) => (count === 1 ? word : `${word} x ${count}`)).join(", ");
}

function isOpen({ state, withdrawn }: DrillStanding): boolean {
  return state === "open" && withdrawn !== true;
}
