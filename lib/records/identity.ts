import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { uuidOf, uuidText, WEB_ADDRESSES } from "./uuid.js";
import { wellFormed } from "./wellFormed.js";

/** Least length of a key in bytes: 128 bits. For message authentication NIST SP 800-131A (from memory) accepts no key of less than 112. */
export const SHORTEST_KEY = 16;

/** Naming of students: by pseudonyms, which only holders of the key can work out, or by their names in the journals. */
export type Naming = { readonly kind: "pseudonyms"; readonly key: Uint8Array } | { readonly kind: "names" };

/** Account names of students and ids of statements. */
export interface Identity {
  /** Account name of a student. */
  nameOf(student: string): string;
  /** UUID of a statement about a student in a course. Equal arguments give equal UUIDs. */
  idOf(student: string, curriculum: string, what: readonly string[]): string;
}

/**
 * Names and ids at a school (its home page) and under an address for activities. Pseudonyms are HMAC-SHA-256 (RFC 2104) of home page and
 * name, so that another school, or the same one under another address, has others. With pseudonyms the name space of ids is made with the
 * key too: without it nobody can try out names against an id.
 */
export function identityAt(home: string, base: string, naming: Naming): Identity {
  // As JSON, two different lists are never the same text, whatever is in them.
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
