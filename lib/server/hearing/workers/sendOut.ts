import { randomUUID } from "node:crypto";
import { failure, type Result } from "../../../base/index.js";
import { bodyTooLarge } from "../../answer/bodyTooLarge.js";
import { serverProblem } from "../../codes.js";
import { sayProblem } from "../../say.js";
import { busy, notHeard } from "../hearingProblems.js";
import type { HeardSound } from "../hearSound.js";
import type { Hearing } from "../openHearing.js";
import { type Jobs, MOST_TRIES } from "./jobs.js";
import { handKey } from "./keyOffer.js";
import { newKey, seal, unseal } from "./seal.js";

export interface SendingOptions {
  /** Recordings that this server has with workers at once; 64 when left out: our choice. None of them is in its memory. */
  readonly waiting?: number;
  /** Milliseconds that one may wait and be heard; 180,000 when left out: our choice, less than an answer may take. */
  readonly patience?: number;
  /** Milliseconds without a sign of life after which a worker is taken to be dead; 6000 when left out: our choice, a busy machine halts for a second. */
  readonly silence?: number;
}

/** A recording that a server has given away: the key, which is nowhere else, and what is done when it is settled. */
interface Waiting {
  readonly key: Buffer;
  readonly settle: (outcome: Result<HeardSound>) => void;
}

/** Milliseconds between looks at what is with workers: our choice, one short statement for all of them. */
const LOOK = 100;
/** Bytes of a piece. */
const PART = 262_144;

/** Hearing for a school's server: every recording goes to the workers of a queue, sealed, and what they heard comes back. */
export function sendOut(
  jobs: Jobs,
  { waiting: most = 64, patience = 180_000, silence = 6000 }: SendingOptions = {},
): Hearing {
  const inside = new Set<string>();
  const waiting = new Map<string, Waiting>();
  let isLooking = false;
  const look = async (): Promise<void> => {
    const asked = [...waiting.keys()];
    const seen = new Map((await jobs.look(asked, silence)).map((each) => [each.job, each]));
    for (const job of asked) {
      const wait = waiting.get(job);
      const found = seen.get(job);
      // The database had a crash: what is not logged is gone, and the recording has to come again.
      if (found === undefined) wait?.settle(busy());
      else if (found.result !== null) wait?.settle(resultIn(job, found.result, wait.key));
      else if (found.isDead && found.tries >= MOST_TRIES) wait?.settle(notHeard());
      else if (found.isDead) await jobs.takeBack(job);
      else if (found.offer !== null && !found.isHanded && wait !== undefined)
        await jobs.hand(job, found.offer, handKey(wait.key, found.offer));
    }
  };
  const lookOn = async (): Promise<void> => {
    if (isLooking) return;
    isLooking = true;
    for (; waiting.size > 0; await new Promise((resolve) => setTimeout(resolve, LOOK))) {
      // A database that cannot at the moment is asked again, until the patience of each is over.
      await look().catch(() => undefined);
    }
    isLooking = false;
  };
  const settled = (job: string, key: Buffer): Promise<Result<HeardSound>> =>
    new Promise((resolve) => {
      const late = setTimeout(() => resolve(busy()), patience);
      const settle = (outcome: Result<HeardSound>): void => {
        clearTimeout(late);
        resolve(outcome);
      };
      waiting.set(job, { key, settle });
      void lookOn();
    });
  return {
    get held() {
      return inside.size;
    },
    hear: async (who, pieces, { most: bytes, ...terms }) => {
      if (inside.has(who) || inside.size >= most) return busy();
      inside.add(who);
      const [job, key] = [randomUUID(), newKey()];
      try {
        await jobs.begin(job, seal(key, `${job} terms`, Buffer.from(JSON.stringify(terms))));
        let [length, parts] = [0, 0];
        for await (const part of partsOf(pieces)) {
          length += part.length;
          if (length > bytes) return bodyTooLarge(bytes);
          await jobs.addPart(job, parts, seal(key, `${job} ${parts}`, part));
          parts += 1;
        }
        await jobs.send(job, parts);
        return await settled(job, key);
      } catch (error) {
        if (!isOfDatabase(error)) throw error;
        return storeFailed();
      } finally {
        waiting.delete(job);
        key.fill(0);
        await jobs.drop(job).catch(() => undefined);
        inside.delete(who);
      }
    },
  };
}

function resultIn(job: string, sealed: Buffer, key: Buffer): Result<HeardSound> {
  try {
    return JSON.parse(unseal(key, `${job} result`, sealed).toString()) as Result<HeardSound>;
  } catch {
    return notHeard();
  }
}

/** Bytes in pieces of one size, the last one smaller. */
async function* partsOf(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Buffer> {
  let [held, length]: [Uint8Array[], number] = [[], 0];
  for await (const piece of pieces) {
    held.push(piece);
    length += piece.length;
    if (length < PART) continue;
    const whole = Buffer.concat(held);
    let at = 0;
    for (; length - at >= PART; at += PART) yield whole.subarray(at, at + PART);
    [held, length] = [[whole.subarray(at)], length - at];
  }
  if (length > 0) yield Buffer.concat(held);
}

/** Errors of PostgreSQL and of sockets have a code; the driver's words for a lost connection have none. */
function isOfDatabase(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  return (
    /^(?:[0-9A-Z]{5}|E[A-Z_]+)$/.test(String((error as { code?: unknown }).code)) || /onnection/.test(error.message)
  );
}

function storeFailed(): Result<never> {
  const message = sayProblem("server-problem.school-store-failed");
  return failure(
    serverProblem("SCHOOL_STORE_FAILED", message, {}, sayProblem("server-problem.school-store-failed-remedy")),
  );
}
