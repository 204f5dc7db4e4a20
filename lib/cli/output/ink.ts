import pc from "picocolors";

/** What a word on the terminal is coloured for. */
export interface Ink {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  /** The blue of the charts: within tolerance, advice. */
  readonly blue: (text: string) => string;
  /** The rust of the charts: beyond tolerance, errors. */
  readonly rust: (text: string) => string;
}

/**
 * The pair of colours of the charts, in the colours of terminals that are nearest to them and can be read on black and on white (31 and 130 of the
 * 256: 4:1 or more on either). Without colour, texts stay as they are.
 */
export function inkFor(colour: boolean): Ink {
  const { bold, dim } = pc.createColors(colour);
  const coloured = (place: number) => (text: string) => (colour ? `\u001b[38;5;${place}m${text}\u001b[39m` : text);
  return { bold, dim, blue: coloured(31), rust: coloured(130) };
}
