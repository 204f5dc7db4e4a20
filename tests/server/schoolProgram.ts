import { openHearingQueue, openSchool, serveSchool } from "../../lib/server/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { quay } from "../practice/quay.js";

/** A server of a school, or a worker, as a program of its own: `school.mjs serve URL PORT` or `school.mjs work URL`; prints `ready`, and goes on until it is killed. */
// It ends with whoever started it.
process.stdin.once("end", () => process.exit()).resume();
const [task, url, port] = process.argv.slice(2) as [string, string, string?];
const queue = await openHearingQueue(url);
if (!queue.ok) throw new Error(JSON.stringify(queue.problems));
if (task === "work") queue.value.work({ threads: 1 });
else {
  const store = await openPostgres(url, { create: false, connections: 4, patience: 60_000 });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  const school = openSchool({
    store: store.value,
    courses: [quay()],
    consent: "Kept: when notes began.",
    limits: { perMinute: 1e6 },
    hearing: queue.value.hearing({ patience: 120_000, silence: 3000 }),
  });
  await serveSchool(school, { port: Number(port), version: "0.0.0" });
}
console.log("ready");
