/**
 * The few inks of the charts. Blue and rust are told apart in all common kinds of colour blindness, and nothing rests on them alone: verdicts
 * also differ in shape, stretches in pattern. Contrast on `paper` is checked in the tests: text 4.5:1 or more, marks 3:1 or more (WCAG 2.2,
 * success criteria 1.4.3 and 1.4.11).
 */
export const INK = {
  paper: "#fcfbf7",
  /** Titles, notes, the student's own time. */
  ink: "#14222c",
  /** Axes and remarks. */
  muted: "#52606a",
  /** Bar lines: to be seen through, never to be read alone. */
  hair: "#c9cfd2",
  /** What sounds. */
  sound: "#3d5563",
  /** Silence: ground and hatching. */
  still: "#e9eff0",
  hatch: "#6b828e",
  /** The student's time and what lies within tolerance. */
  within: "#0a5a78",
  band: "#bcd6df",
  /** What lies beyond tolerance. */
  beyond: "#ad3d0b",
  /** Open bars. */
  open: "#f4ead0",
  openEdge: "#8a6a14",
} as const;
