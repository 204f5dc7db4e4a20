import { failure, nearestName, type Phrase, success } from "../../base/index.js";
import { spanText } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import type { Drill, Ladder, Mix, Parameter } from "../model.js";
import type { Problem, Result } from "../problem.js";
import { parseSilenceLengths, readSilenceLengths, spellingsOf } from "../silenceLengths.js";
import { ladderStep, ladderValue } from "./ladder.js";
import { type Odometer, odometer, restartOf } from "./odometer.js";
import { preparationCalled } from "./preparations.js";
import { type Rung, rungs, wheelOf } from "./rungs.js";
import { say } from "./say.js";
import { parseSettings, readSettings, settingsText } from "./settings.js";

/** Most values of a ladder listed in a message. Our choice: about one line. */
const VALUES_SHOWN = 8;

/**
 * Finds the rung that a text names: its number (from 1), or settings such as "tempo=96,dropout=1 bar". Settings may be left out when only
 * one rung has the others. A dropout may be written in any unit when the pattern keeps one meter, silences that grow by what they grow to ("grows=2 bars"),
 * and a value without its name where one ladder has it ("busy"). A preparation
 * (`preparationsOf`) is found by all of its settings, as a plan writes them; its `index` is -1.
 *
 * Problems: RUNG_NUMBER_OUT_OF_RANGE, RUNG_NOT_FOUND, RUNG_AMBIGUOUS (naming the ladders left open and their values), SETTING_UNKNOWN,
 * SETTING_NOT_READ, SETTING_TWICE; `where.offset` is the place in `text`.
 *
 * @example
 * findRung(drill, "tempo=96"); // RUNG_AMBIGUOUS when the drill has a ladder of dropouts as well
 */
export function findRung(drill: Drill, text: string): Result<Rung> {
  if (/^\s*\d+\s*$/.test(text)) return numbered(drill, text.trim());
  const found = onLadders(drill, text);
  const prepared = found.ok ? undefined : preparationNamed(drill, text);
  return prepared === undefined ? found : success(prepared);
}

/** The preparation with these settings, all of them, a dropout in any unit. */
function preparationNamed(drill: Drill, text: string): Rung | undefined {
  const written = readSettings(text);
  if (written === undefined) return undefined;
  const { dropout } = written;
  const lengths =
    dropout === undefined ? [{}] : spellings(drill, "dropout", dropout).map((each) => ({ dropout: each }));
  return lengths
    .map((length) => preparationCalled(drill, settingsText({ ...written, ...length })))
    .find((each) => each !== undefined);
}

/**
 * The settings of a text as they are named: "grows=2 bars" and "dropout=1/2 bar to 2 bars" are the silences that grow to two bars, and a value alone is
 * that of the one ladder that has it ("busy", "tempo=96,busy"). What stands for nothing stays as it is.
 */
function spelledOut(drill: Drill, text: string): string {
  const pieces = text.split(",").map((piece) => {
    const [, name = "", value = ""] = /^\s*(?:(\w+)\s*=)?\s*(.*?)\s*$/.exec(piece) ?? [];
    if (name === "" && value !== "") {
      const having = drill.ladders.filter((ladder) => stepWith(drill, ladder, value) !== undefined);
      return having.length === 1 ? `${having[0]!.parameter}=${value}` : piece;
    }
    if (name !== "grows" && name !== "dropout") return piece;
    const grown = growingOf(drill).find(
      (each) => isGrowth(drill, each, value) || (name === "grows" && growsTo(drill, each, value)),
    );
    return grown === undefined ? `dropout=${value}` : `dropout=${grown}`;
  });
  return pieces.join(",");
}

/** The silences that grow inside a take on some rung: values of `dropout`. */
function growingOf({ fixed, ladders }: Drill): readonly string[] {
  const values = ladders.flatMap((ladder) =>
    ladder.parameter === "dropout" && ladder.values.kind === "list" ? ladder.values.texts : [],
  );
  return [...values, ...(fixed.dropout === undefined ? [] : [fixed.dropout])].filter((value) => / each \d/.test(value));
}

