import type { Message } from "../base/index.js";
import type { Gate } from "../drill/index.js";
import type { ShortRest } from "./breaks.js";
import type { Outlook } from "./outlook.js";

/** One line of a plan: what to do from second `from` of the session on, for `seconds` seconds at most (pauses and short rests included). */
export type PlanLine = PlayLine | RestLine;

/** What is played in a step. `preparation`: below the first rung of the drill, or listening; never evidence. */
export type PlayKind = "warm-up" | "new work" | "build-up" | "preparation" | "review";

export interface PlayLine {
  /** `build-up`: an easier rung of the drill being worked on. */
  readonly kind: PlayKind;
  readonly drill: string;
  /** Title of the drill; its name where it has none. */
  readonly title: string;
  /** Settings text of the rung to begin with. */
  readonly rung: string;
  /** Number of the rung, from 1; null for a preparation, which is no rung. */
  readonly number: number | null;
  readonly mix: string;
  /** Takes at most, however they go. */
  readonly takes: number;
  /** Chance of a clean take at the beginning, 0 to 1. */
  readonly chance: number;
  readonly from: number;
  readonly seconds: number;
  /** Why, in a few words. */
  readonly because: string;
  /** The same before it is worded. */
  readonly message: Message;
  /** What follows from how the takes go, in sentences; empty where nothing does. */
  readonly follows: readonly string[];
  /** The same before it is worded. */
  readonly followMessages: readonly Message[];
  /** The rungs the line may lead to, the first to begin with. `nextTake` reads them. Empty when `goesOn`. */
  readonly steps: readonly PlanStep[];
  /** Present when the line goes on where the one of the same kind before it stopped, with its steps. */
  readonly goesOn?: true;
}

/** A rung that is played until something follows: a node of a decision graph. Steps are referred to by their index in the line. */
export interface PlanStep {
  readonly kind: PlayKind;
  readonly drill: string;
  readonly title: string;
  readonly rung: string;
  /** As that of a line. */
  readonly number: number | null;
  readonly mix: string;
  /** Seconds of a take with its pause. */
  readonly seconds: number;
  /** What opens the way onward; absent where nothing is judged. */
  readonly gate?: Gate;
  /** Outcomes of the stay so far: `w` clean, `b` beyond, `u` unclear. */
  readonly stay: string;
  /** Whether the gate was open before, so that one clean take lets on. */
  readonly earned: boolean;
  /** The step after the gate opens; absent: the line ends. */
  readonly onward?: number;
  /** After so many takes in a row beyond the tolerance, unclear ones apart; without `to` the student stays. */
  readonly back?: { readonly after: number; readonly to: number };
  /** Takes of this step in the session at most, and the step after them; without `to` the line ends. */
  readonly most: { readonly takes: number; readonly to?: number };
}

export interface RestLine {
  readonly kind: "rest";
  readonly from: number;
  readonly seconds: number;
  readonly because: string;
  readonly message: Message;
}

/** Practice plan for one session. */
export interface Plan {
  /** Version of this form. */
  readonly version: 2;
  readonly student: string;
  readonly curriculum: string;
  readonly edition: string;
  /** ISO 8601 date. */
  readonly today: string;
  /** Minutes that there are. */
  readonly minutes: number;
  /** Seconds of all lines together, at most `minutes`. */
  readonly seconds: number;
  readonly lines: readonly PlanLine[];
  /** Short rests, within the lines: after every so many takes. */
  readonly rest: ShortRest;
  /** Takes of the day since the last short rest, before this plan. */
  readonly played: number;
  /** Further advice in sentences, such as why a plan is empty. */
  readonly advice: readonly string[];
  /** The same before it is worded. */
  readonly messages: readonly Message[];
  readonly cautions: readonly string[];
  /** Only with a deadline. */
  readonly outlook?: Outlook;
}
