import type { Gate } from "../../lib/drill/index.js";

/** Whether so many clean takes beside so many beyond tolerance meet a gate, as curricula define their gates; worked out here anew. */
export function meets(gate: Gate, clean: number, beyond: number): boolean {
  if (gate.kind === "clean of last") return clean >= gate.clean && clean + beyond <= gate.of;
  if (gate.kind === "in a row") return clean >= gate.count && beyond === 0;
  // Wald 1945: the likelihood ratio of an able player to an unready one has reached (1 - wrongly held) / wrongly let on.
  const ratio = clean * Math.log(gate.able / gate.unready) + beyond * Math.log((1 - gate.able) / (1 - gate.unready));
  return ratio >= Math.log((1 - gate.wronglyHeld) / gate.wronglyLetOn) - 1e-9;
}
