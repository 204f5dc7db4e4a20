/** Octets of a content line before it is folded: RFC 5545, 3.1. */
const LONGEST = 75;

/**
 * A content line, folded so that no line is longer than 75 octets of UTF-8 and no character is split: RFC 5545, 3.1. The line has no line
 * end, and gets none.
 */
export function foldLine(line: string): string {
  let out = "";
  let length = 0;
  for (const character of line) {
    const octets = octetsOf(character);
    if (length + octets > LONGEST) {
      out += "\r\n ";
      length = 1;
    }
    out += character;
    length += octets;
  }
  return out;
}

/** Octets of a character in UTF-8. */
function octetsOf(character: string): number {
  const code = character.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
