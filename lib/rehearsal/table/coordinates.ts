import { type Lay, leanOn } from "../students/player.js";
import type { Student } from "../students/student.js";

/**
 * Where a student stands on a rung, in units in which a table is smooth: noise now, and what of the student does not change while the rung is played.
 * What is no coordinate (omissions, added notes) is averaged over the population.
 */
export interface Standpoint {
  /** Logarithm of the motor noise now over 12 ms. Halves and doubles of it lie 1.4 apart. */
  readonly noise: number;
  readonly fixed: FixedPoint;
}
export interface FixedPoint {
  readonly clock: number;
  readonly bias: number;
  readonly lean: number;
}

const MIDDLE = { motor: 12, clock: 0.9, bias: 0.00125 };
/** Noise beyond these is taken as these: from 1.2 to 120 ms a note. */
const FARTHEST = 2.3;
/** Number of features: powers of the noise, and what the fixed point adds to each. */
export const FEATURES = 11;

export function noiseCoordinate(motorMs: number): number {
  return Math.max(-FARTHEST, Math.min(FARTHEST, Math.log(motorMs / MIDDLE.motor)));
}

export function fixedPoint(student: Student, lay: Lay): FixedPoint {
  return {
    clock: Math.log(student.clock / MIDDLE.clock),
    bias: Math.log(student.bias / MIDDLE.bias),
    lean: leanOn(student, lay) / 2,
  };
}

/** Features of a standpoint: 1, clock, bias, lean, lean², clock², then noise times 1, clock and lean², noise² and noise³. */
export function featuresAt({ noise, fixed: { clock, bias, lean } }: Standpoint): Float64Array {
  const square = lean * lean;
  return Float64Array.of(
    ...[1, clock, bias, lean, square, clock * clock],
    ...[noise, noise * clock, noise * square],
    ...[noise * noise, noise ** 3],
  );
}

/** The logit of coefficients at a fixed point as a polynomial of the noise, the constant first: what a stay on a rung needs again and again. */
export function alongNoise(
  weights: Float64Array,
  { clock, bias, lean }: FixedPoint,
): readonly [number, number, number, number] {
  const square = lean * lean;
  const w = (i: number): number => weights[i]!;
  return [
    w(0) + w(1) * clock + w(2) * bias + w(3) * lean + w(4) * square + w(5) * clock * clock,
    w(6) + w(7) * clock + w(8) * square,
    w(9),
    w(10),
  ];
}
