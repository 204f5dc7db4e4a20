import { createPublicKey, diffieHellman, generateKeyPairSync, hkdfSync, type KeyObject } from "node:crypto";
import { seal, unseal } from "./seal.js";

/**
 * How a worker is given the key of a recording by way of the database, which must never be able to read it: the worker makes a pair of keys for this one recording and writes down the public
 * one, the server seals the key for it, and both forget their private ones when the recording was heard (X25519, RFC 7748; HKDF with SHA-256, RFC 5869). Later nobody can open what was
 * written, not with the database, its logs and its backups together. Whoever may claim a recording in the database can hear it: a worker is just that.
 */
export interface KeyOffer {
  /** The public key, to be written down. */
  readonly offer: Buffer;
  /** The key that was handed over. Throws for one that was sealed for somebody else. */
  take(handed: Uint8Array): Buffer;
}

/** An offer to hear one recording. */
export function offerKey(): KeyOffer {
  const { publicKey, privateKey } = generateKeyPairSync("x25519");
  const offer = publicKey.export({ type: "spki", format: "der" });
  return {
    offer,
    take: (handed) => {
      const length = handed[0]!;
      const giver = handed.subarray(1, 1 + length);
      return unseal(shared(privateKey, publicOf(giver)), "key", handed.subarray(1 + length));
    },
  };
}

/** The key, sealed for whoever made the offer. */
export function handKey(key: Uint8Array, offer: Uint8Array): Buffer {
  const { publicKey, privateKey } = generateKeyPairSync("x25519");
  const giver = publicKey.export({ type: "spki", format: "der" });
  return Buffer.concat([Buffer.from([giver.length]), giver, seal(shared(privateKey, publicOf(offer)), "key", key)]);
}

function publicOf(written: Uint8Array): KeyObject {
  return createPublicKey({ key: Buffer.from(written), type: "spki", format: "der" });
}

function shared(privateKey: KeyObject, publicKey: KeyObject): Buffer {
  const secret = diffieHellman({ privateKey, publicKey });
  return Buffer.from(hkdfSync("sha256", secret, "", "leeway hearing", 32));
}
