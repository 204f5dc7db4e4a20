// Generated from schemas/ by `npm run types`; change the schema instead.

/**
 * All students, or a quarter of the population by the noise of the hand before any practice.
 */
export type RehearsalKindName =
  "all" | "steadiest quarter" | "second quarter" | "third quarter" | "least steady quarter";

/**
 * What became of simulated students who went through a course, before anyone is held back by it. Shares are from 0 to 1; all students of a population are simulated, and none of them is a person.
 */
export interface RehearsalReport {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 1;
  /**
   * Name of the course.
   */
  readonly curriculum: string;
  /**
   * Its title.
   */
  readonly title?: string;
  /**
   * Name of the population.
   */
  readonly population: string;
  /**
   * Seed of all luck.
   */
  readonly seed: string;
  /**
   * Students who were simulated. Range: at least 0.
   */
  readonly students: number;
  /**
   * Weeks that were rehearsed.
   */
  readonly weeks: number;
  /**
   * Minutes of a session; left out when students played as many takes as their traits say. Range: above 0.
   */
  readonly minutes?: number;
  /**
   * What is played next: the name of the policy.
   */
  readonly policy: string;
  /**
   * `drawn`: verdicts drawn from chances that were found by playing; `played`: every take played and assessed.
   */
  readonly level: "drawn" | "played";
  /**
   * From which true chance of a clean take on a student should be let on. Range: 0 to 1.
   */
  readonly able: number;
  /**
   * Below which true chance of a clean take a student should not be. Range: 0 to 1.
   */
  readonly unready: number;
  /**
   * Takes on one rung from which on a student who is still there when the time is over counts as stuck. Range: at least 0.
   */
  readonly longStay: number;
  /**
   * What became of the students.
   */
  readonly results: RehearsalResults;
  /**
   * The same of the old edition.
   */
  readonly against?: RehearsalResults;
  /**
   * Whether the time suffices.
   */
  readonly time?: RehearsalTime;
  /**
   * Other ways to go: the old edition, suggestions with their computed effect, or policies. None is applied.
   */
  readonly comparisons: readonly RehearsalComparison[];
  /**
   * The climbs of the first hundred students.
   */
  readonly climbs: readonly RehearsalClimb[];
}
/**
 * Median and the middle eight tenths of all students meant, those included who never came to it. A value that so many never came to in the time rehearsed is left out.
 */
export interface RehearsalQuantiles {
  /**
   * A tenth had at most this.
   */
  readonly low?: number;
  /**
   * Half had at most this.
   */
  readonly median?: number;
  /**
   * Nine tenths had at most this.
   */
  readonly high?: number;
}
/**
 * How often something happened, of how many times it could.
 */
export interface RehearsalRate {
  /**
   * Times it happened. Range: at least 0.
   */
  readonly times: number;
  /**
   * Times it could have. Range: at least 0.
   */
  readonly of: number;
}
/**
 * How one kind of student came through a drill.
 */
export interface RehearsalKindDrill {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Students who played it. Range: at least 0.
   */
  readonly begun: number;
  /**
   * Students who completed it. Range: at least 0.
   */
  readonly completed: number;
  /**
   * Takes in it until it was complete, of those who began it.
   */
  readonly takes: RehearsalQuantiles;
  /**
   * Weeks from the first day until it was complete, of all students of the kind.
   */
  readonly weeks: RehearsalQuantiles;
}
/**
 * How one kind of student came through the course.
 */
export interface RehearsalKind {
  /**
   * Which students.
   */
  readonly kind: RehearsalKindName;
  /**
   * How many there were. Range: at least 0.
   */
  readonly students: number;
  /**
   * How many finished the course in the time rehearsed. Range: at least 0.
   */
  readonly finished: number;
  /**
   * Takes to the end of the course.
   */
  readonly takes: RehearsalQuantiles;
  /**
   * Weeks to the end of the course.
   */
  readonly weeks: RehearsalQuantiles;
  /**
   * Takes they played in all. Range: at least 0.
   */
  readonly takesPlayed: number;
  /**
   * Minutes at the instrument, pauses between takes included, of all of them together. Range: at least 0.
   */
  readonly minutes: number;
  /**
   * Takes that could not be judged. Range: at least 0.
   */
  readonly unclear: number;
  /**
   * Times a student was let on whose true chance of a clean take was below `unready`, of all times one was let on.
   */
  readonly letOnUnready: RehearsalRate;
  /**
   * Stays in which a student whose true chance of a clean take was `able` or more did not pass in as many takes as the gate looks at, of all such stays.
   */
  readonly heldAble: RehearsalRate;
  /**
   * The drills, in the order of the course.
   */
  readonly drills: readonly RehearsalKindDrill[];
}
/**
 * How hard a rung is for one kind of student when they come to it.
 */
