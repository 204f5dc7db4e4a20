import { readFileSync } from "node:fs";
import { random } from "../../lib/base/index.js";
import { playTo, quay } from "../practice/quay.js";
import { quaySchool, RUNG, sendRecording } from "../server/quaySchool.js";
import { schoolPrograms } from "../server/schoolPrograms.js";
import { freePort, startPostgres } from "../store/postgresServer.js";
import { erlangC, simulateLine } from "./load/queueing.js";
import { PEAK, weekOfArrivals } from "./load/schoolWeek.js";

/**
 * What a school takes: `npm run bench -- load`. A server and a worker as programs of their own on PostgreSQL, CLIENTS that hand in takes as fast as they are answered for SECONDS, the memory of the
 * server meanwhile, recordings that come as they come against the simulation of their queue, and from what was measured how many workers a school of each size needs.
 */
const CLIENTS = Number(process.env.CLIENTS ?? 50);
const SECONDS = Number(process.env.SECONDS ?? 30);
const RECORDINGS = Number(process.env.RECORDINGS ?? 30);
const SEED = process.env.LEEWAY_SEED ?? "quay";

const postgres = await startPostgres();
if (postgres !== undefined) {
  const programs = await schoolPrograms(process.cwd());
  const names = Array.from({ length: CLIENTS }, (_, i) => `student-${i}`);
  const url = await postgres.database("load");
  const { store, tokens } = await quaySchool(url, names);
  const port = await freePort();
  const server = await programs.start(["serve", url, `${port}`]);
  const worker = await programs.start(["work", url]);
  try {
    await handIn(port, tokens, server.pid!);
    await record(port, tokens);
  } finally {
    server.kill("SIGKILL");
    worker.kill("SIGKILL");
    await store.close();
    programs.remove();
    postgres.stop();
  }
}

function at(sorted: readonly number[], share: number): number {
  return sorted[Math.floor(share * (sorted.length - 1))]!;
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}

/** Takes as JSON, each client after its answer the next. */
async function handIn(port: number, tokens: ReadonlyMap<string, string>, pid: number): Promise<void> {
  const times: number[] = [];
  const memory: number[] = [];
  const others = new Map<number, number>();
  const began = performance.now();
  const isOver = (): boolean => performance.now() - began > SECONDS * 1000;
  const course = quay();
  const watching = setInterval(() => memory.push(residentMb(pid)), 250);
  await Promise.all(
    [...tokens].map(async ([student, token]) => {
      for (let i = 0; !isOver(); i++) {
        const take = playTo(course, {
          id: `${student}-${i}`,
          drill: "steady",
          rung: RUNG,
          how: i % 2 ? "late" : "in time",
        });
        const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
        const start = performance.now();
        const answer = await fetch(`http://127.0.0.1:${port}/api/students/${student}/courses/quay/takes/${take.id}`, {
          ...{ method: "PUT", headers, body: JSON.stringify(take) },
        });
        await answer.text();
        times.push(performance.now() - start);
        if (answer.status !== 200) others.set(answer.status, (others.get(answer.status) ?? 0) + 1);
      }
    }),
  );
  clearInterval(watching);
  times.sort((a, b) => a - b);
  const [median, late] = [at(times, 0.5), at(times, 0.99)];
  const quarter = (i: number): number => meanOf(memory.slice((memory.length * i) / 4, (memory.length * (i + 1)) / 4));
  console.log(
    `${CLIENTS} clients, ${SECONDS} s: ${times.length} takes, ${(times.length / SECONDS).toFixed(0)} a second; median ${median.toFixed(0)} ms, p99 ${late.toFixed(0)} ms, ${(late / median).toFixed(1)} x the median${others.size > 0 ? `; NOT 200: ${JSON.stringify([...others])}` : ""}`,
  );
  console.log(
    `memory of the server, by quarters of that time: ${[0, 1, 2, 3].map((i) => `${quarter(i).toFixed(0)} MB`).join(", ")}; the last is ${(quarter(3) / quarter(1)).toFixed(2)} x the second`,
  );
  if (late > 10 * median) process.exitCode = 1;
}

