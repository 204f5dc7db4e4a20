/** Text with lone surrogates replaced by U+FFFD. A text with lone surrogates is no valid Unicode, and record stores may refuse it. */
export function wellFormed(text: string): string {
  return text.replaceAll(/\p{Surrogate}/gu, "\ufffd");
}
