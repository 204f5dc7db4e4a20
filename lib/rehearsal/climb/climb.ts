import type { GoBack } from "../../drill/index.js";
import { UNCLEAR, WITHIN } from "../table/outcome.js";
import type { GateCounter } from "./gateCounter.js";
import { gateCounter } from "./gateCounter.js";
import type { RehearsedCourse } from "./rehearsedCourse.js";

/** Where a student is in every drill of a course. */
export interface Places {
  /** The present rung, from 0; as many as the drill has when it is complete. */
  readonly rung: Int32Array;
  readonly state: Uint8Array;
}
export const CLOSED = 0;
export const OPEN = 1;
export const COMPLETE = 2;

export type Move = "hold" | "advance" | "complete" | "go back";

/** What becomes of takes: the rules of the course, by whatever keeps them. */
export interface Climb {
  readonly places: Places;
  /** Begins anew, for another student. */
  begin(): void;
  /** A take of the present rung of a drill came to this outcome. */
  take(drill: number, outcome: number): Move;
}

/** The rules of a course as counters: gates, going back, what opens what. */
export function countedClimb({ drills }: RehearsedCourse): Climb {
  const gates = drills.map(({ drill }): GateCounter => gateCounter(drill.gate));
  const beyond = new Int32Array(drills.length);
  const places = { rung: new Int32Array(drills.length), state: new Uint8Array(drills.length) };
  const open = (): void => {
    drills.forEach(({ needs }, d) => {
      if (places.state[d] === CLOSED && needs.every((need) => places.state[need] === COMPLETE)) places.state[d] = OPEN;
    });
  };
  const goTo = (drill: number, rung: number): void => {
    places.rung[drill] = rung;
    beyond[drill] = 0;
    gates[drill]!.begin();
  };
  return {
    places,
    begin: () => {
      places.state.fill(CLOSED);
      for (let d = 0; d < drills.length; d++) goTo(d, 0);
      open();
    },
    take: (drill, outcome) => {
      if (outcome === UNCLEAR || places.state[drill] !== OPEN) return "hold";
      const rung = places.rung[drill]!;
      const { count, goBack } = drills[drill]!;
      const clean = outcome === WITHIN;
      beyond[drill] = clean ? 0 : beyond[drill]! + 1;
      if (gates[drill]!.counts(clean)) {
        goTo(drill, rung + 1);
        if (rung + 1 < count) return "advance";
        places.state[drill] = COMPLETE;
        open();
        return "complete";
      }
      if (!isBack(goBack, beyond[drill]!, rung)) return "hold";
      goTo(drill, Math.max(0, rung - goBack!.by));
      return "go back";
    },
  };
}

function isBack(goBack: GoBack | undefined, beyond: number, rung: number): boolean {
  return goBack !== undefined && beyond >= goBack.after && rung > 0;
}
