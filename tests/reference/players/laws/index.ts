/** The laws of timing of the tables, the held-out one apart. */
export { heldOut } from "./heldOut.js";
export type { Law } from "./law.js";
export { oscillator } from "./oscillator.js";
export { periodCorrection } from "./periodCorrection.js";
export { phaseCorrection } from "./phaseCorrection.js";
export { accelerating, lurch, turning } from "./silenceCurve.js";
export { wanderingTempo } from "./wanderingTempo.js";
export { wobble } from "./wobble.js";