/** Whether silences grow to a length, in any unit. */
function growsTo(drill: Drill, grown: string, length: string): boolean {
  const last = readSilenceLengths(grown)?.lengths.at(-1);
  return last !== undefined && spellings(drill, "dropout", length).includes(spanText(last));
}

/** Whether a text is what people read of silences that grow: "1/2 bar to 2 bars". */
function isGrowth(drill: Drill, grown: string, text: string): boolean {
  const [, from = "", to = ""] = /^(.+?)\s+to\s+([^,]+?)$/.exec(text) ?? [];
  const first = readSilenceLengths(grown)?.lengths[0];
  return (
    first !== undefined && spellings(drill, "dropout", from).includes(spanText(first)) && growsTo(drill, grown, to)
  );
}

/** A rung of the ladders by settings. */
function onLadders(drill: Drill, text: string): Result<Rung> {
  const named = spelledOut(drill, text);
  const written = parseSettings(named);
  if (!written.ok) return { ok: false, problems: written.problems.map((each) => placedIn(text, named, each)) };
  const steps = new Map<Ladder, number>();
  const problems: Problem[] = [];
  for (const [parameter, value] of Object.entries(written.value) as [Parameter, string][]) {
    const ladder = drill.ladders.find((candidate) => candidate.parameter === parameter);
    const step = ladder && stepWith(drill, ladder, value);
    if (ladder === undefined) problems.push(...fixedProblems(drill, parameter, value));
    else if (step === undefined) problems.push(offLadder(ladder, value));
    else steps.set(ladder, step);
  }
  if (problems.length > 0) return { ok: false, problems };
  const order = odometer(drill.ladders.map(wheelOf));
  const { ways, index } = waysTo(drill.ladders, steps, order);
  const asked = settingsText(written.value);
  if (ways === 0)
    return failure(drillProblem("RUNG_NOT_FOUND", say("rung-problem.rung-not-found", { drill: drill.name, asked })));
  if (ways === 1) return success(rungs(drill).at(index));
  const open = drill.ladders.filter((ladder) => !steps.has(ladder) && ladder.count > 1);
  const settings = open.map((ladder) => `${ladder.parameter}=${ladderValue(ladder, 0)}`).join(",");
  const message = say("rung-problem.rung-ambiguous", { asked, choices: open.map(choiceOf) });
  return failure(drillProblem("RUNG_AMBIGUOUS", message, {}, say("rung-problem.rung-ambiguous-remedy", { settings })));
}

/** A problem at its setting in the text as it was written. */
function placedIn(text: string, named: string, found: Problem): Problem {
  const { offset } = found.where;
  if (offset === undefined) return found;
  const before = named.slice(0, offset).split(",").length - 1;
  const start = text.split(",").slice(0, before).join(",").length + Math.min(1, before);
  return { ...found, where: { ...found.where, offset: start } };
}

function numbered(drill: Drill, text: string): Result<Rung> {
  const all = rungs(drill);
  const number = Number(text);
  if (number >= 1 && number <= all.count) return success(all.at(number - 1));
  const message = say("rung-problem.rung-number-out-of-range", {
    drill: drill.name,
    rungs: all.count,
    found: text.slice(0, 40),
  });
  const remedy =
    all.count === 1
      ? say("rung-problem.write", { text: "1" })
      : say("rung-problem.rung-number-out-of-range-remedy", {
          last: String(all.count),
          settings: settingsText(all.at(0).settings),
        });
  return failure(drillProblem("RUNG_NUMBER_OUT_OF_RANGE", message, {}, remedy));
}

/** The number of rungs with the given steps (2 stands for two or more), and the index of one of them. */
function waysTo(
  ladders: readonly Ladder[],
  steps: ReadonlyMap<Ladder, number>,
  order: Odometer,
): { ways: number; index: number } {
  let total = 0;
  let index = 0;
  // Each rung has a highest ladder that is off its bottom (none: -1). Ladders above it are at the bottom, ladders below it at or above their restart.
  for (let climbing = -1; climbing < ladders.length; climbing++) {
    let ways = 1;
    const digits = ladders.map((ladder, i) => {
      const lowest = i > climbing ? 0 : i === climbing ? 1 : restartOf(wheelOf(ladder));
      const highest = i > climbing ? 0 : ladder.count - 1;
      const step = steps.get(ladder) ?? lowest;
      ways *= steps.has(ladder) ? Number(step >= lowest && step <= highest) : Math.max(0, highest - lowest + 1);
      return step;
    });
    if (ways > 0) index = order.indexOf(digits)!;
    total = Math.min(2, total + ways);
  }
  return { ways: total, index };
}

