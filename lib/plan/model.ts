import type { Message } from "../base/index.js";
import type { Outlook } from "./outlook.js";

/** One line of a plan: what to do from second `from` of the session on, for `seconds` seconds (pauses between takes included). */
export type PlanLine = PlayLine | RestLine;

export interface PlayLine {
  /** `build-up`: an easier rung of the drill being worked on, before the rung itself. */
  readonly kind: "warm-up" | "new work" | "build-up" | "review";
  readonly drill: string;
  /** Title of the drill; its name where it has none. */
  readonly title: string;
  /** Settings text of the rung. */
  readonly rung: string;
  /** Number of the rung, from 1. */
  readonly number: number;
  readonly mix: string;
  readonly takes: number;
  /** Chance of a clean take, 0 to 1. */
  readonly chance: number;
  readonly from: number;
  readonly seconds: number;
  /** Why, in a few words. */
  readonly because: string;
  /** The same before it is worded. */
  readonly message: Message;
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
  /** Further advice in sentences, such as why a plan is empty. */
  readonly advice: readonly string[];
  /** The same before it is worded. */
  readonly messages: readonly Message[];
  readonly cautions: readonly string[];
  /** Only with a deadline. */
  readonly outlook?: Outlook;
}
