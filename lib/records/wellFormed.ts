/** The text with halves of characters that have lost their other half replaced by U+FFFD: such texts are no Unicode, and not everybody takes them. */
export function wellFormed(text: string): string {
  return text.replaceAll(/\p{Surrogate}/gu, "\ufffd");
}
