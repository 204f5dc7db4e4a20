import type { Phrase, Worded } from "../../base/index.js";
import type { Gate } from "../../drill/index.js";
import { say } from "../say.js";
import { fewestTakes, type SequentialGate, sequentialMet, testsIn } from "./sequential.js";

/** The takes of a stay on a rung, weighed by the gate. */
export interface Weighing {
  readonly met: boolean;
  /** Indices in the outcomes of the clean takes that count. */
  readonly clean: readonly number[];
  /** Indices of the takes beyond tolerance that count against them. */
  readonly beyond: readonly number[];
}

/**
 * Weighs the outcomes of a stay, in order: `w` within tolerance (a clean take), `b` beyond, `u` unclear. Unclear takes are ignored: they
 * neither count nor break a row. Without outcomes the gate is not met.
 *
 * @example weigh({ kind: "clean of last", clean: 3, of: 4 }, "wbuww") // { met: true, clean: [0, 3, 4], beyond: [1] }
 */
export function weigh(gate: Gate, outcomes: string): Weighing {
  const clear: number[] = [];
  for (let i = outcomes.length - 1; i >= 0 && clear.length < reach(gate); i--)
    if (outcomes[i] !== "u") clear.unshift(i);
  const isClean = (i: number): boolean => outcomes[i] === "w";
  let weighed = clear;
  if (gate.kind === "in a row") weighed = clear.slice(clear.findLastIndex((i) => !isClean(i)) + 1);
  if (gate.kind === "sequential") weighed = testsIn(gate, clear.map(isClean)).map((i) => clear[i]!);
  const clean = weighed.filter(isClean);
  const beyond = weighed.filter((i) => !isClean(i));
  return { met: gateMet(gate, clean.length, beyond.length), clean, beyond };
}

/** Whether a gate is met by these numbers of takes: clean, and beyond tolerance. */
export function gateMet(gate: Gate, clean: number, beyond: number): boolean {
  switch (gate.kind) {
    case "clean of last":
      return clean >= gate.clean && clean + beyond <= gate.of;
    case "in a row":
      return clean >= gate.count && beyond === 0;
    case "sequential":
      return sequentialMet(gate, clean, beyond);
  }
}

/**
 * A gate in words: "3 clean takes out of the last 4".
 *
 * @example
 * gateText({ kind: "clean of last", clean: 3, of: 4 }) // "3 clean takes out of the last 4"
 */
export function gateText(gate: Gate): string {
  return gateSaid(gate).says;
}

/** A gate as part of a sentence. */
export function gateSaid(gate: Gate): Worded<Phrase> {
  switch (gate.kind) {
    case "clean of last":
      return say("progress.gate-out-of-last", { clean: gate.clean, of: gate.of });
    case "in a row":
      return say("progress.gate-in-a-row", { clean: gate.count });
    case "sequential":
      return say("progress.gate-showing", showingOf(gate));
  }
}

/** What a sequential gate asks to be shown, in per cent, and after how many takes, all of them clean, it is shown at the earliest. */
export function showingOf(gate: SequentialGate): {
  readonly able: number;
  readonly unready: number;
  readonly fewest: number;
} {
  const { able, unready } = gate;
  return { able: 100 * able, unready: 100 * unready, fewest: fewestTakes(gate) };
}

/** Largest number of latest clear takes that a gate looks at. */
function reach(gate: Gate): number {
  return gate.kind === "clean of last" ? gate.of : gate.kind === "in a row" ? gate.count : Number.POSITIVE_INFINITY;
}
