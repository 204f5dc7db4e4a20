import type { Luck } from "../luck.js";
import type { Plan } from "../plan.js";

/** In which silences of a take a habit shows: in one of those that have a landing, or in all of them. */
export type Often = "one" | "every";

/** Indices of the silences, those without a landing left out. */
export function chosenSilences({ stage }: Plan, luck: Luck, often: Often): readonly number[] {
  const landed = stage.silences.flatMap(({ landing }, index) => (landing >= 0 ? [index] : []));
  if (often === "every" || landed.length === 0) return landed;
  return [landed[luck("which silence").below(landed.length)]!];
}