/** Recordings that come at random moments, to one worker with one thread. */
async function record(port: number, tokens: ReadonlyMap<string, string>): Promise<void> {
  const chance = random(`${SEED}/record`);
  const students = [...tokens];
  let count = 0;
  const send = async (): Promise<number> => {
    const [student, token] = students[count % students.length]!;
    const start = performance.now();
    const answer = await sendRecording({ port, student, token, take: `recording-${count++}` });
    if (answer.status !== 200) console.log(`NOT 200: ${answer.status} ${await answer.text()}`);
    return (performance.now() - start) / 1000;
  };
  const alone: number[] = [];
  for (let i = 0; i < 12; i++) alone.push(await send());
  // The first ones also load what they run.
  const services = alone.slice(2);
  const service = meanOf(services);
  const arrivals: number[] = [];
  for (let [i, when] = [0, 0]; i < RECORDINGS; i++) {
    when -= (Math.log(1 - chance.uniform()) * service) / 0.6;
    arrivals.push(when);
  }
  const start = performance.now();
  const measured = await Promise.all(
    arrivals.map(async (when) => {
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, 1000 * when - (performance.now() - start))));
      return send();
    }),
  );
  const one = (): number => services[Math.floor(chance.uniform() * services.length)]!;
  const simulated = Array.from({ length: 2000 }, () => {
    const { waits, served } = simulateLine({ arrivals, service: one, servers: 1 });
    return meanOf(waits) + served / waits.length;
  }).sort((a, b) => a - b);
  console.log(
    `a recording alone ${service.toFixed(2)} s (${at(
      [...services].sort((a, b) => a - b),
      0,
    ).toFixed(
      2,
    )} to ${Math.max(...services).toFixed(2)}); ${RECORDINGS} at load 0.6: ${meanOf(measured).toFixed(2)} s, simulated ${at(simulated, 0.5).toFixed(2)} s (95 %: ${at(simulated, 0.025).toFixed(2)} to ${at(simulated, 0.975).toFixed(2)}), ${(meanOf(measured) / at(simulated, 0.5)).toFixed(2)} x`,
  );
  school(service, one);
}

/** Threads of workers for schools of several sizes: 20 takes of each student a week, one in ten of them a recording; at most one in a hundred waits longer than it is heard. */
function school(service: number, one: () => number): void {
  console.log(`the fullest hour has ${PEAK.toFixed(1)} x the mean one`);
  for (const students of [1000, 10_000, 100_000, 1_000_000]) {
    const perWeek = students * 20 * 0.1;
    const load = ((perWeek * PEAK) / (168 * 3600)) * service;
    let servers = Math.floor(load) + 1;
    for (const step = Math.max(1, Math.round(load / 50)); ; servers += step) {
      const chance = random(`${SEED}/${students}/${servers}`);
      const arrivals = weekOfArrivals({ perWeek, uniform: () => chance.uniform(), hours: [15, 20] });
      const { waits } = simulateLine({ arrivals, service: one, servers });
      const sorted = [...waits].sort((a, b) => a - b);
      if (at(sorted, 0.99) > service) continue;
      const { waits: byErlang } = erlangC(servers, load);
      console.log(
        `${students} students: ${((perWeek * PEAK) / 168).toFixed(0)} recordings in the fullest hour, load ${load.toFixed(1)}, ${servers} threads; ${(100 * meanOf(waits.map((each) => (each > 0 ? 1 : 0)))).toFixed(1)} % wait from three to eight, by Erlang's formula in the fullest hour ${(100 * byErlang).toFixed(1)} %`,
      );
      break;
    }
  }
}

function residentMb(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))![1]) / 1000;
}
