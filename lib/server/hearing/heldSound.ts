import { createCipheriv, createDecipheriv, randomBytes } from "node:crypto";
import { readSync } from "node:fs";
import { type FileHandle, mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A recording while it is held: in memory, or in a file that nobody can read without the key, which is in memory alone. Threads of this process can be given it. */
export type HeldSound =
  | { readonly kind: "memory"; readonly pieces: readonly Uint8Array[] }
  | { readonly kind: "file"; readonly descriptor: number; readonly key: Uint8Array; readonly length: number };

/** Holds a recording. */
export interface Holding {
  readonly sound: HeldSound;
  /** Lets it go: nothing of it is left. */
  drop(): Promise<void>;
}

/** Bytes of a recording that are held in memory; our choice, a take as FLAC or MP3. More goes to the file. */
const MOST_IN_MEMORY = 8_000_000;

/** AES in counter mode: it is read from the beginning several times, and nobody can change it unseen who could not read this memory too. */
const CIPHER = "aes-256-ctr";
/** A key is used for one file, so that its counter may begin at 0. */
const START: Uint8Array = new Uint8Array(16);
const PORTION = 262_144;

/**
 * Takes in a recording in pieces: what is more than `memory` bytes goes to an encrypted file, which is deleted as soon as it is open, so that it is gone with
 * this process, however that ends. `undefined`, and nothing is held, when there are more than `most` bytes. Rejects as the pieces do, or when the disk cannot.
 */
export async function holdSound(
  pieces: AsyncIterable<Uint8Array>,
  { most, memory = MOST_IN_MEMORY, folder = tmpdir() }: HoldingLimits,
): Promise<Holding | undefined> {
  const held: Uint8Array[] = [];
  let length = 0;
  let file: SealedFile | undefined;
  try {
    for await (const piece of pieces) {
      length += piece.length;
      if (length > most) {
        await file?.close();
        return undefined;
      }
      if (file === undefined && length > memory) {
        file = await sealedFile(folder);
        for (const each of held.splice(0)) await file.add(each);
      }
      if (file === undefined) held.push(piece);
      else await file.add(piece);
    }
  } catch (error) {
    await file?.close();
    throw error;
  }
  if (file === undefined) return { sound: { kind: "memory", pieces: held }, drop: async () => void held.splice(0) };
  const { descriptor, key, close } = file;
  return { sound: { kind: "file", descriptor, key, length }, drop: close };
}

export interface HoldingLimits {
  /** Most bytes. */
  readonly most: number;
  /** Bytes in memory at most. */
  readonly memory?: number;
  readonly folder?: string;
}

interface SealedFile {
  readonly descriptor: number;
  readonly key: Uint8Array;
  add(piece: Uint8Array): Promise<void>;
  close(): Promise<void>;
}

async function sealedFile(folder: string): Promise<SealedFile> {
  const place = await mkdtemp(join(folder, "leeway-sound-"));
  const path = join(place, "sealed");
  let file: FileHandle;
  try {
    file = await open(path, "wx+", 0o600);
    // Windows deletes no open file: there it goes when it is closed.
    if (process.platform !== "win32") await rm(place, { recursive: true, force: true });
  } catch (error) {
    await rm(place, { recursive: true, force: true });
    throw error;
  }
  const key = randomBytes(32);
  const cipher = createCipheriv(CIPHER, key, START);
  let at = 0;
  let isOpen = true;
  return {
    descriptor: file.fd,
    key,
    add: async (piece) => {
      const sealed = cipher.update(piece);
      for (let from = 0; from < sealed.length; ) {
        const { bytesWritten } = await file.write(sealed, from, sealed.length - from, at);
        from += bytesWritten;
        at += bytesWritten;
      }
    },
    close: async () => {
      if (!isOpen) return;
      isOpen = false;
      key.fill(0);
      await file.close();
      await rm(place, { recursive: true, force: true });
    },
  };
}

/** The bytes of a held recording from the beginning, in pieces; as often as wanted, in any thread of the process. */
export async function* bytesHeld(sound: HeldSound): AsyncGenerator<Uint8Array> {
  if (sound.kind === "memory") {
    yield* sound.pieces;
    return;
  }
  const plain = createDecipheriv(CIPHER, sound.key, START);
  for (let at = 0; at < sound.length; ) {
    const piece = new Uint8Array(Math.min(PORTION, sound.length - at));
    const read = readSync(sound.descriptor, piece, 0, piece.length, at);
    if (read === 0) return;
    yield plain.update(piece.subarray(0, read));
    at += read;
  }
}