function stepWith(drill: Drill, ladder: Ladder, value: string): number | undefined {
  return spellings(drill, ladder.parameter, value)
    .map((spelling) => ladderStep(ladder, spelling))
    .find((step) => step !== undefined);
}

function spellings(drill: Drill, parameter: Parameter, value: string): readonly string[] {
  const lengths = parameter === "dropout" ? parseSilenceLengths(value) : undefined;
  return lengths?.ok ? spellingsOf(lengths.value, drill.pattern) : [value];
}

function fixedProblems(drill: Drill, parameter: Parameter, value: string): readonly Problem[] {
  const fixed = drill.fixed[parameter];
  if (fixed === undefined) {
    const parameters = [...Object.keys(drill.fixed), ...drill.ladders.map((ladder) => ladder.parameter)].sort();
    const message = say("rung-problem.setting-unknown-in-drill", { drill: drill.name, parameters, found: parameter });
    return [
      drillProblem("SETTING_UNKNOWN", message, {}, say("rung-problem.setting-unknown-in-drill-remedy", { parameter })),
    ];
  }
  if (spellings(drill, parameter, value).includes(fixed)) return [];
  const message = say("rung-problem.rung-not-found-fixed", { parameter, fixed, drill: drill.name, found: value });
  const remedy = say("rung-problem.rung-not-found-fixed-remedy", { setting: `${parameter}=${fixed}` });
  return [drillProblem("RUNG_NOT_FOUND", message, {}, remedy)];
}

function offLadder(ladder: Ladder, value: string): Problem {
  const nearest = ladder.values.kind === "list" ? nearestName(value, ladder.values.texts) : undefined;
  const { parameter } = ladder;
  const { values, last, count } = valuesShown(ladder);
  const message = say("rung-problem.rung-not-found-on-ladder", {
    parameter,
    values: last === undefined ? values : say("rung-problem.values-of-many", { first: values, last, count }).message,
    found: value,
  });
  const remedy = nearest === undefined ? undefined : say("rung-problem.write", { text: `${parameter}=${nearest}` });
  return drillProblem("RUNG_NOT_FOUND", message, {}, remedy);
}

/** A ladder with its values, as part of a sentence. */
function choiceOf(ladder: Ladder): Phrase {
  const { parameter } = ladder;
  const { values, last, count } = valuesShown(ladder);
  return last === undefined
    ? say("rung-problem.choice", { parameter, values }).message
    : say("rung-problem.choice-of-many", { parameter, first: values, last, count }).message;
}

/** The values of a ladder joined by commas: all, or the first of them, and then also the last. */
function valuesShown(ladder: Ladder): { readonly values: string; readonly last?: string; readonly count: number } {
  const { count } = ladder;
  const shown = count <= VALUES_SHOWN ? count : VALUES_SHOWN - 2;
  const values = Array.from({ length: shown }, (_, k) => ladderValue(ladder, k)).join(", ");
  return shown === count ? { values, count } : { values, last: ladderValue(ladder, count - 1), count };
}

/**
 * The mix of this name. Problem: MIX_UNKNOWN, with the nearest name.
 *
 * @example
 * findMix(drill, "play").ok // true
 */
export function findMix(drill: Drill, name: string): Result<Mix> {
  const mix = drill.mixes.find((candidate) => candidate.name === name);
  if (mix) return success(mix);
  const names = drill.mixes.map((candidate) => candidate.name);
  const nearest = nearestName(name, names);
  const found = JSON.stringify(name.slice(0, 40));
  const message = say("rung-problem.mix-unknown", { drill: drill.name, mixes: names, found });
  const remedy = nearest === undefined ? undefined : say("rung-problem.write", { text: nearest });
  return failure(drillProblem("MIX_UNKNOWN", message, {}, remedy));
}
