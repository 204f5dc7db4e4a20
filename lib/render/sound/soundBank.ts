import type { BasicSoundBank, SpessaSynthProcessor } from "spessasynth_core";
import { failure, notInstalled, type Phrase, success } from "../../base/index.js";
import type { Result } from "../problem.js";
import { soundProblem } from "./codes.js";
import type { SoundBank } from "./model.js";
import { sayProblem } from "./say.js";

/** The bytes of a RIFF chunk's name and size. */
const CHUNK_HEADER = 8;

/**
 * Reads a sound bank (SF2, SF3 or DLS) from its bytes. It can be used for any number of scores.
 *
 * Problems: SYNTHESISER_MISSING without the optional package `spessasynth_core`; SOUND_BANK_NOT_READ for other bytes, for a truncated bank, and for a bank without instruments.
 *
 * @example
 * const bank = await readSoundBank(bytes);
 */
export async function readSoundBank(bytes: Uint8Array): Promise<Result<SoundBank>> {
  const cut = cutShort(bytes);
  if (cut !== undefined) return notRead(cut);
  const library = await import("spessasynth_core").catch(notInstalled);
  if (library === undefined) {
    const message = sayProblem("sound-problem.synthesiser-missing");
    const remedy = sayProblem("sound-problem.synthesiser-missing-remedy");
    return failure(soundProblem("SYNTHESISER_MISSING", message, {}, remedy));
  }
  const { SoundBankLoader, SpessaLog, SpessaSynthProcessor: Synthesiser } = library;
  // The synthesiser would write its messages to the console; errors are reported as problems.
  SpessaLog.setLogLevel(false, false, false);
  try {
    const instruments = SoundBankLoader.fromArrayBuffer(bytes.slice().buffer);
    // Compressed banks need a decoder, which starts with the first processor.
    await new Synthesiser(44100, { effectsEnabled: false, eventsEnabled: false }).processorInitialized;
    if (instruments.presets.length === 0) return notRead(BECAUSE.empty);
    const content: BankContent = { instruments, Synthesiser };
    return success({ kind: "sound bank", name: String(instruments.soundBankInfo.name ?? ""), content });
  } catch (error) {
    return notRead(error instanceof Error ? error.message : BECAUSE.senseless);
  }
}

/** What plays a bank: its instruments as the synthesiser has them, and the synthesiser. */
interface BankContent {
  readonly instruments: BasicSoundBank;
  readonly Synthesiser: typeof SpessaSynthProcessor;
}

/** What plays a bank. Throws `TypeError` for a value that is not from `readSoundBank`. */
export function contentOf(bank: SoundBank): BankContent {
  const content = bank.content as BankContent | undefined;
  if (bank.kind !== "sound bank" || !Array.isArray(content?.instruments?.presets))
    throw new TypeError("a bank is what readSoundBank gives");
  return content;
}

/** Why bytes are no bank, where no number belongs to it. */
const BECAUSE = {
  begins: { key: "sound-problem.bank-begins", parameters: {} },
  empty: { key: "sound-problem.bank-empty", parameters: {} },
  senseless: { key: "sound-problem.bank-senseless", parameters: {} },
} as const;

function cutShort(bytes: Uint8Array): Phrase | undefined {
  const name = String.fromCharCode(...bytes.subarray(0, 4));
  if (name !== "RIFF" && name !== "RIFS") return BECAUSE.begins;
  if (name === "RIFS" || bytes.length < CHUNK_HEADER) return undefined;
  const stated = new DataView(bytes.buffer, bytes.byteOffset).getUint32(4, true) + CHUNK_HEADER;
  if (stated <= bytes.length) return undefined;
  return { key: "sound-problem.bank-cut", parameters: { stated: String(stated), found: String(bytes.length) } };
}

/** `reason`: ours, or what the synthesiser said. */
function notRead(reason: Phrase | string): Result<never> {
  const message = sayProblem("sound-problem.sound-bank-not-read", { reason });
  const remedy = sayProblem("sound-problem.sound-bank-not-read-remedy");
  return failure(soundProblem("SOUND_BANK_NOT_READ", message, {}, remedy));
}