export interface RehearsalArrival {
  /**
   * Which students.
   */
  readonly kind: RehearsalKindName;
  /**
   * Students who came to it. Range: at least 0.
   */
  readonly reached: number;
  /**
   * Mean of their true chances of a clean take when they came; 0 when nobody did. Range: 0 to 1.
   */
  readonly clean: number;
}
/**
 * Takes by what they came to; of those beyond tolerance, by the figure that was furthest outside.
 */
export interface RehearsalOutcomes {
  /**
   * Clean takes. Range: at least 0.
   */
  readonly within: number;
  /**
   * Takes that could not be judged. Range: at least 0.
   */
  readonly unclear: number;
  /**
   * Beyond by drift. Range: at least 0.
   */
  readonly drift: number;
  /**
   * Beyond by a landing. Range: at least 0.
   */
  readonly landing: number;
  /**
   * Beyond by steadiness. Range: at least 0.
   */
  readonly steadiness: number;
  /**
   * Beyond by a slip, or by notes not played. Range: at least 0.
   */
  readonly notes: number;
}
/**
 * What one rung asked of all students.
 */
export interface RehearsalRung {
  /**
   * Its number, from 1. Range: at least 1.
   */
  readonly number: number;
  /**
   * Its settings.
   */
  readonly rung: string;
  /**
   * Students who came to it. Range: at least 0.
   */
  readonly reached: number;
  /**
   * How hard it is on arrival, for all and for each kind.
   */
  readonly arrival: readonly RehearsalArrival[];
  /**
   * By how much harder it is than the rung before, as the difference of the logarithms of the odds of a clean take on arrival; left out for the first rung of a drill, and where nobody came.
   */
  readonly harder?: number;
  /**
   * Takes on it until it was left upward for the first time, of those who came to it.
   */
  readonly takes: RehearsalQuantiles;
  /**
   * All takes of it.
   */
  readonly outcomes: RehearsalOutcomes;
  /**
   * Times somebody went back from it. Range: at least 0.
   */
  readonly wentBack: number;
  /**
   * Students who were on it when the time was over. Range: at least 0.
   */
  readonly stayed: number;
  /**
   * Those of them who had played many takes on it: see `longStay`. Range: at least 0.
   */
  readonly stuck: number;
  /**
   * Students who came to it and needed more than twice as many takes as `longStay` for it, those who are stuck included. Range: at least 0.
   */
  readonly long: number;
  /**
   * Times somebody was let on too early, of all times somebody was let on.
   */
  readonly letOn: RehearsalRate;
  /**
   * Stays of able students held at its gate, of all stays of able ones.
   */
  readonly held: RehearsalRate;
  /**
   * Whether a take of it can fail: false when hardly any take of any kind of student was beyond tolerance.
   */
  readonly teaches: boolean;
}
/**
 * What the rungs of one drill asked.
 */
export interface RehearsalDrill {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Its title.
   */
  readonly title?: string;
  /**
   * The rungs that were rehearsed, from the easiest.
   */
  readonly rungs: readonly RehearsalRung[];
}
/**
 * Something a teacher should know before the course is used.
 */
