import { failure, type Result } from "../../base/index.js";
import type { PlayedOnset, Take } from "../../schema/index.js";
import type { Following } from "../../take/index.js";
import { browserProblem } from "../codes.js";
import { say } from "../say.js";
import type { HeardTake, Hearing, HearingTerms } from "./hearing.js";

/** What a worker is asked. */
export type Asked =
  | { readonly kind: "begin"; readonly terms: HearingTerms }
  | { readonly kind: "block"; readonly rate: number; readonly samples: Float32Array }
  | { readonly kind: "note"; readonly note: PlayedOnset }
  | { readonly kind: "now"; readonly at: number }
  | { readonly kind: "finish"; readonly advice: Take["advice"] };

interface Answer {
  readonly ready?: true;
  readonly following?: Following;
  readonly heard?: Result<HeardTake>;
  readonly failed?: string;
}

/** Longest wait for a worker to begin, milliseconds; our choice: a phone reads its file in less. */
const PATIENCE = 5000;

/** Hears a take in a worker at this address; `undefined` when none begins there, as for a page opened from a file. */
export async function hearInWorker(
  address: string | URL,
  terms: HearingTerms,
  tell: (following: Following) => void,
): Promise<Hearing | undefined> {
  const worker = await begunWorker(address);
  if (worker === undefined) return undefined;
  let done: (heard: Result<HeardTake>) => void = () => undefined;
  const failed = (why: string): void => {
    done(failure(browserProblem("LISTENING_FAILED", say("browser.problem.listening-failed", { why }))));
  };
  const ask = (asked: Asked): void => worker.postMessage(asked);
  worker.onmessage = ({ data }: MessageEvent<Answer>) => {
    if (data.following !== undefined) tell(data.following);
    if (data.heard !== undefined) done(data.heard);
    if (data.failed !== undefined) failed(data.failed);
  };
  worker.onerror = ({ message }) => failed(message);
  ask({ kind: "begin", terms });
  return {
    push: ({ rate, samples }) => ask({ kind: "block", rate, samples }),
    note: (note) => ask({ kind: "note", note }),
    now: (at) => ask({ kind: "now", at }),
    finish: (advice) =>
      new Promise((resolve) => {
        done = resolve;
        ask({ kind: "finish", advice });
      }),
    close: () => worker.terminate(),
  };
}

async function begunWorker(address: string | URL): Promise<Worker | undefined> {
  try {
    const worker = new Worker(address);
    const isReady = await new Promise<boolean>((resolve) => {
      worker.onmessage = () => resolve(true);
      worker.onerror = () => resolve(false);
      setTimeout(() => resolve(false), PATIENCE);
    });
    if (isReady) return worker;
    worker.terminate();
  } catch {
    // A policy or a page from a file allows no worker: the page hears by itself.
  }
  return undefined;
}
