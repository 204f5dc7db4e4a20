import type { DrillChange, EditionChanges, Loss } from "../../curriculum/index.js";
import { plain } from "../output/printableText.js";
import { alterationText } from "./alterationText.js";

/** The changes of a new edition to the rungs of each drill, as text. */
export function comparisonText(course: string, { from, to, drills, added, isChanged }: EditionChanges): string {
  const head = `${course}, edition ${from} -> ${to}`;
  if (!isChanged) return line(0, `${head}: nothing is changed`);
  const others = drills.filter((change) => !isUnchanged(change));
  const same = drills.filter(isUnchanged).map(({ drill }) => drill);
  const lines = [line(0, head), ...others.map(drillText), ...added.map((name) => line(1, `${name}: a new drill`))];
  if (same.length > 0) lines.push(line(1, `unchanged: ${same.join(", ")}`));
  return lines.join("");
}

function isUnchanged({ drill, now, rungs, kept, fresh, alterations }: DrillChange): boolean {
  return drill === now && kept === rungs && fresh === 0 && alterations.length === 0;
}

function drillText({ drill, now, rungs, kept, losses, fresh, gains, alterations }: DrillChange): string {
  const name = now === undefined || now === drill ? drill : `${drill}, now ${now}`;
  const credit = kept === rungs ? `${counted(rungs)} keep credit` : `${kept} of ${counted(rungs)} keep credit`;
  const lost = kept === rungs ? "" : `, ${rungs - kept} ${rungs - kept === 1 ? "loses" : "lose"} it`;
  const isNew = fresh === 0 ? "" : `; ${fresh} new`;
  const rows = [
    ...losses.map((loss) => ["lost", lossText(loss)]),
    ...gains.map(({ parameter, values, examples }) => ["new", `${parameter} ${named(examples, values)}`]),
    ...alterations.map((alteration) => [EFFECTS[alteration.effect], alterationText(alteration)]),
  ];
  const head = rungs === 1 && kept === 1 ? "1 rung keeps credit" : credit + lost;
  return [
    line(1, `${name}: ${head}${isNew}`),
    ...rows.map(([what, text]) => line(2, `${what!.padEnd(14)}  ${text}`)),
  ].join("");
}

/** What an alteration is to a student. */
const EFFECTS = { heard: "music changed", asked: "limits changed", told: "text changed" } as const;

function lossText({ reason, parameter, values = 0, examples = [] }: Loss): string {
  switch (reason) {
    case "drill removed":
      return "the drill is gone";
    case "setting added":
      return `its rungs say their ${parameter} now, which is another setting`;
    case "setting removed":
      return `its rungs do not say their ${parameter} any more, which is another setting`;
    case "values removed":
      return `${parameter} ${named(examples, values)} ${values === 1 ? "is" : "are"} gone`;
    case "restarts elsewhere":
      return "some combinations are gone, because its ladders climb or start again in another way";
  }
}

function named(examples: readonly string[], values: number): string {
  const more = values - examples.length;
  return examples.join(", ") + (more > 0 ? ` and ${more} more` : "");
}

function counted(rungs: number): string {
  return rungs === 1 ? "1 rung" : `${rungs} rungs`;
}

function line(depth: number, text: string): string {
  return `${"  ".repeat(depth)}${plain(text)}\n`;
}
