import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, rungIndex, rungs, settingsText } from "../../drill/index.js";
import type { Advanced, DrillCompleted, DrillOpened, GoneBack } from "../../schema/index.js";
import { canonicalJson } from "../journal/canonicalJson.js";

/** An event that an edition decides about: it names a gate, a rung or needs that the edition must have. */
export type CourseDecision = Advanced | DrillCompleted | DrillOpened | GoneBack;

/**
 * Whether a decision is one that this edition leads to: the gate is the drill's, an advance leads to the next rung, a completion leaves the last rung, a step back
 * is as far as the drill says, and a drill opens on its first rung with the needs it has. The takes are not looked at: `fold` does that.
 *
 * @example
 * events.every((event) => event.kind !== "advanced" || isByEdition(course, event)) // true
 */
export function isByEdition(course: Curriculum, event: CourseDecision): boolean {
  const drill = course.drills.find(({ name }) => name === event.drill);
  if (drill === undefined) return false;
  if (event.kind === "drill opened") return event.to === rungAt(drill, 0) && isSame(event.needs, drill.needs);
  const from = rungIndex(drill, event.from);
  if (from === undefined) return false;
  if (event.kind === "gone back") {
    const { after, by } = drill.goBack ?? { after: undefined, by: 0 };
    return event.after === after && event.to === rungAt(drill, Math.max(0, from - by));
  }
  if (!isSame(event.gate, drill.gate)) return false;
  const isLast = from === rungs(drill).count - 1;
  return event.kind === "drill completed" ? isLast : !isLast && event.to === rungAt(drill, from + 1);
}

function rungAt(drill: Drill, index: number): string {
  return settingsText(rungs(drill).at(index).settings);
}

function isSame(a: unknown, b: unknown): boolean {
  return canonicalJson(a) === canonicalJson(b);
}
