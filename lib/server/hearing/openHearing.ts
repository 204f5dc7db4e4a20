import { availableParallelism } from "node:os";
import type { Result } from "../../base/index.js";
import { bodyTooLarge } from "../answer/bodyTooLarge.js";
import { hearInThread, PATIENCE } from "./hearInThread.js";
import { busy } from "./hearingProblems.js";
import type { HeardSound, HearingTerms } from "./hearSound.js";
import { type Holding, type HoldingLimits, holdSound } from "./heldSound.js";

/** Hears the recordings that a school is sent. */
export interface Hearing {
  /**
   * Takes a recording in, hears it, and lets it go. Problems: HEARING_BUSY, at once, when there is no place or this person has one already; BODY_TOO_LARGE; RECORDING_NOT_HEARD
   * when hearing it took too long or too much memory; and those of the recording.
   */
  hear(
    who: string,
    pieces: AsyncIterable<Uint8Array>,
    terms: HearingTerms & { readonly most: number },
  ): Promise<Result<HeardSound>>;
  /** Recordings that are held now. */
  readonly held: number;
}

export interface HearingOptions {
  /** Threads at once; one fewer than there are cores, and at least one, when left out. */
  readonly threads?: number;
  /** Recordings that may wait beside those that are being heard; four for each thread when left out: our choice, half a minute. */
  readonly waiting?: number;
  /** Milliseconds that hearing one may take; 60,000 when left out. */
  readonly patience?: number;
  /** Where recordings that are too large for the memory are, encrypted; the system's folder of temporary files when left out. */
  readonly folder?: string;
  /** Bytes of a recording that are held in memory. */
  readonly memory?: number;
}

const WAITING_EACH = 4;

/** Hears in threads, each for one recording, so many at once: one that breaks its thread, or is never through, takes nothing from the others. */
export function openHearing({
  threads = Math.max(1, availableParallelism() - 1),
  ...options
}: HearingOptions = {}): Hearing {
  const { waiting = WAITING_EACH * threads, patience = PATIENCE, folder, memory } = options;
  const inside = new Set<string>();
  const queue: (() => void)[] = [];
  let free = threads;
  const turn = async (): Promise<void> => {
    if (free > 0) free -= 1;
    else await new Promise<void>((resolve) => queue.push(resolve));
  };
  const done = (): void => {
    const next = queue.shift();
    if (next === undefined) free += 1;
    else next();
  };
  return {
    get held() {
      return inside.size;
    },
    hear: async (who, pieces, { most, ...terms }) => {
      if (inside.has(who) || inside.size >= threads + waiting) return busy();
      inside.add(who);
      let holding: Holding | undefined;
      try {
        const limits: HoldingLimits = { most, ...(folder && { folder }), ...(memory !== undefined && { memory }) };
        holding = await holdSound(pieces, limits);
        if (holding === undefined) return bodyTooLarge(most);
        await turn();
        try {
          return await hearInThread({ sound: holding.sound, terms }, patience);
        } finally {
          done();
        }
      } finally {
        await holding?.drop();
        inside.delete(who);
      }
    },
  };
}
