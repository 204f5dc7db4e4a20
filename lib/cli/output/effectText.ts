import { settingsWords } from "../../drill/index.js";
import type { DrillEffect, EditionEffect, Shown } from "../../progress/index.js";
import { plain } from "./printableText.js";

/** Most rungs named whose credit is lost; our choice. */
const NAMED = 2;

/** The effect of an edition on one student, one line for each drill that changes; empty when none does. */
export function effectText({ drills, opened }: EditionEffect): string {
  const lines = drills.flatMap(drillLines);
  if (opened.length > 0) lines.push(`opens: ${opened.join(", ")}`);
  return lines.map((line) => `    ${plain(line)}\n`).join("");
}

function drillLines(effect: DrillEffect): readonly string[] {
  const { drill, now, outcome, state, stateNow, lost, regained } = effect;
  const name = now === undefined || now === drill ? drill : `${drill}, now ${now}`;
  const said: string[] = [];
  if (outcome === "moves")
    said.push(`moves from ${settingsWords(effect.rung ?? "")} to ${settingsWords(effect.rungNow ?? "")}`);
  if (outcome === "moves back")
    said.push(`goes back from ${settingsWords(effect.rung ?? "")} to ${settingsWords(effect.rungNow ?? "")}`);
  if (outcome === "withdrawn") said.push("is not in this edition");
  if (outcome === "returns") said.push("is there again, as it was left");
  if (state === "complete" && stateNow === "open") said.push("is open again, as it has further rungs");
  if (state === "open" && stateNow === "complete") said.push("is complete again");
  if (isSome(lost)) said.push(`${shownText(lost)} not counted here any more`);
  if (isSome(regained)) said.push(`${shownText(regained)} counted again`);
  if (said.length === 0 && name !== drill) said.push("everything goes with the name");
  return said.length === 0 ? [] : [`${name}: ${said.join("; ")}`];
}

function isSome({ takes, credit }: Shown): boolean {
  return takes + credit.length > 0;
}

function shownText({ takes, credit }: Shown): string {
  const played = takes === 1 ? "1 take" : `${takes} takes`;
  if (credit.length === 0) return played;
  const rungs = credit
    .slice(0, NAMED)
    .map((rung) => settingsWords(rung))
    .join(" and ");
  const more = credit.length > NAMED ? ` and ${credit.length - NAMED} more` : "";
  return `${played} and the credit for ${rungs}${more}`;
}
