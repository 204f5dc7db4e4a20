import { createHash } from "node:crypto";

/** Hexadecimal digits kept: 128 bits, so that no two events of any school share one by accident. */
const DIGITS = 32;

/** SHA-256 of a text in UTF-8, shortened. */
export function digestOf(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, DIGITS);
}