export interface RehearsalFinding {
  /**
   * `wall`: many students need very long for a rung, or never leave it; `nobody can fail`: hardly any take of a rung is beyond tolerance; `nobody passes`: nobody who came to a rung left it upward; `longer than a term`: a drill takes more than a term of usual practice.
   */
  readonly what: "wall" | "nobody can fail" | "nobody passes" | "longer than a term";
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Number of the rung, from 1; left out where it is about the whole drill. Range: at least 1.
   */
  readonly number?: number;
  /**
   * Settings of the rung.
   */
  readonly rung?: string;
  /**
   * Share of the students who came to the rung that it is about; of takes where nobody can fail. Range: 0 to 1.
   */
  readonly share?: number;
  /**
   * What most of the takes of the rung that were not clean failed on.
   */
  readonly on?: "unclear" | "drift" | "landing" | "steadiness" | "notes";
  /**
   * Takes that half of those who begin the drill need or exceed, where it is longer than a term.
   */
  readonly takes?: number;
}
/**
 * What became of the students in one edition of a course.
 */
export interface RehearsalResults {
  /**
   * Edition of the course.
   */
  readonly edition: string;
  /**
   * All students, and each kind of them.
   */
  readonly kinds: readonly RehearsalKind[];
  /**
   * The drills, in the order of the course.
   */
  readonly drills: readonly RehearsalDrill[];
  /**
   * What a teacher should know, in the order of the course.
   */
  readonly findings: readonly RehearsalFinding[];
}
/**
 * How far a figure differs between two ways, on the same students with the same luck: a mean over students with its interval.
 */
export interface RehearsalDifference {
  /**
   * `days` to the end of the course, or of the whole time for who did not come to it; `finished` as a share; `rungs` left behind; `takes` played; `unready`: times let on too early; `held`: times held at a gate though able.
   */
  readonly figure: "days" | "finished" | "rungs" | "takes" | "unready" | "held";
  /**
   * Mean of the way that others are compared with.
   */
  readonly first: number;
  /**
   * Mean of the other way.
   */
  readonly second: number;
  /**
   * Second less first.
   */
  readonly difference: number;
  /**
   * Lower end of the interval of 95 %.
   */
  readonly low: number;
  /**
   * Upper end.
   */
  readonly high: number;
  /**
   * How many times smaller the variance of the difference is than it would be on different students.
   */
  readonly gain: number;
}
/**
 * Another way to go, beside the course as it is.
 */
export interface RehearsalComparison {
  /**
   * Which way.
   */
  readonly way: RehearsalWay;
  /**
   * Its figures beside those of the course as it is.
   */
  readonly differences: readonly RehearsalDifference[];
  readonly stuck?: RehearsalStuck;
}
/**
 * Students who need very long for the rung that the way is meant to change.
 */
export interface RehearsalStuck {
  /**
   * In the course as it is. Range: at least 0.
   */
  readonly before: number;
  /**
   * In this way, on the rung or, of a rung put between, on both. Range: at least 0.
   */
  readonly after: number;
}
/**
 * A change of the course, a policy, or another edition.
 */
export interface RehearsalWay {
  /**
   * What is otherwise.
   */
  readonly what: "edition" | "policy" | "gate" | "tolerance" | "rung between";
  /**
   * Name of the drill; left out where it is about all.
   */
  readonly drill?: string;
  /**
   * Which limit of a tolerance, or which ladder.
   */
  readonly setting?: string;
  /**
   * What it is in the course as it is.
   */
  readonly before?: string;
  /**
   * What it would be; the name of the policy, the gate or the edition.
   */
  readonly after: string;
}
/**
 * The climb of one student.
 */
export interface RehearsalClimb {
  /**
   * Number of the student. Range: at least 0.
   */
  readonly student: number;
  /**
   * Which quarter the student is of.
   */
  readonly kind: RehearsalKindName;
  /**
   * Rungs left behind at the end of each week, of all drills.
   *
   * Items: Range: at least 0.
   */
  readonly weekly: readonly number[];
}
/**
 * Whether the minutes suffice for a date.
 */
export interface RehearsalTime {
  /**
   * First day.
   */
  readonly from: string;
  /**
   * The day by which the course is to be finished.
   */
  readonly by: string;
  /**
   * Share of the students who finish by then. Range: 0 to 1.
   */
  readonly share: number;
  /**
   * Minutes of a session with which nine in ten finish by then, in fives; left out when an hour does not suffice, or when sessions were not stated in minutes. Range: at least 1.
   */
  readonly enough?: number;
}
