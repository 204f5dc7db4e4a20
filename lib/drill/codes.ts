import { problemsOf } from "../base/index.js";

/** Problems with drills: with what a drill says, with the names of its rungs, and with what it asks of a player. */
export const drillCodes = {
  // Something cannot be read, or names what is not there.
  PATTERN_UNKNOWN: { severity: "error", means: "A drill names a pattern the curriculum does not have." },
  PART_UNKNOWN: { severity: "error", means: "A part is named that the pattern does not have." },
  VARIANT_UNKNOWN: {
    severity: "error",
    means: "A variant is named that the student's part, or another part, does not have.",
  },
  VARIANT_NOT_CHOSEN: {
    severity: "error",
    means: "A part has several variants and the drill does not say which is played.",
  },
  MIX_UNKNOWN: { severity: "error", means: "A mix is named that the drill does not have." },
  TEMPO_MISSING: { severity: "error", means: "A drill has neither a tempo nor a ladder of tempi." },
  RISE_OUT_OF_RANGE: {
    severity: "error",
    means: "The tempo rises or falls inside a take beyond the tempi that are read (1 to 1000).",
  },
  RISE_NEVER_HEARD: {
    severity: "advice",
    means: "The tempo is to rise inside a take that has too few phrases for it to rise even once.",
  },
  DROPOUT_WITHOUT_LENGTH: {
    severity: "error",
    means: "A dropout has neither a length, nor lengths that grow, nor a ladder of lengths.",
  },
  DROPOUT_LENGTH_TWICE: {
    severity: "error",
    means: "A dropout has one length for all silences of a take, and lengths that grow.",
  },
  GROWTH_FORM: {
    severity: "error",
    means: "Silences that grow have neither a list of lengths nor all of from, to and by, or have both.",
  },
  GROWTH_WITHOUT_START: {
    severity: "error",
    means: "A ladder climbs what silences grow to, and the dropout does not say from where and by how much.",
  },
  GROWTH_LONGER_THAN_TAKE: {
    severity: "error",
    means: "Silences grow over more phrases than the take has, or than a take can have (64).",
  },
  SILENCES_SHRINK: {
    severity: "error",
    means: "Silences that are to grow inside a take get shorter, or parts that drop become fewer.",
  },
  EACH_NOT_READ: {
    severity: "error",
    means: "For how many phrases each length of silence holds is not a number of phrases.",
  },
  LENGTH_TOO_FINE: {
    severity: "error",
    means: "A length is a finer part of a bar, a beat or a note than is kept exactly.",
  },
  DROPOUT_BAR_OUTSIDE_PATTERN: {
    severity: "error",
    means: "A silence is to end with a bar the pattern does not have.",
  },
  DROPPING_PARTS_EMPTY: { severity: "error", means: "A list of the parts that fall silent is empty." },
  STUDENT_AMONG_DROPPING_PARTS: {
    severity: "error",
    means: "The student's part is listed among the accompaniment that falls silent; mixes say what it does.",
  },
  OPEN_BAR_OUTSIDE_PATTERN: { severity: "error", means: "A bar is left open that the pattern does not have." },
  OUTRO_LONGER_THAN_PHRASE: { severity: "error", means: "The outro is longer than the pattern it repeats." },
  SETTING_NEVER_USED: {
    severity: "advice",
    means: "A value is stated although a ladder for the same thing decides it.",
  },
  LADDER_FORM: { severity: "error", means: "A ladder names none, or more than one, of the things that can climb." },
  LADDER_TWICE: { severity: "error", means: "Two ladders of a drill climb the same thing." },
  LADDER_EMPTY: { severity: "error", means: "A ladder has no values." },
  LADDER_REPEATS_A_VALUE: {
    severity: "error",
    means: "A ladder has the same value twice, so that two rungs would be the same.",
  },
  LADDER_STANDS_STILL: {
    severity: "error",
    means: "The step of a ladder is 0, so that it never leaves its first value.",
  },
  LADDER_WRONG_WAY: {
    severity: "error",
    means: "The step of a ladder, or of silences that grow, leads away from its end.",
  },
  LADDER_NEVER_REACHES_ITS_END: {
    severity: "error",
    means: "The step of a ladder does not divide the way to its end.",
  },
  LADDER_STOPS_SHORT: {
    severity: "advice",
    means: "A ladder by per cent has no value at its stated end and ends at the last one before it.",
  },
  LADDER_STEP_NOT_READ: { severity: "error", means: "The step of a ladder of tempi is not a number or a percentage." },
  LADDER_UNITS_DIFFER: {
    severity: "error",
    means: "A ladder of lengths, or silences that grow, mix bars, beats and notes over a pattern that changes meter.",
  },
  LADDER_CHANGES_NOTHING: {
    severity: "error",
    means: "A ladder climbs the parts that fall silent in a drill without silences.",
  },
  RESTART_NOT_READ: { severity: "error", means: "Where a ladder restarts is not written as bottom or as rungs back." },
  RESTART_BELOW_BOTTOM: { severity: "error", means: "A ladder is to restart more rungs back than it has." },
  TOO_MANY_RUNGS: {
    severity: "error",
    means: "The ladders of a drill multiply to more rungs than can be counted exactly (2^53).",
  },
  TOLERANCE_NOT_READ: {
    severity: "error",
    means: "A tolerance is not written as 2.5 %, 40 ms or 3/4, or is outside its range.",
  },
  GATE_FORM: { severity: "error", means: "A gate is written in none, or in more than one, of its three forms." },
  GATE_CANNOT_BE_MET: { severity: "error", means: "A gate asks for more than any row of takes can show." },
  GATE_SHARE_NOT_READ: {
    severity: "error",
    means: "A share or an error rate of a gate is not a percentage in its range.",
  },
  GO_BACK_NOT_READ: { severity: "error", means: "How far to go back is not written as a number of rungs." },
  GO_BACK_GOES_NOWHERE: { severity: "error", means: "Going back is by 0 rungs, or after 0 takes." },
  RUNG_NOT_FOUND: { severity: "error", means: "No rung of the drill has these settings." },
  RUNG_AMBIGUOUS: { severity: "error", means: "Several rungs of the drill have these settings." },
  RUNG_NUMBER_OUT_OF_RANGE: {
    severity: "error",
    means: "A rung is named by a number the drill does not have; the first is 1.",
  },
  SETTING_UNKNOWN: {
    severity: "error",
    means: "A setting is named that does not exist, or that this drill does not have.",
  },
  SETTING_NOT_READ: {
    severity: "error",
    means: "A setting is not written as name=value, or its value cannot be read.",
  },
  SETTING_TWICE: { severity: "error", means: "A setting is written twice." },
  // Everything can be read, but the drill cannot be played, heard or judged.
  STUDENT_PLAYS_NOTHING: { severity: "error", means: "The student's part has no notes in a variant." },
  DROPOUT_LONGER_THAN_PHRASE: { severity: "error", means: "A silence does not fit into the phrase at its place." },
  DROPOUT_NEVER_RETURNS: {
    severity: "error",
    means: "One silence begins where another ends, or before: nothing returns between them.",
  },
  DROPOUT_WITHOUT_EXPECTED_ONSET: {
    severity: "error",
    means: "No note is expected in a silence nor on the downbeat after it, so that drift cannot be judged.",
  },
  LANDING_WITHOUT_EXPECTED_ONSET: {
    severity: "error",
    means:
      "No note is expected less than four beats after the accompaniment's return and before the next silence, so that the landing cannot be judged.",
  },
  STEADINESS_WITHOUT_ENOUGH_NOTES: {
    severity: "error",
    means: "So few notes are expected while the accompaniment plays that steadiness cannot be judged.",
  },
  DROPOUT_ONLY_OVER_OPEN_BARS: {
    severity: "advice",
    means:
      "A silence lies over open bars without any expected note, so that drift is judged by improvised notes alone.",
  },
  LAST_SILENCE_WITHOUT_LANDING: {
    severity: "advice",
    means: "The take ends with a silence: without an outro its landing cannot be judged.",
  },
  NOTHING_BEFORE_FIRST_SILENCE: {
    severity: "error",
    means: "The take begins with a silence and has no count-in to take the tempo from.",
  },
  DROPOUT_NOT_JUDGED: { severity: "advice", means: "A drill has silences but judges neither drift nor landing." },
  NOTHING_JUDGED: { severity: "advice", means: "A drill states no tolerance, so that every take counts as clean." },
  MIX_LEAVES_NOTHING_TO_PLAY_TO: {
    severity: "error",
    means: "In a mix no part sounds, so that there is nothing to keep time with.",
  },
  MIX_CONTRADICTS_DROPOUT: {
    severity: "error",
    means: "A mix has a part drop that is never among the parts that fall silent.",
  },
  DROPOUT_NEVER_SILENT: {
    severity: "advice",
    means: "In a mix takes are measured in, a part always plays on through the silences.",
  },
  SUBDIVISION_TOO_FAST_TO_FOLLOW: {
    severity: "error",
    means: "The student's notes follow each other faster than anybody keeps time with.",
  },
  DRILL_TAKE_TOO_LONG: { severity: "error", means: "A take of the drill lasts longer than an hour." },
  TOLERANCE_BELOW_MEASUREMENT: {
    severity: "error",
    means: "A tolerance is smaller than the uncertainty with which a take can show it.",
  },
  TOLERANCE_OFTEN_UNCLEAR: {
    severity: "advice",
    means: "A tolerance is so near the uncertainty of a take that many verdicts will be unclear.",
  },
  LANDING_TIGHTER_THAN_DRIFT: {
    severity: "advice",
    means:
      "The drift that is tolerated leads more than twice as far as a landing may be off, so that it never decides.",
  },
  TOLERANCE_BELOW_HEARING: {
    severity: "advice",
    means: "A tolerance is smaller than the shift or change of tempo people hear.",
  },
  LADDERS_NOT_ALL_CHECKED: {
    severity: "advice",
    means: "Lists multiply to more combinations than are checked for notes to judge by.",
  },
  RECORDED_STRETCHED_FAR: {
    severity: "advice",
    means: "A recording is made slower or faster than it can be without sounding like it.",
  },
  RECORDED_STAYS_IN_KEY: {
    severity: "advice",
    means:
      "A recording that may have pitches stays as it is in other keys, because nothing says which instrument it is.",
  },
  RECORDED_CANNOT_RING: {
    severity: "error",
    means: "A recording is to ring on into silences, where its next strokes are.",
  },
} as const;

/** Makes a problem of this catalogue. */
export const drillProblem: ReturnType<typeof problemsOf<typeof drillCodes>> = problemsOf(drillCodes);
