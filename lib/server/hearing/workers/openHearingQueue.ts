import { failure, notInstalled, type Problem, success } from "../../../base/index.js";
import { serverProblem } from "../../codes.js";
import type { Result } from "../../problem.js";
import { sayProblem } from "../../say.js";
import type { Hearing } from "../openHearing.js";
import { openJobs, SCHEMA } from "./jobs.js";
import { type SendingOptions, sendOut } from "./sendOut.js";
import { type Working, type WorkingOptions, work } from "./work.js";

/** Recordings on their way between the servers of a school and the workers that hear them. */
export interface HearingQueue {
  /** For a server: `openSchool({ ..., hearing: queue.hearing() })`. */
  hearing(options?: SendingOptions): Hearing;
  /** For a worker: hears what servers send, until it is told to end. */
  work(options?: WorkingOptions): Working;
  close(): Promise<void>;
}

/** Connections of a queue: our choice. A recording that comes in uses one, and all that are waited for share one. */
const CONNECTIONS = 6;

/**
 * Opens the queue of recordings in a PostgreSQL database, and makes its tables (schema `leeway_hearing`) where there are none. Everything of a recording is sealed in it with a key that is in
 * the memory of its server and of the worker that hears it, and nowhere else.
 *
 * Problems: HEARING_QUEUE_DRIVER_MISSING without the optional package `pg-boss`, HEARING_QUEUE_UNUSABLE when the database cannot be reached or does not let its tables be made.
 * @example
 * const queue = await openHearingQueue("postgresql://school@localhost/leeway");
 */
export async function openHearingQueue(url: string): Promise<Result<HearingQueue>> {
  const driver = await import("pg-boss").catch(notInstalled);
  if (driver === undefined) {
    const message = sayProblem("server-problem.hearing-queue-driver-missing");
    const remedy = sayProblem("server-problem.hearing-queue-driver-missing-remedy");
    return failure(serverProblem("HEARING_QUEUE_DRIVER_MISSING", message, {}, remedy));
  }
  const boss = new driver.default({
    connectionString: url,
    application_name: "leeway hearing",
    schema: SCHEMA,
    max: CONNECTIONS,
    // Nothing is to be heard at a time of day.
    schedule: false,
  });
  // A lost connection fails what was asked, and the next question opens another.
  boss.on("error", () => undefined);
  const stop = (): Promise<void> => boss.stop({ graceful: false });
  try {
    await boss.start();
    const jobs = await openJobs(boss);
    return success({
      hearing: (options) => sendOut(jobs, options),
      work: (options) => work(jobs, options),
      close: stop,
    });
  } catch (error) {
    await stop();
    return failure(unusable(error));
  }
}

function unusable(error: unknown): Problem<"HEARING_QUEUE_UNUSABLE"> {
  // What a driver says of an address may have a password in it; a code of PostgreSQL or of a socket has none.
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const message = sayProblem("server-problem.hearing-queue-unusable", { coded: code === "" ? "bare" : "coded", code });
  const remedy = sayProblem("server-problem.hearing-queue-unusable-remedy");
  return serverProblem("HEARING_QUEUE_UNUSABLE", message, {}, remedy);
}
