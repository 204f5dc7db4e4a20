import { createHash } from "node:crypto";

/**
 * The digest under which a secret is kept: SHA-256, without salt, as a secret has 128 random bits and cannot be guessed from a list.
 */
export function digestOf(secret: string | Uint8Array): string {
  return createHash("sha256").update(secret).digest("hex");
}
