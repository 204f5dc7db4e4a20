import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { type Random, random } from "../../../lib/base/index.js";

/**
 * A player's luck in one take: a stream of random numbers for each purpose, found by its address and not by how much was drawn before. So a player
 * who takes up one more habit plays the same take otherwise. Streams of different purposes, takes, materials and players are unrelated (the address is
 * hashed by SHA-256 before it seeds the stream).
 */
export type Luck = (purpose: string) => Random;

/** `address` names player, material and take, whatever is needed to tell two takes apart. */
export function luckOf(...address: readonly (string | number)[]): Luck {
  const place = address.join("\u0000");
  return (purpose) => random(bytesToHex(sha256(`${place}\u0000${purpose}`)));
}

/** `count` standard normal numbers of one purpose. */
export function normals(luck: Luck, purpose: string, count: number): Float64Array {
  const stream = luck(purpose);
  return Float64Array.from({ length: count }, () => stream.normal());
}

/** `count` numbers uniform on [0, 1) of one purpose. */
export function uniforms(luck: Luck, purpose: string, count: number): Float64Array {
  const stream = luck(purpose);
  return Float64Array.from({ length: count }, () => stream.uniform());
}
