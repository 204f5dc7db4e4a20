// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Seconds, Written } from "../../base/index.js";
/**
 * A line to play or a rest.
 */
export type PlanLineDocument = PlayLineDocument | RestLineDocument;
/**
 * What opens the way onward.
 */
export type PlanGateDocument = PlanGateOfLast | PlanGateInRow | PlanGateSequential;

/**
 * What to practise in one session, why, and what follows from how each take goes. It can be followed without the library: play the first step of a line, and after each take go where its outcome leads.
 */
export interface PlanDocument {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * Whose plan this is.
   */
  readonly student: string;
  /**
   * Name of the course.
   */
  readonly curriculum: string;
  /**
   * Edition of the course.
   */
  readonly edition: string;
  /**
   * The day it is for.
   */
  readonly today: string;
  /**
   * Minutes that there are. Range: above 0, at most 600.
   */
  readonly minutes: number;
  /**
   * All lines together; at most the minutes, and at most an hour. Range: 0 to 3600.
   */
  readonly seconds: Written<Seconds>;
  /**
   * One after the other.
   */
  readonly lines: readonly PlanLineDocument[];
  readonly rest: ShortRestDocument;
  /**
   * Takes of the day since the last short rest, before this plan. Range: at least 0.
   */
  readonly played: number;
  /**
   * Further advice in sentences, such as why a plan is empty.
   */
  readonly advice: readonly string[];
  /**
   * The same before it is worded.
   */
  readonly messages: readonly PlanMessage[];
  /**
   * What to take care of.
   */
  readonly cautions: readonly string[];
  readonly outlook?: PlanOutlookDocument;
}
/**
 * Short rests within the lines.
 */
export interface ShortRestDocument {
  /**
   * Takes in a row before a short rest. Range: 2 to 6.
   */
  readonly after: number;
  /**
   * How long it is. Range: above 0.
   */
  readonly seconds: Written<Seconds>;
}
/**
 * What to play from second `from` of the session on, and what follows from how the takes go.
 */
export interface PlayLineDocument {
  /**
   * `build-up`: an easier rung of the drill in work; `preparation`: below the first rung, or listening, never evidence.
   */
  readonly kind: "warm-up" | "new work" | "build-up" | "preparation" | "review";
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Title of the drill; its name where it has none.
   */
  readonly title: string;
  /**
   * Settings of a rung or preparation in canonical form.
   */
  readonly rung: string;
  /**
   * Number of the rung, from 1; null for a preparation, which is below the first rung and has none. Range: at least 1.
   */
  readonly number: number | null;
  /**
   * Name of the mix to play to.
   */
  readonly mix: string;
  /**
   * Takes at most, however they go. Range: at least 1.
   */
  readonly takes: number;
  /**
   * Chance of a clean take at the beginning. Range: 0 to 1.
   */
  readonly chance: number;
  /**
   * When it begins, from the start of the session. Range: at least 0.
   */
  readonly from: Written<Seconds>;
  /**
   * How long it takes at most, pauses and short rests included. Range: at least 0.
   */
  readonly seconds: Written<Seconds>;
  /**
   * Why, in a few words.
   */
  readonly because: string;
  readonly message: PlanMessage;
  /**
   * What follows from how the takes go, in sentences.
   */
  readonly follows: readonly string[];
  /**
   * The same before they are worded.
   */
  readonly followMessages: readonly PlanMessage[];
  /**
   * The rungs the line may lead to, the first to begin with; empty when `goesOn`.
   */
  readonly steps: readonly PlanStepDocument[];
  /**
   * Present when the line goes on where the one before it stopped.
   */
  readonly goesOn?: true;
}
/**
 * A rest of minutes.
 */
export interface RestLineDocument {
  /**
   * Says that it is a rest.
   */
  readonly kind: "rest";
  /**
   * When it begins, from the start of the session. Range: at least 0.
   */
  readonly from: Written<Seconds>;
  /**
   * How long it is. Range: at least 0.
   */
  readonly seconds: Written<Seconds>;
  /**
   * Why.
   */
  readonly because: string;
  readonly message: PlanMessage;
}
/**
 * A rung that is played until something follows: a node of a decision graph. Steps are named by their place in the list, from 0.
 */
