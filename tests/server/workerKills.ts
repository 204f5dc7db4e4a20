import type { ChildProcess } from "node:child_process";
import { random } from "../../lib/base/index.js";
import { freePort } from "../store/postgresServer.js";
import { sendRecording } from "./quaySchool.js";
import { POISON, type SchoolPrograms } from "./schoolPrograms.js";

export interface KillsAsked {
  readonly url: string;
  readonly kills: number;
  readonly servers: number;
  readonly workers: number;
  readonly seed: string;
  /** Name -> key of a student. */
  readonly tokens: ReadonlyMap<string, string>;
}

export interface KillsSeen {
  /** Servers, and workers, that were killed. */
  readonly killed: { readonly servers: number; readonly workers: number };
  /** Takes that were answered as counted: "student take". */
  readonly acknowledged: readonly string[];
  /** Times a take was sent. */
  readonly sent: number;
  /** Other answers than 200, each with how often it came; "cut" where none came. */
  readonly refusals: Readonly<Record<string, number>>;
  /** Workers that ended by the poisonous recording. */
  readonly poisoned: number;
}

/** What a student hears while servers and workers are killed, and sends the recording again; 422 is what three killed workers in a row amount to. */
const AGAIN = /^(?:cut|429 HEARING_BUSY|503 SCHOOL_STORE_FAILED|504 ANSWER_TOO_SLOW|422 RECORDING_NOT_HEARD)$/;

/** Longest time between two kills, milliseconds; and most kills before a recording was heard again, on however slow a machine. */
const BETWEEN = 1500;
const MOST_IN_A_ROW = 3;

/** Servers and workers that are killed at random moments, and start again; students send recordings, each until it is answered, to any server. */
export async function killWorkers(programs: SchoolPrograms, asked: KillsAsked): Promise<KillsSeen> {
  const chance = random(asked.seed);
  const ports = await Promise.all(Array.from({ length: asked.servers }, freePort));
  const running = new Map<string, ChildProcess>();
  const meant = new Set<ChildProcess>();
  const killed = { servers: 0, workers: 0 };
  const refusals: Record<string, number> = {};
  let [isOver, sent, poisoned, inARow] = [false, 0, 0, 0];
  const keep = async (name: string, words: readonly string[]): Promise<void> => {
    while (!isOver) {
      const child = await programs.start(words);
      running.set(name, child);
      if (child.exitCode === null && child.signalCode === null)
        await new Promise((resolve) => child.once("exit", resolve));
      running.delete(name);
      if (child.exitCode !== null) {
        isOver = true;
        throw new Error(`a ${name} ended by itself: ${child.exitCode}`);
      }
      if (child.signalCode === "SIGKILL" && !meant.has(child)) poisoned += 1;
    }
  };
  const kept = Promise.all([
    ...ports.map((port, i) => keep(`server ${i}`, ["serve", asked.url, `${port}`])),
    ...Array.from({ length: asked.workers }, (_, i) => keep(`worker ${i}`, ["work", asked.url])),
  ]);
  kept.catch(() => undefined);
  const acknowledged: string[] = [];
  const say = (what: string): void => {
    refusals[what] = (refusals[what] ?? 0) + 1;
  };
  const send = async (student: string, take: string): Promise<string> => {
    const port = ports[Math.floor(chance.uniform() * ports.length)]!;
    sent += 1;
    try {
      const answer = await sendRecording({ port, student, take, token: asked.tokens.get(student) });
      const body = (await answer.json()) as { readonly code?: string };
      return answer.status === 200 ? "200" : `${answer.status} ${body.code}`;
    } catch {
      return "cut";
    }
  };
  const practise = async (student: string): Promise<void> => {
    for (let i = 0; !isOver; i++) {
      const take = `${student}-${i}`;
      for (;;) {
        const answer = await send(student, take);
        if (answer === "200") break;
        if (isOver) return;
        if (!AGAIN.test(answer)) {
          isOver = true;
          throw new Error(`${take}: ${answer}`);
        }
        say(answer);
        await pause(100);
      }
      acknowledged.push(`${student} ${take}`);
      inARow = 0;
    }
  };
  const names = [...asked.tokens.keys()];
  const [victim, ...others] = names;
  const practising = Promise.all(others.map(practise));
  practising.catch(() => undefined);
  // One student's recording ends the program of whoever hears it; it is told to be unheard, and harms nobody else.
  let verdict = "";
  const poisoning = (async () => {
    while (!isOver && verdict !== "422 RECORDING_NOT_HEARD") {
      verdict = await send(victim!, POISON);
      if (verdict !== "422 RECORDING_NOT_HEARD") say(`poison ${verdict}`);
      await pause(100);
    }
  })();
  while (!isOver && killed.servers + killed.workers < asked.kills) {
    await pause(chance.uniform() * BETWEEN);
    if (inARow === MOST_IN_A_ROW) continue;
    const alive = [...running].filter(([, child]) => !meant.has(child));
    const one = alive[Math.floor(chance.uniform() * alive.length)];
    if (one === undefined) continue;
    const [name, child] = one;
    inARow += 1;
    meant.add(child);
    child.kill("SIGKILL");
    killed[name.startsWith("server") ? "servers" : "workers"] += 1;
    if (process.env.TELL) console.log(killed, sent, acknowledged.length, poisoned, JSON.stringify(refusals));
  }
  await poisoning;
  isOver = true;
  await practising;
  for (const child of running.values()) {
    meant.add(child);
    child.kill("SIGKILL");
  }
  await kept;
  return { killed, acknowledged, sent, refusals, poisoned };
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
