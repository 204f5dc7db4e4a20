import { HARD_BLANK } from "../phrases.js";
import { INK } from "./palette.js";
import { element, escapeText, type Svg, visible } from "./svg.js";

/** Font sizes, px; the smallest is legible on a phone at reading distance (our choice: 11 px). */
export const SIZE = { title: 16, text: 13, small: 11 } as const;

/** Font families: a sans serif that the reader has installed. */
const FAMILY = "'Source Sans 3', 'Segoe UI', 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif";

// Advance widths of the ASCII characters from the blank on, in hundredths of the font size, of DejaVu Sans (read from the font, version 2.37).
// It is the widest of the common sans serifs, so a text that fits in it also fits in the font of the reader. Then the same for its bold face.
const WIDTHS = [
  32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
  84, 84, 53, 100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99, 69, 61,
  69, 39, 34, 39, 84, 50, 50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52, 39, 63, 59,
  82, 59, 59, 52, 64, 34, 64, 84,
];
const BOLD_WIDTHS = [
  35, 46, 52, 84, 70, 100, 87, 31, 46, 46, 52, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70, 40, 40, 84,
  84, 84, 58, 100, 77, 76, 73, 83, 68, 68, 82, 84, 37, 37, 77, 64, 100, 84, 85, 73, 85, 77, 72, 68, 81, 77, 110, 77, 72,
  73, 46, 37, 46, 84, 50, 50, 67, 72, 59, 72, 68, 44, 72, 71, 34, 34, 67, 34, 104, 71, 69, 72, 72, 49, 60, 48, 71, 65,
  92, 65, 65, 58, 71, 37, 71, 84,
];
/** Width of any other character: that of an ideograph. */
const WIDEST = 100;

export interface Lettering {
  readonly size?: number;
  readonly bold?: boolean;
  readonly fill?: string;
  readonly anchor?: "start" | "middle" | "end";
}

/** Marks above and below letters, which take no width: "é" is as wide as "e" in every common sans serif. */
const COMBINING = /\p{Mn}/gu;

/** Upper bound of the width of a text, px. */
export function widthOf(text: string, { size = SIZE.text, bold = false }: Lettering = {}): number {
  const widths = bold ? BOLD_WIDTHS : WIDTHS;
  let hundredths = 0;
  for (const character of visible(text).normalize("NFD").replaceAll(COMBINING, "").replaceAll(HARD_BLANK, " "))
    hundredths += widths[character.codePointAt(0)! - 32] ?? WIDEST;
  return (hundredths / 100) * size;
}

/** One line of text; `y` is its baseline. Empty for an empty text. */
export function line(text: string, x: number, y: number, lettering: Lettering = {}): Svg {
  const { size = SIZE.text, bold = false, fill = INK.ink, anchor } = lettering;
  const attributes = {
    x,
    y,
    "font-size": size,
    "font-weight": bold ? "bold" : undefined,
    fill,
    "text-anchor": anchor === "start" ? undefined : anchor,
  };
  return text === "" ? "" : element("text", attributes, escapeText(text));
}

/** The text, shortened with an ellipsis when it is wider than `width` px; empty when nothing fits. */
export function fitted(text: string, width: number, lettering: Lettering = {}): string {
  if (widthOf(text, lettering) <= width) return text;
  const characters = [...visible(text)].slice(0, 400);
  while (characters.length > 0 && widthOf(`${characters.join("").trimEnd()}…`, lettering) > width) characters.pop();
  return characters.length === 0 ? "" : `${characters.join("").trimEnd()}…`;
}

/**
 * Pieces between which a line may end: words with the blank after them, and each ideograph and kana with what must not begin a line after it (the classes ID,
 * CJ, CL and NS of Unicode Standard Annex 14, as far as texts of charts have them).
 */
const PIECES =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}][、。，．：；！？）」』〜ーぁぃぅぇぉっゃゅょァィゥェォッャュョ…]* *|[^ \p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]+ */gu;

/** Breaks a text at blanks, and between ideographs, into at most `most` lines of at most `width` px. A text that does not fit ends in an ellipsis. */
export function wrapped(
  text: string,
  width: number,
  { most = 4, ...lettering }: Lettering & { readonly most?: number } = {},
): string[] {
  const lines: string[] = [];
  let pieces: readonly string[] = visible(text).match(PIECES) ?? [];
  const joined = (count: number): string => pieces.slice(0, count).join("").replaceAll(/ +/g, " ").trimEnd();
  while (pieces.length > 0) {
    let count = 1;
    while (count < pieces.length && widthOf(joined(count + 1), lettering) <= width) count++;
    const last = lines.length + 1 === most;
    lines.push(fitted(joined(last ? pieces.length : count), width, lettering));
    pieces = last ? [] : pieces.slice(count);
  }
  return lines;
}

/** Room for the labels of an axis, with the gap after them, px: `least`, and more where a label is wider. */
export function labelRoom(labels: readonly string[], least: number): number {
  return Math.ceil(Math.max(least, ...labels.map((label) => widthOf(label, { size: SIZE.small }) + 8)));
}

/** SVG attributes of all text in a chart. */
export const LETTERING: Readonly<Record<string, string>> = { "font-family": FAMILY };
