import { rungStanding, stayVerdicts } from "../../progress/index.js";
import type { DrillStanding, Standing, Verdict } from "../../schema/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import { plain } from "./printableText.js";

/** Most takes shown of a rung, the latest; our choice: they fit beside its settings. */
const TAKES_SHOWN = 20;

/** The current rungs of a student, one line for each open drill. */
export function nextText(standing: Standing, words: Words): string {
  const open = standing.drills.filter(isOpen);
  if (open.length > 0)
    return open
      .map(({ drill, rung = "" }) => words.say("cli.next", { drill, settings: wordSettings(rung, words) }))
      .map((next) => `  ${plain(next)}\n`)
      .join("");
  const isDone = standing.drills.some(({ state }) => state === "complete");
  return `  ${words.say(isDone ? "cli.every-open-complete" : "cli.none-open")}\n`;
}

/** A standing as text: each drill, the student's rung in it, and the takes since the student came there. */
export function standingText(standing: Standing, words: Words): string {
  const { student, curriculum, edition, latest } = standing;
  const head = words.say("cli.standing", { student, course: curriculum, edition, at: latest.at });
  return `${plain(head)}\n${standing.drills.map((held) => drillText(held, words)).join("")}`;
}

function drillText(held: DrillStanding, words: Words): string {
  const { drill, state, by } = held;
  const lines = [`  ${words.say("cli.drill-state", { drill, state, withdrawn: held.withdrawn ? "yes" : "no" })}`];
  if (isOpen(held)) {
    const rung = rungStanding(held, held.rung ?? "");
    const settings = wordSettings(held.rung ?? "", words);
    lines.push(`    ${words.say("cli.at-by", { settings, by: by === undefined ? "unknown" : BY[by] })}`);
    const stay = rung === undefined ? [] : stayVerdicts(rung);
    const takes =
      stay.length === 0
        ? words.say("cli.no-takes-here")
        : words.say("cli.takes-here", { runs: verdictRuns(stay, words) });
    lines.push(`    ${takes}`);
  }
  return lines.map((line) => `${plain(line)}\n`).join("");
}

/** How a student came to a rung, as the message names it. */
const BY = {
  "drill opened": "drill-opened",
  advanced: "advanced",
  "gone back": "gone-back",
  "edition changed": "edition-changed",
  "set by teacher": "set-by-teacher",
  "placement test": "placement-test",
} as const;

function verdictRuns(stay: readonly Verdict[], words: Words): readonly string[] {
  // Equal verdicts in a row are counted: "within x 2, beyond".
  const runs: { word: Verdict; count: number }[] = [];
  for (const word of stay.slice(-TAKES_SHOWN)) {
    const last = runs.at(-1);
    if (last?.word === word) last.count++;
    else runs.push({ word, count: 1 });
  }
  const told = runs.map(({ word, count }) => {
    const verdict = words.say("chart.verdict", { verdict: word });
    return count === 1 ? verdict : words.say("cli.run", { verdict, count: String(count) });
  });
  if (stay.length <= TAKES_SHOWN) return told;
  return [words.say("cli.earlier", { count: String(stay.length - TAKES_SHOWN) }), ...told];
}

function isOpen({ state, withdrawn }: DrillStanding): boolean {
  return state === "open" && withdrawn !== true;
}
