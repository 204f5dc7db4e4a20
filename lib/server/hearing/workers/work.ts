import { availableParallelism } from "node:os";
import { SOUND_BODY } from "../../operations/limits.js";
import { hearInThread, PATIENCE } from "../hearInThread.js";
import type { HearingTerms } from "../hearSound.js";
import { holdSound } from "../heldSound.js";
import { type Jobs, SIGN } from "./jobs.js";
import { offerKey } from "./keyOffer.js";
import { seal, unseal } from "./seal.js";

export interface WorkingOptions {
  /** Recordings heard at once, each in a thread of its own; as many as there are cores when left out. */
  readonly threads?: number;
  /** Milliseconds that hearing one may take; 60,000 when left out. */
  readonly patience?: number;
  /** Told of each recording that was heard: milliseconds it took. */
  readonly heard?: (ms: number) => void;
}

/** A worker at work. */
export interface Working {
  /** Takes no more recordings, and resolves when those that are being heard are. */
  end(): Promise<void>;
}

/** Milliseconds between questions for a recording, where there was none; and between looks for the key: our choices. */
const ASK = 200;
const LOOK = 50;
/** Milliseconds for which a worker waits for the key of a recording: whoever has it is dead then. Our choice, a busy server halts for a second. */
const KEY_WITHIN = 6000;
/** How often what nobody asks for any more is removed. */
const SWEEP = 60_000;

/** Hears recordings of a queue until it is told to end. A database that cannot at the moment is asked again. */
export function work(jobs: Jobs, options: WorkingOptions = {}): Working {
  const { threads = availableParallelism(), patience = PATIENCE, heard } = options;
  let isOver = false;
  const loop = async (): Promise<void> => {
    while (!isOver) {
      const began = performance.now();
      const job = await jobs.next().catch(() => undefined);
      if (job === undefined) await pause(ASK);
      // What was not done is done by another, once there is no more sign of life.
      else if (await hearOne(jobs, job, patience).catch(() => false)) heard?.(performance.now() - began);
    }
  };
  const sweep = (): void => void jobs.removeStale().catch(() => undefined);
  sweep();
  const sweeping = setInterval(sweep, SWEEP);
  const loops = Array.from({ length: threads }, loop);
  return {
    end: async () => {
      isOver = true;
      clearInterval(sweeping);
      await Promise.all(loops);
    },
  };
}

/** Hears one; false when nobody waits for it, or it is no longer this worker's. */
async function hearOne(jobs: Jobs, job: string, patience: number): Promise<boolean> {
  const { offer, take } = offerKey();
  const claimed = await jobs.claim(job, offer);
  if (claimed === undefined) return false;
  const handed = await keyFor(jobs, job, offer);
  if (handed === undefined) {
    // The key went with its server: nobody can ever hear this.
    await jobs.drop(job);
    return false;
  }
  const key = take(handed);
  const signs = setInterval(() => void jobs.sign(job, offer).catch(() => undefined), SIGN);
  const parts = async function* (): AsyncGenerator<Uint8Array> {
    for (let part = 0; part < claimed.parts; part++) {
      const sealed = await jobs.part(job, part);
      if (sealed === undefined) throw new Error("the recording is not there any more");
      yield unseal(key, `${job} ${part}`, sealed);
    }
  };
  try {
    const terms = JSON.parse(unseal(key, `${job} terms`, claimed.terms).toString()) as HearingTerms;
    const holding = (await holdSound(parts(), { most: SOUND_BODY }))!;
    try {
      const result = await hearInThread({ sound: holding.sound, terms }, patience);
      await jobs.finish(job, offer, seal(key, `${job} result`, Buffer.from(JSON.stringify(result))));
    } finally {
      await holding.drop();
    }
  } finally {
    clearInterval(signs);
    key.fill(0);
  }
  return true;
}

/** The key as its server seals it for the offer; `undefined` when the server is dead. */
async function keyFor(jobs: Jobs, job: string, offer: Buffer): Promise<Buffer | undefined> {
  for (let waited = 0; waited < KEY_WITHIN; waited += LOOK) {
    const handed = await jobs.handed(job, offer);
    if (handed !== undefined) return handed;
    await pause(LOOK);
  }
  return undefined;
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
