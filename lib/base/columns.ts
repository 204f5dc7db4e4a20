import stringWidth from "fast-string-width";

/**
 * The columns of a terminal that a text takes: an ideograph, a kana and an emoji two, a combining mark none, other characters one (Unicode Standard Annex 11,
 * East Asian Width; what it calls ambiguous counts one).
 *
 * @example columnsOf("休憩") // 4
 */
export function columnsOf(text: string): number {
  return stringWidth(text);
}

/**
 * The text with blanks after it up to so many columns; a text that is wider stays as it is.
 *
 * @example padColumns("休憩", 6) // "休憩  "
 */
export function padColumns(text: string, columns: number): string {
  return text + " ".repeat(Math.max(0, columns - columnsOf(text)));
}
