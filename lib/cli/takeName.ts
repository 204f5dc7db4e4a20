import { createHash } from "node:crypto";
import { basename } from "node:path";
import type { Take } from "../index.js";

/** Hexadecimal digits of the fingerprint: 48 bits, so that a million takes of one name collide with probability 0.002. */
const DIGITS = 12;

/**
 * A name for a take that has none: the file's name and a fingerprint of what was played. The same take read again has the same
 * name, and so counts once; another take in a file of the same name does not.
 */
export function takeName(file: string, take: Take): string {
  const { onsets, zero, latencyMs } = take;
  const digest = createHash("sha256")
    .update(JSON.stringify([onsets, zero, latencyMs]))
    .digest("hex");
  return `${file === "standard input" ? "take" : basename(file.replace(/:\d+$/, ""))}#${digest.slice(0, DIGITS)}`;
}
