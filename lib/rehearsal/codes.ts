/** What a rehearsal advises an author of. It stops nothing: students who are simulated are a guess at real ones. */
export const rehearsalCodes = {
  REHEARSED_WALL: "advice",
  REHEARSED_RUNG_NOBODY_FAILS: "advice",
  REHEARSED_GATE_NOBODY_PASSES: "advice",
  REHEARSED_DRILL_LONGER_THAN_TERM: "advice",
} as const;
