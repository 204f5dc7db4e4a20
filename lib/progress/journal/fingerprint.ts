import { canonicalJson } from "./canonicalJson.js";

/** Offset basis and prime of 64-bit FNV-1a (Fowler, Noll and Vo). */
const BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** Hash of data, as 16 hexadecimal digits: 64-bit FNV-1a of the UTF-8 bytes of its canonical JSON. Not secure against forgery. */
export function fingerprint(value: unknown): string {
  return fnv1a(canonicalJson(value));
}

/** 64-bit FNV-1a hash of the UTF-8 bytes of a text, as 16 hexadecimal digits. */
export function fnv1a(text: string): string {
  let hash = BASIS;
  for (const byte of new TextEncoder().encode(text)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash.toString(16).padStart(16, "0");
}
