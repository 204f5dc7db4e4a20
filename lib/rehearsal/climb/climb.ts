import type { GoBack } from "../../drill/index.js";
import { holdsForLandings } from "../../progress/index.js";
import type { LeftOutOf } from "../../take/index.js";
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
  /** Take `nth` of a drill, on its present rung, came to this outcome; what was left out in it is asked for only where a gate rests on it. */
  take(drill: number, played: { readonly nth: number; readonly outcome: number }, leftOut: LeftOutIn): Move;
}

/** How many landings and other notes were left out in take `nth` of the drill at hand, which was clean or not. */
export type LeftOutIn = (nth: number, clean: boolean) => LeftOutOf;

/** The rules of a course as counters: gates, going back, what opens what. */
export function countedClimb({ drills }: RehearsedCourse): Climb {
  const gates = drills.map(({ drill }): GateCounter => gateCounter(drill.gate));
  const beyond = new Int32Array(drills.length);
  // Takes of the stay in each drill that are not unclear: twice their number, and one more where it was clean.
  const clear = drills.map((): number[] => []);
  const places = { rung: new Int32Array(drills.length), state: new Uint8Array(drills.length) };
  const open = (): void => {
    drills.forEach(({ needs }, d) => {
      if (places.state[d] === CLOSED && needs.every((need) => places.state[need] === COMPLETE)) places.state[d] = OPEN;
    });
  };
  const goTo = (drill: number, rung: number): void => {
    places.rung[drill] = rung;
    beyond[drill] = 0;
    clear[drill]!.length = 0;
    gates[drill]!.begin();
  };
  return {
    places,
    begin: () => {
      places.state.fill(CLOSED);
      for (let d = 0; d < drills.length; d++) goTo(d, 0);
      open();
    },
    take: (drill, { nth, outcome }, leftOut) => {
      if (outcome === UNCLEAR || places.state[drill] !== OPEN) return "hold";
      const rung = places.rung[drill]!;
      const { count, goBack } = drills[drill]!;
      const clean = outcome === WITHIN;
      beyond[drill] = clean ? 0 : beyond[drill]! + 1;
      clear[drill]!.push(2 * nth + (clean ? 1 : 0));
      if (gates[drill]!.counts(clean)) {
        if (holdsForLandings(totalOf(clear[drill]!.slice(-gates[drill]!.weighed()), leftOut))) return "hold";
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

function totalOf(takes: readonly number[], leftOut: LeftOutIn): LeftOutOf {
  const landings = { out: 0, asked: 0 };
  const notes = { out: 0, asked: 0 };
  for (const take of takes) {
    const of = leftOut(take >> 1, take % 2 === 1);
    landings.out += of.landings.out;
    landings.asked += of.landings.asked;
    notes.out += of.notes.out;
    notes.asked += of.notes.asked;
  }
  return { landings, notes };
}

function isBack(goBack: GoBack | undefined, beyond: number, rung: number): boolean {
  return goBack !== undefined && beyond >= goBack.after && rung > 0;
}
