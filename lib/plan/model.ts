import type { Outlook } from "./outlook.js";

/** One thing to do, from a second of the session on, for so many seconds (pauses between takes included). */
export type PlanLine = PlayLine | RestLine;

export interface PlayLine {
  /** `build-up`: an easier rung of the drill being worked on, before the rung itself. */
  readonly kind: "warm-up" | "new work" | "build-up" | "review";
  readonly drill: string;
  /** Settings text of the rung. */
  readonly rung: string;
  readonly mix: string;
  readonly takes: number;
  /** Chance of a clean take, 0 to 1. */
  readonly chance: number;
  readonly from: number;
  readonly seconds: number;
  /** Why, in a few words. */
  readonly because: string;
}

export interface RestLine {
  readonly kind: "rest";
  readonly from: number;
  readonly seconds: number;
  readonly because: string;
}

/** What to practise in one session. */
export interface Plan {
  readonly student: string;
  readonly curriculum: string;
  readonly edition: string;
  /** ISO 8601 date. */
  readonly today: string;
  /** Minutes there are. */
  readonly minutes: number;
  /** Seconds the lines take, at most all there are. */
  readonly seconds: number;
  readonly lines: readonly PlanLine[];
  /** What else is to be said of this plan. */
  readonly remarks: readonly string[];
  readonly cautions: readonly string[];
  readonly outlook?: Outlook;
}
