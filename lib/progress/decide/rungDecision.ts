import type { Worded } from "../../base/index.js";
import { type Drill, type Gate, rungIndex, rungs, settingsText } from "../../drill/index.js";
import type { Advanced, DrillCompleted, DrillStanding, GoneBack, RungStanding } from "../../schema/index.js";
import { avoidsLandings, type LeftOutOf } from "../../take/index.js";
import { showingOf, type Weighing, weigh } from "../gate/gate.js";
import type { EventDraft } from "../journal/event/writer.js";
import { say } from "../say.js";
import { rungStanding } from "../standing.js";
import { reasonSaid } from "./reasonSaid.js";

/** The decision that follows from the takes of the current stay on a rung. */
export interface RungDecision {
  readonly what: "advance" | "complete" | "go back" | "hold";
  /** Why, in one sentence or two. */
  readonly reasons: readonly Worded[];
  /** Names of the takes that the decision rests on. */
  readonly evidence: readonly string[];
  /** The event to write; absent on `hold`. */
  readonly draft?: EventDraft<Advanced | DrillCompleted | GoneBack>;
}

/** Decides for a student on the rung `held.rung`, from the takes played there since the student came to it. `drill` must have the rung. */
export function decideRung(drill: Drill, held: DrillStanding): RungDecision {
  const rung = rungStanding(held, held.rung!)!;
  const stay = rung.outcomes.slice(rung.from);
  const named = (places: readonly number[]): readonly string[] => places.map((place) => rung.takes[rung.from + place]!);
  const last = stay.replaceAll("u", "").at(-1);
  const weighing = weigh(drill.gate, stay);
  if (last === "w" && rung.credit !== undefined) {
    const evidence = [...rung.credit.evidence, named([stay.lastIndexOf("w")])[0]!];
    return advance(drill, rung, { evidence, against: [], credit: rung.credit.event });
  }
  const weighed = named([...weighing.clean, ...weighing.beyond].sort((a, b) => a - b));
  const avoided = last === "w" && weighing.met ? landingsAvoided(rung, weighing) : undefined;
  if (avoided !== undefined) return { what: "hold", reasons: [say("progress.clean"), avoided], evidence: weighed };
  if (last === "w" && weighing.met)
    return advance(drill, rung, { evidence: named(weighing.clean), against: named(weighing.beyond) });
  const goneBack = last === "b" ? goBack(drill, held, { rung, stay }) : undefined;
  if (goneBack !== undefined) return goneBack;
  const heard = last === "w" ? [say("progress.clean")] : last === "b" ? [say("progress.beyond")] : [];
  const reasons = [...heard, needSaid(drill.gate, weighing)];
  return { what: "hold", reasons, evidence: weighed };
}

// How probable it may be that a player leaves out landings rather than notes for the gate to be met all the same: as sure as a verdict has to be (our choice).
const AVOIDS_AT_MOST = 0.1;

/** Whether takes that meet a gate do not let the student on, as more landings were left out in them than this player's other omissions explain. */
export function holdsForLandings(leftOut: LeftOutOf): boolean {
  return avoidsLandings(leftOut) > AVOIDS_AT_MOST;
}

/** Why the takes that meet a gate do not let the student on: landings left out, more than this player's other omissions explain. */
function landingsAvoided({ leftOut, from }: RungStanding, { clean, beyond }: Weighing): Worded | undefined {
  const sum = (of: 0 | 1 | 2 | 3): number =>
    [...clean, ...beyond].reduce((total, place) => total + (leftOut?.[from + place]?.[of] ?? 0), 0);
  const landings = { out: sum(0), asked: sum(1) };
  const notes = { out: sum(2), asked: sum(3) };
  if (!holdsForLandings({ landings, notes })) return undefined;
  return say("progress.landings-left-out", { ...landings, missed: notes.out, notes: notes.asked });
}

/** To the next rung; on the last rung the drill is complete. */
function advance(
  drill: Drill,
  rung: RungStanding,
  shown: { readonly evidence: readonly string[]; readonly against: readonly string[]; readonly credit?: string },
): RungDecision {
  const from = rung.rung;
  const next = rungIndex(drill, from)! + 1;
  const common = { drill: drill.name, from, gate: drill.gate, ...shown };
  if (next === rungs(drill).count) {
    const draft = { kind: "drill completed", ...common } as const;
    return { what: "complete", reasons: [reasonSaid(draft)], evidence: shown.evidence, draft };
  }
  const to = settingsText(rungs(drill).at(next).settings);
  const draft = { kind: "advanced", ...common, to } as const;
  return { what: "advance", reasons: [reasonSaid(draft)], evidence: shown.evidence, draft };
}

/** The step back after enough takes in a row beyond tolerance; `undefined` with fewer, or when the drill never goes back. */
function goBack(
  drill: Drill,
  held: DrillStanding,
  { rung, stay }: { readonly rung: RungStanding; readonly stay: string },
): RungDecision | undefined {
  if (drill.goBack === undefined) return undefined;
  const { after, by } = drill.goBack;
  const evidence: string[] = [];
  for (let i = stay.length - 1; i >= 0 && stay[i] !== "w" && evidence.length < after; i--) {
    if (stay[i] === "b") evidence.unshift(rung.takes[rung.from + i]!);
  }
  if (evidence.length < after) return undefined;
  const index = rungIndex(drill, rung.rung)!;
  if (index === 0)
    return { what: "hold", reasons: [say("progress.easiest", { takes: after, drill: drill.name })], evidence };
  const target = Math.max(0, index - by);
  const to = settingsText(rungs(drill).at(target).settings);
  const lapsed = held.rungs
    .filter(({ credit, rung: earned }) => credit !== undefined && isBetween(rungIndex(drill, earned), target, index))
    .map(({ rung: earned }) => earned);
  const draft = { kind: "gone back", drill: drill.name, from: rung.rung, to, after, evidence, lapsed } as const;
  return { what: "go back", reasons: [reasonSaid(draft)], evidence, draft };
}

function isBetween(index: number | undefined, lowest: number, highest: number): boolean {
  return index !== undefined && index >= lowest && index <= highest;
}

/** What the gate asks for, and how much of it is there. */
function needSaid(gate: Gate, { clean, beyond }: Weighing): Worded {
  const have = clean.length;
  switch (gate.kind) {
    case "clean of last":
      return say("progress.needs-out-of-last", { clean: gate.clean, of: gate.of, have });
    case "in a row":
      return say("progress.needs-in-a-row", { clean: gate.count, have });
    case "sequential":
      return say("progress.needs-showing", { ...showingOf(gate), clean: have, beyond: beyond.length });
  }
}
