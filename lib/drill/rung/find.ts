import { failure, nearestName, type Problem, type Result, success } from "../../base/index.js";
import { drillProblem } from "../codes.js";
import type { Drill, Ladder, Parameter } from "../model.js";
import { parseSilenceLengths, spellingsOf } from "../silenceLengths.js";
import { ladderStep, ladderValue } from "./ladder.js";
import { type Odometer, odometer, restartOf } from "./odometer.js";
import { type Rung, rungs, wheelOf } from "./rungs.js";
import { parseSettings, settingsText } from "./settings.js";

/** Most values of a ladder listed in a message. Our choice: about one line. */
const VALUES_SHOWN = 8;

/**
 * Finds the rung that a text names: its number (from 1), or settings such as "tempo=96,dropout=1 bar". Settings may be left out when only
 * one rung has the others. A dropout may be written in any unit when the pattern keeps one meter.
 *
 * Problems: RUNG_NUMBER_OUT_OF_RANGE, RUNG_NOT_FOUND, RUNG_AMBIGUOUS (naming the ladders left open and their values), SETTING_UNKNOWN,
 * SETTING_NOT_READ, SETTING_TWICE; `where.offset` is the place in `text`.
 *
 * @example
 * findRung(drill, "tempo=96"); // RUNG_AMBIGUOUS when the drill has a ladder of dropouts as well
 */
export function findRung(drill: Drill, text: string): Result<Rung> {
  if (/^\s*\d+\s*$/.test(text)) return numbered(drill, text.trim());
  const written = parseSettings(text);
  if (!written.ok) return written;
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
  const asked = settingsText(written.value) || "no setting";
  if (ways === 0) {
    const why = "each value is on its ladder, but never together, because of where the ladders restart";
    return failure(drillProblem("RUNG_NOT_FOUND", `drill ${drill.name} has no rung with ${asked}: ${why}`));
  }
  if (ways === 1) return success(rungs(drill).at(index));
  const open = drill.ladders.filter((ladder) => !steps.has(ladder) && ladder.count > 1);
  const choices = open.map((ladder) => `${ladder.parameter} (${valuesShown(ladder)})`).join(", ");
  const remedy = `say also ${open.map((ladder) => `${ladder.parameter}=${ladderValue(ladder, 0)}`).join(",")}`;
  return failure(drillProblem("RUNG_AMBIGUOUS", `one rung is wanted, but ${asked} leaves open ${choices}`, {}, remedy));
}

function numbered(drill: Drill, text: string): Result<Rung> {
  const all = rungs(drill);
  const number = Number(text);
  if (number >= 1 && number <= all.count) return success(all.at(number - 1));
  const those = all.count === 1 ? "one rung, number 1" : `${all.count} rungs, counted from 1`;
  const message = `drill ${drill.name} has ${those}; found ${text.slice(0, 40)}`;
  const remedy =
    all.count === 1
      ? "write 1"
      : `write a number from 1 to ${all.count}, or settings such as ${settingsText(all.at(0).settings)}`;
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
    const known = [...Object.keys(drill.fixed), ...drill.ladders.map((ladder) => ladder.parameter)].sort().join(", ");
    const message = `drill ${drill.name} has the settings ${known}; found ${parameter}`;
    return [drillProblem("SETTING_UNKNOWN", message, {}, `leave ${parameter} out`)];
  }
  if (spellings(drill, parameter, value).includes(fixed)) return [];
  const message = `${parameter} is always ${fixed} in drill ${drill.name}; found ${value}`;
  return [drillProblem("RUNG_NOT_FOUND", message, {}, `write ${parameter}=${fixed}, or leave it out`)];
}

function offLadder(ladder: Ladder, value: string): Problem {
  const nearest = ladder.values.kind === "list" ? nearestName(value, ladder.values.texts) : undefined;
  const message = `the ladder of ${ladder.parameter} has ${valuesShown(ladder)}; found ${value}`;
  return drillProblem("RUNG_NOT_FOUND", message, {}, nearest && `write ${ladder.parameter}=${nearest}`);
}

function valuesShown(ladder: Ladder): string {
  const shown = ladder.count <= VALUES_SHOWN ? ladder.count : VALUES_SHOWN - 2;
  const first = Array.from({ length: shown }, (_, k) => ladderValue(ladder, k)).join(", ");
  return shown === ladder.count
    ? first
    : `${first}, ... ${ladderValue(ladder, ladder.count - 1)}, ${ladder.count} values`;
}
