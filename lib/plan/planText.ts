import type { Plan, PlanLine, PlayLine } from "./model.js";

/** A plan as plain text: a head line, two lines for each line of the plan, then outlook, advice and cautions. */
export function planText(plan: Plan): string {
  const used = Math.ceil(plan.seconds / 60);
  const head = `${plan.student}, ${plan.today}: ${used} of ${plan.minutes} minutes`;
  const lines = plan.lines.map((line) => `${clock(line.from)}  ${lineText(line)}\n         ${line.because}`);
  const said = [...(plan.outlook === undefined ? [] : [plan.outlook.says]), ...plan.advice];
  return [head, ...lines, ...(said.length === 0 ? [] : ["", ...said]), "", ...plan.cautions, ""].join("\n");
}

/** One line of a plan as text: "new work   Half a bar of silence, 4 takes: rung 1, tempo 76, mix play". */
export function lineText(line: PlanLine): string {
  if (line.kind === "rest") return `rest       ${Math.round(line.seconds / 60)} minutes`;
  const takes = line.takes === 1 ? "1 take" : `${line.takes} takes`;
  return `${line.kind.padEnd(9)}  ${line.title}, ${takes}: ${rungText(line)}, mix ${line.mix}`;
}

/** "rung 3, tempo 84, variant plain". */
function rungText({ number, rung }: PlayLine): string {
  const settings = rung.replaceAll(",", ", ").replaceAll("=", " ");
  return settings === "" ? `rung ${number}` : `rung ${number}, ${settings}`;
}

/** Minutes and seconds from the start: " 4:05". */
function clock(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  return `${String(minutes).padStart(4)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
}
