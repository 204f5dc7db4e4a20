import { type BasicSoundBank, SoundBankLoader, SpessaLog, SpessaSynthProcessor } from "spessasynth_core";
import { failure, type Result, success } from "../../base/index.js";
import { soundProblem } from "./codes.js";
import type { SoundBank } from "./model.js";

/** The bytes of a RIFF chunk's name and size. */
const CHUNK_HEADER = 8;

/**
 * Reads a sound bank (SF2, SF3 or DLS) from its bytes. It can be used for any number of scores.
 *
 * Problem: SOUND_BANK_NOT_READ for other bytes, for a truncated bank, and for a bank without instruments.
 *
 * @example
 * const bank = await readSoundBank(bytes);
 */
export async function readSoundBank(bytes: Uint8Array): Promise<Result<SoundBank>> {
  const cut = cutShort(bytes);
  if (cut !== undefined) return notRead(cut);
  // The synthesiser would write its messages to the console; errors are reported as problems.
  SpessaLog.setLogLevel(false, false, false);
  try {
    const content = SoundBankLoader.fromArrayBuffer(bytes.slice().buffer);
    // Compressed banks need a decoder, which starts with the first processor.
    await new SpessaSynthProcessor(44100, { effectsEnabled: false, eventsEnabled: false }).processorInitialized;
    if (content.presets.length === 0) return notRead("it has no instruments");
    return success({ kind: "sound bank", name: String(content.soundBankInfo.name ?? ""), content });
  } catch (error) {
    return notRead(error instanceof Error ? error.message : "its bytes make no sense");
  }
}

/** The synthesiser's form of a bank. Throws `TypeError` for a value that is not from `readSoundBank`. */
export function contentOf(bank: SoundBank): BasicSoundBank {
  const content = bank.content as BasicSoundBank | undefined;
  if (bank.kind !== "sound bank" || !Array.isArray(content?.presets))
    throw new TypeError("a bank is what readSoundBank gives");
  return content;
}

function cutShort(bytes: Uint8Array): string | undefined {
  const name = String.fromCharCode(...bytes.subarray(0, 4));
  if (name !== "RIFF" && name !== "RIFS") return "a bank begins with the letters RIFF";
  if (name === "RIFS" || bytes.length < CHUNK_HEADER) return undefined;
  const stated = new DataView(bytes.buffer, bytes.byteOffset).getUint32(4, true) + CHUNK_HEADER;
  if (stated <= bytes.length) return undefined;
  return `it states ${stated} bytes, of which ${bytes.length} are there`;
}

function notRead(reason: string): Result<never> {
  const message = `cannot be used as a sound bank: it must be a whole SF2, SF3 or DLS file; ${reason}`;
  return failure(
    soundProblem(
      "SOUND_BANK_NOT_READ",
      message,
      {},
      "fetch the bank again, or leave it out to hear the built-in voices",
    ),
  );
}
