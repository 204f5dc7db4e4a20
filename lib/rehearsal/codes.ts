/** What a rehearsal advises an author of. It stops nothing: students who are simulated are a guess at real ones. */
export const rehearsalCodes = {
  REHEARSED_WALL: {
    severity: "advice",
    means: "Many simulated students need very long for a rung, or never leave it.",
  },
  REHEARSED_RUNG_NOBODY_FAILS: {
    severity: "advice",
    means: "Hardly any take of a rung is beyond tolerance, whoever of the simulated students plays it.",
  },
  REHEARSED_GATE_NOBODY_PASSES: {
    severity: "advice",
    means: "Of the simulated students who came to a rung nobody left it upward.",
  },
  REHEARSED_DRILL_LONGER_THAN_TERM: {
    severity: "advice",
    means: "Simulated students play more takes in a drill than in a term of twelve weeks.",
  },
} as const;
