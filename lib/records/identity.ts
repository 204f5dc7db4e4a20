import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { uuidOf, uuidText, WEB_ADDRESSES } from "./uuid.js";
import { wellFormed } from "./wellFormed.js";

/** Bytes a key must have at least: 128 bits, below which NIST SP 800-131A (from memory) no longer accepts keys for message authentication (112). */
export const SHORTEST_KEY = 16;

/** Whether students are called by pseudonyms, which only those with the key can work out, or by the names the journals have. */
export type Naming = { readonly kind: "pseudonyms"; readonly key: Uint8Array } | { readonly kind: "names" };

/** How students and statements are called. */
export interface Identity {
  /** The name of a student's account. */
  nameOf(student: string): string;
  /** The UUID of something said about a student in a course; the same things said give the same UUID. */
  idOf(student: string, curriculum: string, what: readonly string[]): string;
}

/**
 * Names and ids at a school (its home page) and under an address for activities. Pseudonyms are HMAC-SHA-256 (RFC 2104) of home page and
 * name, so that another school, or the same one under another address, has others. With pseudonyms, ids are made in a name space that
 * takes the key to know: an id cannot be used to try out names either.
 */
export function identityAt(home: string, base: string, naming: Naming): Identity {
  // Written as JSON, no two different lists are the same text, whatever is in them.
  const keyed = (key: Uint8Array, ...words: readonly string[]): Uint8Array =>
    hmac(sha256, key, utf8ToBytes(JSON.stringify(words)));
  const space =
    naming.kind === "names"
      ? uuidOf(WEB_ADDRESSES, base)
      : uuidText(keyed(naming.key, "name space of statements", home, base), 8);
  const nameOf = (student: string): string =>
    naming.kind === "names" ? wellFormed(student) : bytesToHex(keyed(naming.key, "student", home, student));
  return {
    nameOf,
    idOf: (student, curriculum, what) => uuidOf(space, JSON.stringify([home, base, student, curriculum, ...what])),
  };
}
