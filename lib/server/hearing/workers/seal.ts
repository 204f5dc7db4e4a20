import { createCipheriv, createDecipheriv, randomBytes } from "node:crypto";

/** Authenticated, so that whoever can write in the database cannot change what is heard unseen: AES-256 in Galois/counter mode (NIST SP 800-38D). */
const CIPHER = "aes-256-gcm";
/** Bytes of a nonce and of a tag (NIST SP 800-38D, 5.2.1). A key seals some hundred pieces, far fewer than the 2^32 for which nonces may be drawn at random (8.3). */
const NONCE = 12;
const TAG = 16;

/** A key for one recording. */
export function newKey(): Buffer {
  return randomBytes(32);
}

/** Bytes that nobody can read without the key, or put in the place of others: `label` says what they are. */
export function seal(key: Uint8Array, label: string, bytes: Uint8Array): Buffer {
  const nonce = randomBytes(NONCE);
  const cipher = createCipheriv(CIPHER, key, nonce).setAAD(Buffer.from(label));
  const sealed = cipher.update(bytes);
  return Buffer.concat([nonce, sealed, cipher.final(), cipher.getAuthTag()]);
}

/** What was sealed; throws for another key, another label, or changed bytes. */
export function unseal(key: Uint8Array, label: string, sealed: Uint8Array): Buffer {
  const end = sealed.length - TAG;
  const plain = createDecipheriv(CIPHER, key, sealed.subarray(0, NONCE), { authTagLength: TAG })
    .setAAD(Buffer.from(label))
    .setAuthTag(sealed.subarray(end));
  return Buffer.concat([plain.update(sealed.subarray(NONCE, end)), plain.final()]);
}
