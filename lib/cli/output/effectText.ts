import type { DrillEffect, EditionEffect, Shown } from "../../progress/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import { plain } from "./printableText.js";

/** Most rungs named whose credit is lost; our choice. */
const NAMED = 2;

/** The effect of an edition on one student, one line for each drill that changes; empty when none does. */
export function effectText({ drills, opened }: EditionEffect, words: Words): string {
  const lines = drills.flatMap((effect) => drillLines(effect, words));
  if (opened.length > 0) lines.push(words.say("cli.opens", { drills: opened }));
  return lines.map((line) => `    ${plain(line)}\n`).join("");
}

function drillLines(effect: DrillEffect, words: Words): readonly string[] {
  const { drill, now, outcome, state, stateNow, lost, regained } = effect;
  const { say } = words;
  const name = now === undefined || now === drill ? drill : say("cli.renamed", { drill, now });
  const said: string[] = [];
  const way = { from: wordSettings(effect.rung ?? "", words), to: wordSettings(effect.rungNow ?? "", words) };
  if (outcome === "moves") said.push(say("cli.moves", way));
  if (outcome === "moves back") said.push(say("cli.moves-back", way));
  if (outcome === "withdrawn") said.push(say("cli.withdrawn"));
  if (outcome === "returns") said.push(say("cli.returns"));
  if (state === "complete" && stateNow === "open") said.push(say("cli.open-again"));
  if (state === "open" && stateNow === "complete") said.push(say("cli.complete-again"));
  if (isSome(lost)) said.push(say("cli.lost", { shown: shownText(lost, words) }));
  if (isSome(regained)) said.push(say("cli.regained", { shown: shownText(regained, words) }));
  if (said.length === 0 && name !== drill) said.push(say("cli.all-with-name"));
  return said.length === 0 ? [] : [say("cli.effects", { drill: name, effects: said.join("; ") })];
}

function isSome({ takes, credit }: Shown): boolean {
  return takes + credit.length > 0;
}

function shownText({ takes, credit }: Shown, words: Words): string {
  const played = words.say("cli.takes", { takes });
  if (credit.length === 0) return played;
  const named = credit
    .slice(0, NAMED)
    .map((rung) => wordSettings(rung, words))
    .reduce((first, second) => words.say("cli.both", { first, second }));
  const more = credit.length - NAMED;
  const rungs = more > 0 ? words.say("cli.and-more", { names: named, count: more }) : named;
  return words.say("cli.takes-and-credit", { takes: played, rungs });
}
