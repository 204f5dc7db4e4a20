import type { ChildProcess } from "node:child_process";
import { createServer } from "node:net";
import { random } from "../../lib/base/index.js";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { encodeWav } from "../../lib/formats/sound/index.js";
import { scoreFor } from "../../lib/practice/index.js";
import { strikes } from "../listen/strikes.js";
import { quay } from "../practice/quay.js";
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

/** Longest time between two kills, milliseconds: some recordings are heard between them. */
const BETWEEN = 1500;

/** Servers and workers that are killed at random moments, and start again; students send recordings, each until it is answered, to any server. */
export async function killWorkers(programs: SchoolPrograms, asked: KillsAsked): Promise<KillsSeen> {
  const chance = random(asked.seed);
  const ports = await Promise.all(Array.from({ length: asked.servers }, freePort));
  const running = new Map<string, ChildProcess>();
  const meant = new Set<ChildProcess>();
  const killed = { servers: 0, workers: 0 };
  const refusals: Record<string, number> = {};
  let [isOver, sent, poisoned] = [false, 0, 0];
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
    const query = new URLSearchParams({ drill: "steady", rung: RUNG, start: "0", family: "percussive" });
    const place = `/api/students/${student}/courses/quay/takes/${encodeURIComponent(take)}?${query}`;
    sent += 1;
    try {
      const headers = { authorization: `Bearer ${asked.tokens.get(student)}`, "content-type": "audio/wav" };
      const init = { method: "PUT", headers, body: RECORDED as BodyInit };
      const answer = await fetch(`http://127.0.0.1:${port}${place}`, init);
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
    const alive = [...running].filter(([, child]) => !meant.has(child));
    const one = alive[Math.floor(chance.uniform() * alive.length)];
    if (one === undefined) continue;
    const [name, child] = one;
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

const rung = rungs(quay().drills[0]!).at(0);
const RUNG = settingsText(rung.settings);
const RECORDED: Buffer = (() => {
  const score = scoreFor(quay(), rung);
  const at = score.expected.map((note) => score.countIn + note.at);
  const samples = strikes(at, { rate: 22_050, seconds: at.at(-1)! + 2, noise: 1e-3 });
  return Buffer.from(encodeWav({ rate: 22_050, channels: [samples, samples] }, { samples: 16 }));
})();

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address() as { readonly port: number };
      server.close(() => resolve(port));
    });
  });
}
