// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Milliseconds, MillisecondsPerRootBeat, Percent, Written } from "../../base/index.js";
/**
 * One line of a student's journal: something that happened, never changed afterwards. A journal is about one student in one course; where the student stands is worked out from its events alone. Events are put in order by `turn`, then `at`, then `id`, in whatever order they arrive.
 */
export type JournalEvent =
  Enrolled | TakeAssessed | Advanced | GoneBack | DrillCompleted | DrillOpened | EditionChanged | SetByTeacher;
/**
 * What had to be shown to leave the rung, as the edition in force said.
 */
export type GateInForce = CleanOfLast | InARow | Sequential;
/**
 * One silence of a take, as a row of four numbers, so that journals stay small: drift in milliseconds, its standard error in milliseconds, drift as per cent of tempo, and the offset at landing in milliseconds. `null`: could not be measured, or the accompaniment does not return. Positive is late or slower.
 *
 * @minItems 4
 * @maxItems 4
 */
export type SilenceKept = readonly [
  Written<Milliseconds> | null,
  Written<Milliseconds> | null,
  Written<Percent> | null,
  Written<Milliseconds> | null
];
/**
 * Landings that were left out, and landings that were asked for; then the same of the other notes. Absent where no landing is asked for, and in events of earlier versions.
 *
 * @minItems 4
 * @maxItems 4
 *
 *
 * Items: Range: at least 0.
 */
export type NotesLeftOut = readonly [number, number, number, number];

/**
 * So many clean takes among the last so many.
 */
export interface CleanOfLast {
  /**
   * Which sort of gate this is.
   */
  readonly kind: "clean of last";
  /**
   * Clean takes needed. Range: at least 1.
   */
  readonly clean: number;
  /**
   * Among this many takes at most, the latest ones. Range: at least 1.
   */
  readonly of: number;
}
/**
 * So many clean takes, one after the other.
 */
export interface InARow {
  /**
   * Which sort of gate this is.
   */
  readonly kind: "in a row";
  /**
   * Clean takes needed. Range: at least 1.
   */
  readonly count: number;
}
/**
 * Wald's sequential test between a player who is able and one who is not ready. Shares from 0 to 1.
 */
export interface Sequential {
  /**
   * Which sort of gate this is.
   */
  readonly kind: "sequential";
  /**
   * Share of clean takes of a player who should be let on. Range: above 0, below 1.
   */
  readonly able: number;
  /**
   * Share of clean takes of a player who should not. Range: above 0, below 1.
   */
  readonly unready: number;
  /**
   * Accepted chance of letting an unready player on. Range: above 0, below 1.
   */
  readonly wronglyLetOn: number;
  /**
   * Accepted chance of holding an able player. Range: above 0, below 1.
   */
  readonly wronglyHeld: number;
}
/**
 * The numbers of the finding that reports and forecasts use; what could not be measured is left out. Positive is late or slower.
 */
export interface Measured {
  /**
   * Drift of the dropout with the largest drift, milliseconds.
   */
  readonly driftMs?: Written<Milliseconds>;
  /**
   * The same as per cent of tempo.
   */
  readonly driftPercent?: Written<Percent>;
  /**
   * Standard error of that drift, milliseconds. Range: at least 0.
   */
  readonly standardErrorMs?: Written<Milliseconds>;
  /**
   * Offset at the landing furthest from the beat, milliseconds.
   */
  readonly landingMs?: Written<Milliseconds>;
  /**
   * Constant offset while accompanied, milliseconds.
   */
  readonly offsetMs?: Written<Milliseconds>;
  /**
   * Steadiness while accompanied, milliseconds (standard deviation). Range: at least 0.
   */
  readonly accompaniedMs?: Written<Milliseconds>;
  /**
   * Steadiness in the silences, milliseconds (standard deviation). Range: at least 0.
   */
  readonly aloneMs?: Written<Milliseconds>;
  /**
   * Timekeeper part of the steadiness, milliseconds per square root of a beat. Range: at least 0.
   */
  readonly clockMs?: Written<MillisecondsPerRootBeat>;
  /**
   * Motor part of the steadiness, milliseconds per note. Range: at least 0.
   */
  readonly motorMs?: Written<Milliseconds>;
}
/**
 * The student begins the course.
 */
