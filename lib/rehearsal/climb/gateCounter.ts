import type { Gate } from "../../drill/index.js";
import { gateMet, waldBounds } from "../../progress/index.js";

/** A gate, and going back, as counters: what `decide` makes of the outcomes of a stay, without a journal. A test holds that both agree. */
export interface GateCounter {
  /** A new stay. */
  begin(): void;
  /** One more take of the stay, not unclear; whether the gate is met by it. */
  counts(clean: boolean): boolean;
  /** How many of the latest takes of the stay, those unclear left aside, the gate looks at. */
  weighed(): number;
}

export function gateCounter(gate: Gate): GateCounter {
  switch (gate.kind) {
    case "in a row":
      return rowCounter(gate.count);
    case "clean of last":
      return windowCounter(gate);
    case "sequential":
      return testCounter(gate);
  }
}

function rowCounter(count: number): GateCounter {
  let row = 0;
  return {
    begin: () => {
      row = 0;
    },
    counts: (clean) => {
      row = clean ? row + 1 : 0;
      return row >= count;
    },
    weighed: () => Math.min(row, count),
  };
}

function windowCounter({ clean: asked, of }: Extract<Gate, { kind: "clean of last" }>): GateCounter {
  const window = new Uint8Array(of);
  let next = 0;
  let held = 0;
  let seen = 0;
  return {
    begin: () => {
      window.fill(0);
      next = 0;
      held = 0;
      seen = 0;
    },
    counts: (clean) => {
      if (seen < of) seen++;
      held += (clean ? 1 : 0) - window[next]!;
      window[next] = clean ? 1 : 0;
      next = next + 1 === of ? 0 : next + 1;
      return clean && held >= asked;
    },
    weighed: () => seen,
  };
}

function testCounter(gate: Extract<Gate, { kind: "sequential" }>): GateCounter {
  const bounds = waldBounds(gate);
  let [clean, beyond] = [0, 0];
  return {
    begin: () => {
      clean = 0;
      beyond = 0;
    },
    counts: (isClean) => {
      if (isClean) clean++;
      else beyond++;
      if (isClean && gateMet(gate, clean, beyond)) return true;
      // The test has held the player: the next take begins another. Rounding as in lib/progress/gate/sequential.ts.
      if (clean * bounds.clean + beyond * bounds.beyond <= bounds.lower + 1e-12 * (clean + beyond + 1)) {
        clean = 0;
        beyond = 0;
      }
      return false;
    },
    weighed: () => clean + beyond,
  };
}
