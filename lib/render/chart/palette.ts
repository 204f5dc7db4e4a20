/**
 * The colours of the charts. Blue and rust are distinguishable with all common kinds of colour blindness. Colour is never the only difference:
 * verdicts also differ in shape, areas in pattern. Contrast on `paper` is checked in the tests: text 4.5:1 or more, marks 3:1 or more (WCAG 2.2,
 * success criteria 1.4.3 and 1.4.11).
 */
export const INK = {
  paper: "#fcfbf7",
  /** Titles and notes. */
  ink: "#14222c",
  /** Axes and asides. */
  muted: "#52606a",
  /** Bar lines and grid: in the background, never needed to read the chart. */
  hair: "#c9cfd2",
  /** Sounding parts. */
  sound: "#3d5563",
  /** Silence: background and hatching. */
  still: "#e9eff0",
  hatch: "#6b828e",
  /** The student's timing, and results within tolerance. */
  within: "#0a5a78",
  band: "#bcd6df",
  /** Results beyond tolerance. */
  beyond: "#ad3d0b",
  /** Open bars. */
  open: "#f4ead0",
  openEdge: "#8a6a14",
} as const;
