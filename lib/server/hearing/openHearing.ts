import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { failure, type Result } from "../../base/index.js";
import { bodyTooLarge } from "../answer/bodyTooLarge.js";
import { serverProblem } from "../codes.js";
import { sayProblem } from "../say.js";
import type { HeardSound, HearingTask, HearingTerms } from "./hearSound.js";
import { type HeldSound, type Holding, type HoldingLimits, holdSound } from "./heldSound.js";

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

const PATIENCE = 60_000;
const WAITING_EACH = 4;
/** Memory of a thread, megabytes: our choice; an hour of sound without a backing is heard in a tenth of it. */
const THREAD_MEGABYTES = 512;

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
          return await inThread({ sound: holding.sound, terms }, patience);
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

/** Has a thread hear a recording, and ends the thread before anything of the recording is let go. */
async function inThread(task: HearingTask, patience: number): Promise<Result<HeardSound>> {
  // Beside this file once it is compiled.
  const worker = new Worker(new URL("./hearer.js", import.meta.url), {
    workerData: task satisfies { readonly sound: HeldSound },
    resourceLimits: { maxOldGenerationSizeMb: THREAD_MEGABYTES },
    // What a thread says of its end would stand in the log of the server.
    stderr: true,
    stdout: true,
  });
  let timer: NodeJS.Timeout | undefined;
  try {
    return await new Promise<Result<HeardSound>>((resolve) => {
      timer = setTimeout(() => resolve(notHeard()), patience);
      worker.once("message", resolve);
      worker.once("error", () => resolve(notHeard()));
      worker.once("exit", () => resolve(notHeard()));
    });
  } finally {
    clearTimeout(timer);
    await worker.terminate();
  }
}

function busy(): Result<never> {
  const message = sayProblem("server-problem.hearing-busy");
  return failure(serverProblem("HEARING_BUSY", message, {}, sayProblem("server-problem.hearing-busy-remedy")));
}

function notHeard(): Result<never> {
  const message = sayProblem("server-problem.recording-not-heard");
  return failure(
    serverProblem("RECORDING_NOT_HEARD", message, {}, sayProblem("server-problem.recording-not-heard-remedy")),
  );
}
