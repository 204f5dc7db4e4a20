import { type Drill, rungs, settingsText } from "../drill/index.js";
import type { Advanced, DrillCompleted, DrillStanding, Eased, RungStanding } from "../schema/index.js";
import { easingOf } from "./easing.js";
import { gateText, type Weighing, weigh } from "./gate.js";
import { rungIndex } from "./rungIndex.js";
import type { Draft } from "./scribe.js";
import { rungStanding } from "./standing.js";
import { changeText } from "./words.js";

/** What the takes of the present stay on a rung lead to. */
export interface Consequence {
  readonly what: "advance" | "complete" | "ease" | "hold";
  readonly reason: string;
  readonly evidence: readonly string[];
  readonly draft?: Draft<Advanced | DrillCompleted | Eased>;
}

/** What follows for a student on `held.rung` of a drill, from the takes there since arriving; `drill` must have the rung. */
export function consequence(drill: Drill, held: DrillStanding): Consequence {
  const rung = rungStanding(held, held.rung!)!;
  const stay = rung.outcomes.slice(rung.from);
  const named = (places: readonly number[]): readonly string[] => places.map((place) => rung.takes[rung.from + place]!);
  const last = stay.replaceAll("u", "").at(-1);
  const weighing = weigh(drill.gate, stay);
  if (last === "w" && rung.credit !== undefined) {
    const evidence = [...rung.credit.evidence, named([stay.lastIndexOf("w")])[0]!];
    return onward(drill, rung, { evidence, against: [], credit: rung.credit.event });
  }
  if (last === "w" && weighing.met)
    return onward(drill, rung, { evidence: named(weighing.clean), against: named(weighing.beyond) });
  const hold = last === "b" ? easingOf(drill, held, { rung, stay }) : undefined;
  if (hold !== undefined) return hold;
  const heard = last === "w" ? "Clean. " : last === "b" ? "Beyond tolerance. " : "";
  const reason = `${heard}To go on: ${gateText(drill.gate)}; so far ${soFar(weighing, stay)}.`;
  return { what: "hold", reason, evidence: named([...weighing.clean, ...weighing.beyond].sort((a, b) => a - b)) };
}

function onward(
  drill: Drill,
  rung: RungStanding,
  shown: { readonly evidence: readonly string[]; readonly against: readonly string[]; readonly credit?: string },
): Consequence {
  const from = rung.rung;
  const next = rungIndex(drill, from)! + 1;
  const why =
    shown.credit === undefined
      ? `The gate is met (${gateText(drill.gate)})`
      : "This rung was earned before, and this take confirms it";
  const common = { drill: drill.name, from, gate: drill.gate, ...shown };
  if (next === rungs(drill).count) {
    const reason = `${why}: drill ${drill.name} is complete.`;
    return { what: "complete", reason, evidence: shown.evidence, draft: { kind: "drill completed", ...common } };
  }
  const to = settingsText(rungs(drill).at(next).settings);
  const reason = `${why}: on to ${changeText(from, to)}.`;
  return { what: "advance", reason, evidence: shown.evidence, draft: { kind: "advanced", ...common, to } };
}

function soFar({ clean, beyond }: Weighing, stay: string): string {
  if (!/[wb]/.test(stay)) return "no take that counts";
  return `${clean.length} clean${beyond.length === 0 ? "" : `, ${beyond.length} beyond`}`;
}
