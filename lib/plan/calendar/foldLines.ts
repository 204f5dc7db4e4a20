/** Octets of a content line before it is folded: RFC 5545, 3.1. */
const LONGEST = 75;

/**
 * Content lines folded anew so that none is longer than 75 octets of UTF-8 and no character is split: RFC 5545, 3.1. Lines that were folded
 * before are unfolded first. Lines end with CRLF.
 */
export function foldLines(text: string): string {
  return text
    .replace(/\r\n[ \t]/g, "")
    .split("\r\n")
    .map(folded)
    .join("\r\n");
}

function folded(line: string): string {
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
