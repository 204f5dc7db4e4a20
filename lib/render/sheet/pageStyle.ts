/** Colours of the page, our choice. Printed in grey they keep their order from dark to light: ink, accent, muted, faint. */
export const INK = "#1a1a1a";
/** Dark blue; about a third of the lightness of white, so dark grey in print without colour. */
export const ACCENT = "#1d5a73";
export const MUTED = "#595959";
export const FAINT = "#c4c4c4";

/** Height of a staff in points: 7 mm, as instrumental parts are printed (common practice, no source). */
export const STAFF: number = (7 / 25.4) * 72;

export const SIZES = {
  title: 25,
  longTitle: 19,
  name: 12,
  subtitle: 11.5,
  text: 10.5,
  label: 9,
  small: 8,
} as const;

/** Line spacing as a multiple of the font size. */
export const LEADING = 1.28;

export interface Paper {
  /** In points. */
  readonly width: number;
  readonly height: number;
  /** With units, for SVG. */
  readonly cssWidth: string;
  readonly cssHeight: string;
}

export type PaperName = "a4" | "letter";

/** ISO 216 A4 and ANSI A (US Letter). */
export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  a4: { width: 595.276, height: 841.89, cssWidth: "210mm", cssHeight: "297mm" },
  letter: { width: 612, height: 792, cssWidth: "8.5in", cssHeight: "11in" },
};

export type PrintSize = "usual" | "large";

/**
 * Factor by which everything is enlarged. Large print has letters of 16 points at least (common practice, no source): a text of 10.5 points becomes
 * 16.8, and a staff of 7 mm 11.2 mm.
 */
export const ENLARGED: Readonly<Record<PrintSize, number>> = { usual: 1, large: 1.6 };

/** Page margins in points: room for thumbs and for punched holes; our choice. */
export const MARGIN: { readonly side: number; readonly top: number; readonly bottom: number } = {
  side: 48,
  top: 44,
  bottom: 40,
};
