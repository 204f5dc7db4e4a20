import { Worker } from "node:worker_threads";
import type { Result } from "../../base/index.js";
import { notHeard } from "./hearingProblems.js";
import type { HeardSound, HearingTask } from "./hearSound.js";

/** Memory of a thread, megabytes: our choice; an hour of sound without a backing is heard in a tenth of it. */
const THREAD_MEGABYTES = 512;

/** Milliseconds that hearing one recording may take: our choice. */
export const PATIENCE = 60_000;

/** Has a thread hear a recording, and ends the thread before anything of the recording is let go. */
export async function hearInThread(task: HearingTask, patience: number): Promise<Result<HeardSound>> {
  // Beside this file once it is compiled.
  const worker = new Worker(new URL("./hearer.js", import.meta.url), {
    workerData: task,
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
