/** Characters of a found text that a message quotes: our choice, because a longer quotation hides the message. */
const LONGEST_QUOTE = 40;

/** A found text as a message shows it: as a JSON string, cut to 40 characters. */
export function quoted(text: string): string {
  return JSON.stringify(text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}...` : text);
}
