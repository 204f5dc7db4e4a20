/** Problems with what a drill asks of a player: everything it says can be read, but it cannot be played, heard or judged. */
export const checkCodes = {
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
  REENTRY_WITHOUT_EXPECTED_ONSET: {
    severity: "error",
    means: "No note is expected within a bar of the accompaniment's return, so that the re-entry cannot be judged.",
  },
  DROPOUT_ONLY_OVER_OPEN_BARS: {
    severity: "advice",
    means:
      "A silence lies over open bars without any expected note, so that drift is judged by improvised notes alone.",
  },
  LAST_SILENCE_WITHOUT_REENTRY: {
    severity: "advice",
    means: "The take ends with a silence: without a landing its re-entry cannot be judged.",
  },
  NOTHING_BEFORE_FIRST_SILENCE: {
    severity: "error",
    means: "The take begins with a silence and has no count-in to take the tempo from.",
  },
  DROPOUT_NOT_JUDGED: { severity: "advice", means: "A drill has silences but judges neither drift nor re-entry." },
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
  TOLERANCE_BELOW_HEARING: {
    severity: "advice",
    means: "A tolerance is smaller than the shift or change of tempo people hear.",
  },
  LADDERS_NOT_ALL_CHECKED: {
    severity: "advice",
    means: "Lists multiply to more combinations than are checked for notes to judge by.",
  },
} as const;
