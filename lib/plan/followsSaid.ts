import type { Phrase, Worded } from "../base/index.js";
import type { Gate } from "../drill/index.js";
import { settingPhrases } from "../words/index.js";
import type { PlanStep } from "./model.js";
import { say } from "./say.js";

/** Steps after the next one that are named. Our choice: more would not be read. */
const NAMED = 3;

/** What follows from how the takes of the first step go, and of those after it, in sentences that need no computer to be followed. */
export function followsSaid(steps: readonly PlanStep[]): readonly Worded[] {
  const first = steps[0]!;
  const { gate, onward, back, most } = first;
  const said: Worded[] = [];
  if (gate !== undefined && onward !== undefined)
    said.push(say("plan.until", { gate: gateSaid(gate), onward: placeSaid(first, steps[onward]!) }));
  const later = afterThat(steps, onward);
  if (later.length > 0) said.push(say("plan.then-on", { later }));
  if (back !== undefined)
    said.push(say("plan.back-after", { takes: back.after, back: placeSaid(first, steps[back.to]!) }));
  if (most.takes > 0 && most.to !== undefined)
    said.push(say("plan.enough", { takes: most.takes, other: placeSaid(first, steps[most.to]!) }));
  else if (most.takes > 0) said.push(say("plan.enough-today", { takes: most.takes }));
  return said;
}

/** The steps a clean run comes to after the next one. */
function afterThat(steps: readonly PlanStep[], onward: number | undefined): readonly Phrase[] {
  const later: Phrase[] = [];
  let before = onward;
  while (before !== undefined && later.length < NAMED) {
    const next: number | undefined = steps[before]!.onward;
    if (next === undefined || next === 0) break;
    const [from, to] = [steps[before]!, steps[next]!];
    const rung = (to.number === null ? say("plan.no-rung") : say("plan.rung", { number: to.number })).message;
    later.push(from.drill === to.drill ? rung : say("plan.title", { title: to.title }).message);
    before = next;
  }
  return later;
}

/** Where a step is as seen from another: the settings that differ, with the drill when it is another. */
function placeSaid(from: PlanStep, to: PlanStep): readonly (string | Phrase)[] {
  if (from.drill !== to.drill) return [say("plan.title", { title: to.title }).message, ...settingPhrases(to.rung)];
  const before = new Set(from.rung.split(","));
  const changed = to.rung.split(",").filter((each) => !before.has(each));
  return changed.length === 0 ? [say("plan.same-rung").message] : settingPhrases(changed.join(","));
}

/** What opens a gate, as part of a sentence. */
function gateSaid(gate: Gate): Phrase {
  switch (gate.kind) {
    case "clean of last":
      return say("plan.gate-out-of-last", { clean: gate.clean, of: gate.of }).message;
    case "in a row":
      return say("plan.gate-in-a-row", { clean: gate.count }).message;
    case "sequential":
      return say("plan.gate-sequential").message;
  }
}
