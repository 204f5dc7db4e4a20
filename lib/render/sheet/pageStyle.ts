/** The look of the page: our own. Inks keep their order of darkness in grey: ink, accent, muted, faint. */
export const INK = "#1a1a1a";
/** A dark harbour blue; about a third of white's lightness, so dark grey when printed without colour. */
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

/** Distance of baselines as a multiple of the size. */
export const LEADING = 1.28;

export interface Paper {
  /** In points. */
  readonly width: number;
  readonly height: number;
  /** As SVG says it. */
  readonly cssWidth: string;
  readonly cssHeight: string;
}

export type PaperName = "a4" | "letter";

/** ISO 216 A4 and ANSI A (US Letter). */
export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  a4: { width: 595.276, height: 841.89, cssWidth: "210mm", cssHeight: "297mm" },
  letter: { width: 612, height: 792, cssWidth: "8.5in", cssHeight: "11in" },
};

/** White around the page: room for thumbs and for a binding's holes. */
export const MARGIN = { side: 48, top: 44, bottom: 40 } as const;