export interface Enrolled {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "enrolled";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Edition of the course (semantic version).
   */
  readonly edition: string;
}
/**
 * A take was assessed. It counts for the rung it was played to, once.
 */
export interface TakeAssessed {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "take assessed";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Edition of the course (semantic version).
   */
  readonly edition: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Settings of a rung in canonical form: two rungs are the same when this text is the same.
   */
  readonly rung: string;
  /**
   * Name of a take.
   */
  readonly take: string;
  /**
   * Inside the tolerance, outside it, or not decidable: an unclear take changes nothing.
   */
  readonly verdict: "within" | "beyond" | "unclear";
  /**
   * Name of the mix played to.
   */
  readonly mix?: string;
  /**
   * Probability that the true values lie inside the tolerance. Range: 0 to 1.
   */
  readonly probability?: number;
  readonly measured?: Measured;
  /**
   * What each silence of the take showed, in order; their length is in the settings of the rung, and in `lengths` when they grow. Left out by takes without silences, and by versions of leeway that kept the largest only.
   *
   * @maxItems 100000
   */
  readonly silences?: readonly SilenceKept[];
  /**
   * The length of each silence of the take, in order; only when they grow inside the take.
   *
   * @maxItems 100000
   */
  readonly lengths?: readonly string[];
  readonly leftOut?: NotesLeftOut;
  /**
   * Codes of the finding's reasons, each once: why a take is unclear. Left out when there are none.
   *
   * @maxItems 100000
   */
  readonly reasons?: readonly string[];
  /**
   * Fingerprint of the whole finding (FNV-1a, 64 bits, of its canonical JSON), so that a finding kept elsewhere can be recognised.
   */
  readonly finding?: string;
}
/**
 * The gate of a rung was met: the student goes on to the next rung of the drill.
 */
export interface Advanced {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "advanced";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The rung that was left.
   */
  readonly from: string;
  /**
   * The next rung.
   */
  readonly to: string;
  readonly gate: GateInForce;
  /**
   * The takes the decision rests on, by name, in the order of the journal.
   *
   * @minItems 1
   * @maxItems 100000
   *
   * Items: Name of a take.
   */
  readonly evidence: readonly string[];
  /**
   * The takes beyond tolerance that were weighed as well, by name; empty when there were none.
   *
   * @maxItems 100000
   *
   * Items: Name of a take.
   */
  readonly against: readonly string[];
  /**
   * Present when the rung had been earned before: the id of the event that earned it. One more clean take is then enough; `evidence` lists the takes of that time and the new one.
   */
  readonly credit?: string;
}
/**
 * Too many takes in a row were beyond tolerance: the student goes back to an easier rung of the drill and shows the gate anew there.
 */
export interface GoneBack {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "gone back";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The rung that was too hard.
   */
  readonly from: string;
  /**
   * The easier rung.
   */
  readonly to: string;
  /**
   * Takes in a row beyond tolerance after which a rung is made easier, as the edition in force said. Range: at least 1.
   */
  readonly after: number;
  /**
   * The takes the decision rests on, by name, in the order of the journal.
   *
   * @minItems 1
   * @maxItems 100000
   *
   * Items: Name of a take.
   */
  readonly evidence: readonly string[];
  /**
   * Rungs between the two whose gate has to be met anew although it was met before.
   *
   * @maxItems 100000
   *
   * Items: Settings of a rung in canonical form: two rungs are the same when this text is the same.
   */
  readonly lapsed: readonly string[];
}
/**
 * The gate of a drill's last rung was met.
 */
