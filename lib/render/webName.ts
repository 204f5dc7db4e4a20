/** Letters that are no plain letter with a mark over or under it. */
const SPELT: Readonly<Record<string, string>> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  đ: "d",
  ð: "d",
  þ: "th",
  ł: "l",
  ı: "i",
};
/** Marks over and under letters, among the combining marks of Unicode. */
const MARKS = /[\u0300-\u036f]/g;

/**
 * A text as a part of a file name that a person reads, and that a web server needs no signs of escape for: small letters without marks, digits
 * and dots between digits stay, and whatever is between them becomes one hyphen. Letters of other writing systems stay as they are.
 *
 * At most `most` bytes of UTF-8; 60 when left out. The empty text for a text without letters and digits.
 *
 * @example
 * webName("Café, Take #2 at 92.5") // "cafe-take-2-at-92.5"
 */
export function webName(text: string, most = 60): string {
  const plain = text
    .normalize("NFKD")
    .replace(MARKS, "")
    .normalize("NFC")
    .toLowerCase()
    .normalize("NFKD")
    .replace(MARKS, "")
    .normalize("NFC")
    .replace(/[ßæœøđðþłı]/g, (letter) => SPELT[letter]!)
    .replace(/[^\p{L}\p{N}.]+/gu, "-")
    .replace(/(?<!\d)\.+|\.+(?!\d)/g, "-");
  return trimmed(cut(trimmed(plain), most));
}

/** What file systems that ignore case make of a name: equal for all names that they may treat as one. */
export function caseless(name: string): string {
  return name.normalize("NFKC").toUpperCase().normalize("NFKC").toLowerCase();
}

function trimmed(text: string): string {
  return text.replace(/-{2,}/g, "-").replace(/^[-.]+|[-.]+$/g, "");
}

/** The first letters of a text, in so many bytes. */
function cut(text: string, most: number): string {
  const encoder = new TextEncoder();
  let bytes = 0;
  let kept = "";
  for (const letter of text) {
    bytes += encoder.encode(letter).length;
    if (bytes > most) break;
    kept += letter;
  }
  return kept;
}
