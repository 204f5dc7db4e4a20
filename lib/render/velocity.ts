import type { ScoreNote } from "../schema/index.js";

/** Velocity of an unmarked note, and of one marked mf: our choice, it leaves headroom. */
export const PLAIN_VELOCITY = 88;
/** An accent on such a note: our choice; it is read back as accented (from 110). */
export const ACCENT_VELOCITY = 112;

/**
 * Velocities of the loudness marks. Our choice: below mf some 3 to 5 dB from mark to mark by `gainOf`; above it steps are smaller, because a
 * velocity from 110 on is read back as an accent.
 */
const VELOCITIES: Readonly<Record<NonNullable<ScoreNote["loudness"]>, number>> = {
  pp: 44,
  p: 58,
  mp: 73,
  mf: PLAIN_VELOCITY,
  f: 98,
  ff: 108,
};

/** Share of the velocity of its loudness that a ghost note has. Our choice: 14 dB softer by `gainOf`, still to be heard beside other parts. */
const GHOST = 0.45;

/** The MIDI velocity of a note, 1 to 127, from its loudness, its accent or its being a ghost note. An unmarked note is as loud as mf. */
export function velocityOf({ loudness, accent, ghost }: Pick<ScoreNote, "loudness" | "accent" | "ghost">): number {
  const usual = VELOCITIES[loudness ?? "mf"];
  if (ghost) return Math.round(usual * GHOST);
  return accent ? Math.min(127, usual + ACCENT_VELOCITY - PLAIN_VELOCITY) : usual;
}

/** Gain of a velocity; an accented note of usual loudness has 1. Amplitude goes with the square of velocity (General MIDI recommended practice, from memory). */
export function gainOf(velocity: number): number {
  return (velocity / ACCENT_VELOCITY) ** 2;
}
