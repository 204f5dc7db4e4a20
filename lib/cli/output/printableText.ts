/**
 * Replaces control characters, format characters (Unicode category Cf: directions, zero-width characters, tags), line and paragraph separators and halves of
 * surrogate pairs by `·`: text from a file must neither control the terminal nor hide in it. Line ends and tabs are control characters too.
 */
export function plain(text: string): string {
  return text.replaceAll(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, "·");
}