export interface DrillCompleted {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "drill completed";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The last rung of the drill.
   */
  readonly from: string;
  readonly gate: GateInForce;
  /**
   * The takes the decision rests on, by name, in the order of the journal.
   *
   * @minItems 1
   * @maxItems 100000
   *
   * Items: Name of a take.
   */
  readonly evidence: readonly string[];
  /**
   * The takes beyond tolerance that were weighed as well, by name; empty when there were none.
   *
   * @maxItems 100000
   *
   * Items: Name of a take.
   */
  readonly against: readonly string[];
  /**
   * Present when the rung had been earned before: the id of the event that earned it. One more clean take is then enough; `evidence` lists the takes of that time and the new one.
   */
  readonly credit?: string;
}
/**
 * Everything a drill needs is complete: the student may begin it.
 */
export interface DrillOpened {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "drill opened";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The first rung of the drill.
   */
  readonly to: string;
  /**
   * The drills it needs, all complete; empty when it needs none.
   *
   * @maxItems 10000
   *
   * Items: Name of the drill.
   */
  readonly needs: readonly string[];
}
/**
 * The course came out in another edition. Credit stays with every rung whose settings are in the new edition; what is not there is listed, and comes back when a later edition has it again.
 */
export interface EditionChanged {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "edition changed";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * The edition until now.
   */
  readonly from: string;
  /**
   * The edition from now on.
   */
  readonly to: string;
  /**
   * Drills that have another name in the new edition; all that was shown in them goes with the name.
   *
   * @maxItems 10000
   */
  readonly renamed: readonly RenamedDrill[];
  /**
   * Drills in which the student's rung changes, as the new edition does not have it: the rung until now, and the nearest lower rung that is there; or back to the rung an earlier edition took the student from, which is there again.
   *
   * @maxItems 10000
   */
  readonly moved: readonly MovedDrill[];
  /**
   * Rungs with credit that are not in the new edition.
   *
   * @maxItems 100000
   */
  readonly lost: readonly LostRung[];
  /**
   * Drills with events in the journal that the new edition does not have.
   *
   * @maxItems 10000
   *
   * Items: Name of the drill.
   */
  readonly withdrawn: readonly string[];
  /**
   * Completed drills that have further rungs in the new edition; what needs them stays open.
   *
   * @maxItems 10000
   *
   * Items: Name of the drill.
   */
  readonly reopened: readonly string[];
  /**
   * Present when there are such drills: completed once and reopened by an edition, and without those further rungs in the new one.
   *
   * @minItems 1
   * @maxItems 10000
   *
   * Items: Name of the drill.
   */
  readonly completeAgain?: readonly string[];
}
/**
 * One drill.
 */
export interface RenamedDrill {
  /**
   * The name until now.
   */
  readonly from: string;
  /**
   * The name from now on.
   */
  readonly to: string;
}
/**
 * One drill.
 */
export interface MovedDrill {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The rung until now.
   */
  readonly from: string;
  /**
   * The rung from now on.
   */
  readonly to: string;
}
/**
 * One rung.
 */
export interface LostRung {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Settings of a rung in canonical form: two rungs are the same when this text is the same.
   */
  readonly rung: string;
}
/**
 * A teacher put the student on a rung, opening the drill if it was not open; or a placement test did, which "by" then says. It is never evidence: the gate of that rung is shown anew, and no drill that needs this one opens by it.
 */
export interface SetByTeacher {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * What happened.
   */
  readonly kind: "set by teacher";
  /**
   * Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
   */
  readonly id: string;
  /**
   * Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on. Range: 1 to 1000000000.
   */
  readonly turn: number;
  /**
   * When it happened: date and time with seconds and offset from UTC (RFC 3339).
   */
  readonly at: string;
  /**
   * Whose journal this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course the event belongs to.
   */
  readonly curriculum: string;
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * The rung the student is put on.
   */
  readonly to: string;
  /**
   * Who decided: a pseudonym is enough.
   */
  readonly teacher?: string;
  /**
   * The teacher's reason, or what the placement test found.
   */
  readonly because?: string;
  /**
   * Present when a placement test decided and no teacher was asked; absent when a teacher did.
   */
  readonly by?: "placement test";
}
