import { canonicalJson } from "./canonicalJson.js";

/** Offset basis and prime of 64-bit FNV-1a, as published by Fowler, Noll and Vo. */
const BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** 16 hexadecimal digits that tell data apart: 64-bit FNV-1a over the UTF-8 bytes of its canonical JSON. Not a safeguard against forgery. */
export function fingerprint(value: unknown): string {
  return fnv1a(canonicalJson(value));
}

/** 64-bit FNV-1a of the UTF-8 bytes of a text, as 16 hexadecimal digits. */
export function fnv1a(text: string): string {
  let hash = BASIS;
  for (const byte of new TextEncoder().encode(text)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash.toString(16).padStart(16, "0");
}
