import { sha1 } from "@noble/hashes/legacy.js";
import { bytesToHex, hexToBytes, utf8ToBytes } from "@noble/hashes/utils.js";

/** Name space of web addresses: RFC 4122, appendix C. */
export const WEB_ADDRESSES = "6ba7b811-9dad-11d1-80b4-00c04fd430c8";

/**
 * UUID of a name in a name space (itself a UUID): version 5, RFC 4122, section 4.3, from the SHA-1 of both. The same name gives the same UUID.
 *
 * @example uuidOf("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com") // "2ed6657d-e927-568b-95e1-2665a8aea6a2"
 */
export function uuidOf(space: string, name: string): string {
  const digest = sha1(Uint8Array.from([...hexToBytes(space.replaceAll("-", "")), ...utf8ToBytes(name)]));
  return uuidText(digest, 5);
}

/** UUID from the first sixteen bytes, with the six bits of version and variant set (RFC 4122, section 4.1). */
export function uuidText(bytes: Uint8Array, version: 5 | 8): string {
  const octets = bytes.slice(0, 16);
  octets[6] = (octets[6]! & 0x0f) | (version << 4);
  octets[8] = (octets[8]! & 0x3f) | 0x80;
  return bytesToHex(octets).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
