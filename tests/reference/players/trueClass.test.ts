import { expect, test } from "vitest";
import { trueClass } from "../../bench/landing/judged.js";
import { materials } from "./materials.js";

// The half-bar rung: drift 8 % of half a bar at 84 (two beats of 60/84 s: 114.3 ms), landing 120 ms.
const { score } = materials()[0]!;
const still = { driftMs: 0, landingMs: 0, landingPlayed: true, slipBeats: 0, aloneMs: 0 };

test.each([
  [{}, "in"],
  [{ driftMs: 0.89 * 114.28 }, "in"],
  [{ driftMs: -0.91 * 114.28 }, "between"],
  [{ driftMs: 1.49 * 114.28 }, "between"],
  [{ driftMs: -1.51 * 114.29 }, "out"],
  [{ landingMs: 107 }, "in"],
  [{ landingMs: -109 }, "between"],
  [{ landingMs: 181 }, "out"],
  // Nobody heard a landing that was left out: it makes nothing out, nor in.
  [{ landingMs: 181, landingPlayed: false }, "between"],
  [{ landingMs: 40, landingPlayed: false }, "in"],
  [{ driftMs: 200, landingMs: 40, landingPlayed: false }, "out"],
] as const)("%o is %s", (change, wanted) => {
  expect(trueClass(score, 0, { ...still, ...change })).toBe(wanted);
});