export interface PlanStepDocument {
  /**
   * `build-up`: an easier rung of the drill in work; `preparation`: below the first rung, or listening, never evidence.
   */
  readonly kind: "warm-up" | "new work" | "build-up" | "preparation" | "review";
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Title of the drill; its name where it has none.
   */
  readonly title: string;
  /**
   * Settings of a rung or preparation in canonical form.
   */
  readonly rung: string;
  /**
   * Number of the rung, from 1; null for a preparation, which is below the first rung and has none. Range: at least 1.
   */
  readonly number: number | null;
  /**
   * Name of the mix to play to.
   */
  readonly mix: string;
  /**
   * Seconds of a take with its pause. Range: above 0.
   */
  readonly seconds: Written<Seconds>;
  readonly gate?: PlanGateDocument;
  /**
   * Outcomes of the stay so far: `w` clean, `b` beyond, `u` unclear.
   */
  readonly stay: string;
  /**
   * Whether the gate was open before, so that one clean take lets on.
   */
  readonly earned: boolean;
  /**
   * The step after the gate opens; absent: the line ends. Range: at least 0.
   */
  readonly onward?: number;
  readonly back?: PlanBackDocument;
  readonly most: PlanMostDocument;
}
/**
 * After so many takes in a row beyond the tolerance, unclear ones apart, to this step.
 */
export interface PlanBackDocument {
  /**
   * Takes in a row. Range: at least 1.
   */
  readonly after: number;
  /**
   * The step gone back to. Range: at least 0.
   */
  readonly to: number;
}
/**
 * Takes of this step in the session at most, and the step after them; without `to` the line ends.
 */
export interface PlanMostDocument {
  /**
   * Takes. Range: at least 0.
   */
  readonly takes: number;
  /**
   * The step after them. Range: at least 0.
   */
  readonly to?: number;
}
/**
 * Clean takes out of the last ones.
 */
export interface PlanGateOfLast {
  /**
   * Says that it is this form.
   */
  readonly kind: "clean of last";
  /**
   * Clean takes. Range: at least 1.
   */
  readonly clean: number;
  /**
   * Takes they are among. Range: at least 1.
   */
  readonly of: number;
}
/**
 * Clean takes in a row.
 */
export interface PlanGateInRow {
  /**
   * Says that it is this form.
   */
  readonly kind: "in a row";
  /**
   * Clean takes. Range: at least 1.
   */
  readonly count: number;
}
/**
 * A sequential test.
 */
export interface PlanGateSequential {
  /**
   * Says that it is this form.
   */
  readonly kind: "sequential";
  /**
   * Share of clean takes of who is let on. Range: above 0, below 1.
   */
  readonly able: number;
  /**
   * Share of clean takes of who is held. Range: above 0, below 1.
   */
  readonly unready: number;
  /**
   * Share of the unready let on. Range: above 0, below 1.
   */
  readonly wronglyLetOn: number;
  /**
   * Share of the able held. Range: above 0, below 1.
   */
  readonly wronglyHeld: number;
}
/**
 * A sentence before it is worded: its name in the catalogues, and what stands in it.
 */
export interface PlanMessage {
  /**
   * Name of the message.
   */
  readonly key: string;
  /**
   * What stands in it, by name.
   */
  readonly parameters: {
    readonly [k: string]: unknown;
  };
}
/**
 * Whether something will be ready by a day.
 */
export interface PlanOutlookDocument {
  /**
   * The day.
   */
  readonly on: string;
  /**
   * The drills to be completed by then, in order.
   */
  readonly drills: readonly string[];
  /**
   * Days until then. Range: at least 1.
   */
  readonly days: number;
  /**
   * How the student is taken to practise.
   */
  readonly practises: "the plan" | "the current rung";
  /**
   * Takes there is time for, about. Range: at least 0.
   */
  readonly takes: number;
  /**
   * Chance that all of them are complete by then. Range: 0 to 1.
   */
  readonly chance: number;
  /**
   * Standard error of the chance, by the number of runs. Range: 0 to 1.
   */
  readonly samplingError: number;
  /**
   * In a sentence.
   */
  readonly says: string;
  readonly message: PlanMessage;
}
