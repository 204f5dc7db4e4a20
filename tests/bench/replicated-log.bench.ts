import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { jetstream, jetstreamManager, RetentionPolicy, StorageType } from "@nats-io/jetstream";
import { Kvm } from "@nats-io/kv";
import { random } from "../../lib/base/index.js";
import { type Cluster, startCluster } from "./log/cluster.js";

/**
 * Whether a replicated log could be the store of a school that has more than one primary: NATS JetStream (`nats-server`, Debian's), three nodes, a subject for each journal,
 * `npm run bench -- replicated-log`. Every law of `Store` that it could break is tried, and the table says which holds. ROUNDS faults, JOURNALS journals at most.
 */
const ROUNDS = Number(process.env.ROUNDS ?? 6);
const JOURNALS = Number(process.env.JOURNALS ?? 10_000);
const SEED = process.env.LEEWAY_SEED ?? "quay";
const STREAM = "journals";

const table: (readonly [law: string, holds: string, seen: string])[] = [];
const tell = (law: string, holds: boolean, seen: string): void => {
  table.push([law, holds ? "holds" : "BREAKS", seen]);
  console.log(`${holds ? "holds " : "BREAKS"}  ${law}: ${seen}`);
};

if (spawnSync("nats-server", ["--version"]).error !== undefined) {
  console.log("skipped: nats-server is not installed");
} else {
  const folder = mkdtempSync(join(tmpdir(), "leeway-log-"));
  const cluster = await startCluster(folder);
  try {
    await begin(cluster);
    await appends(cluster);
    await faults(cluster);
    await together(cluster);
    await erasing(cluster);
    await growth(cluster);
    console.log("\nlaw | |\n---|---|---");
    for (const row of table) console.log(row.join(" | "));
  } finally {
    await cluster.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function begin(cluster: Cluster): Promise<void> {
  const client = await cluster.client([0, 1, 2]);
  await insist(async () => {
    const manager = await jetstreamManager(client);
    await manager.streams.add({
      name: STREAM,
      subjects: ["journal.*"],
      num_replicas: 3,
      storage: StorageType.File,
      retention: RetentionPolicy.Limits,
    });
  });
  await client.close();
}

/** What `append` needs of the log. */
async function appends(cluster: Cluster): Promise<void> {
  const client = await cluster.client([0]);
  const log = jetstream(client);
  const first = await log.publish("journal.a", "1", { msgID: "a1", expect: { lastSubjectSequence: 0 } });
  const again = await log.publish("journal.a", "1", { msgID: "a1", expect: { lastSubjectSequence: 0 } }).then(
    ({ duplicate, seq }) => duplicate && seq === first.seq,
    (error: Error) => error.message,
  );
  tell("an append that is sent again is kept once, and answered as kept", again === true, `${again}`);
  const behind = await log.publish("journal.a", "2", { msgID: "a2", expect: { lastSubjectSequence: 0 } }).then(
    () => "taken",
    (error: Error) => error.message,
  );
  tell("an append behind the last sequence is refused", behind !== "taken", behind);
  await client.close();
}

/** Writers while nodes are killed and cut off. */
async function faults(cluster: Cluster): Promise<void> {
  const chance = random(`${SEED}/faults`);
  let isOver = false;
  const acknowledged: string[] = [];
  const took: number[] = [];
  const writers = [0, 1, 2].map(async (home) => {
    const client = await cluster.client([home, (home + 1) % 3, (home + 2) % 3]);
    const log = jetstream(client, { timeout: 3000 });
    let last = 0;
    for (let i = 0; !isOver; i++) {
      const name = `${home}.${i}`;
      for (;;) {
        const began = performance.now();
        try {
          const kept = await log.publish(`journal.w${home}`, name, {
            msgID: name,
            expect: { lastSubjectSequence: last },
          });
          last = kept.seq;
          took.push(performance.now() - began);
          break;
        } catch (error) {
          // Its answer may have been lost: then the last one is it, and the next look says so.
          const known = await lastOf(client, `journal.w${home}`).catch(() => undefined);
          if (known?.text === name) {
            last = known.seq;
            break;
          }
          if (known !== undefined) last = known.seq;
          if (isOver && error !== undefined) return client.close();
          await pause(100);
        }
      }
      acknowledged.push(name);
    }
    return client.close();
  });
  let minority = 0;
  let asked = 0;
  for (let round = 0; round < ROUNDS; round++) {
    await pause(1000 + chance.uniform() * 1500);
    const node = Math.floor(chance.uniform() * 3);
    if (round % 2 === 0) {
      await cluster.kill(node);
      await pause(500 + chance.uniform() * 2500);
      cluster.start(node);
    } else {
      cluster.cut(node);
      await pause(1500);
      const alone = await cluster.client([node]);
      const log = jetstream(alone, { timeout: 2000 });
      for (let i = 0; i < 3; i++) {
        asked += 1;
        const name = `minority.${round}.${i}`;
        await log.publish("journal.minority", name, { msgID: name }).then(
          () => {
            minority += 1;
          },
          () => undefined,
        );
      }
      await alone.close();
      cluster.mend(node);
    }
    await pause(2500);
  }
  isOver = true;
  await Promise.all(writers);
  const kept = await everything(cluster);
  const lost = acknowledged.filter((name) => !kept.includes(name));
  const twice = kept.filter((name, i) => kept.indexOf(name) !== i);
  took.sort((a, b) => a - b);
  const seen = `${ROUNDS} faults, ${acknowledged.length} acknowledged (median ${took[took.length >> 1]?.toFixed(1)} ms), ${lost.length} lost, ${twice.length} twice`;
  tell(
    "nothing acknowledged is lost and nothing is there twice when a node is killed or cut off",
    lost.length + twice.length === 0,
    seen,
  );
  tell("a node that is cut off acknowledges nothing", minority === 0, `${minority} of ${asked} acknowledged`);
}

/** Whether two subjects, or two messages, can be written together or not at all: `accept` of a register uses an invitation up, makes a person, puts them into a class and keeps their key. */
async function together(cluster: Cluster): Promise<void> {
  const client = await cluster.client([0, 1, 2]);
  const log = jetstream(client);
  // As later versions take several messages at once; this one takes each for itself, and the second is refused alone.
  const { headers } = await import("@nats-io/transport-node");
  const of = (n: number, isLast: boolean) => {
    const said = headers();
    said.set("Nats-Batch-Id", "accept-1");
    said.set("Nats-Batch-Sequence", `${n}`);
    if (isLast) said.set("Nats-Batch-Commit", "1");
    return said;
  };
  const outcome = await Promise.allSettled([
    log.publish("journal.person", "made", { headers: of(1, false), expect: { lastSubjectSequence: 0 } }),
    log.publish("journal.a", "class", { headers: of(2, true), expect: { lastSubjectSequence: 999_999 } }),
  ]);
  const half = (await lastOf(client, "journal.person").catch(() => undefined)) !== undefined;
  tell(
    "changes of two subjects are made together or not at all (a register needs it)",
    !half,
    `${outcome.map(({ status }) => status).join(", ")}; the first is ${half ? "kept alone" : "not kept"}`,
  );
  await client.close();
}

/** Erases by every means there is, and searches each node's files. */
async function erasing(cluster: Cluster): Promise<void> {
  const client = await cluster.client([0, 1, 2]);
  const log = jetstream(client);
  const manager = await jetstreamManager(client);
  const name = "oystercatcher-1-took-a-take";
  const other = "sanderling-2-stays";
  const kept = await new Kvm(client).create("snapshots", { replicas: 3, history: 1 });
  const sequences: number[] = [];
  for (let i = 0; i < 20; i++) {
    sequences.push((await log.publish("journal.oystercatcher", `${name} ${i}`)).seq);
    await log.publish("journal.sanderling", `${other} ${i}`);
    await kept.put("oystercatcher", `${name} standing ${i}`);
  }
  await pause(3000);
  const before = found(cluster, name);
  console.log("erasing");
  // `true`: the server is to overwrite the bytes.
  for (const seq of sequences) await manager.streams.deleteMessage(STREAM, seq, true);
  await kept.purge("oystercatcher");
  await pause(3000);
  const after = found(cluster, name);
  // What a compaction brings: every node started again, one after another, and the log asked to keep no more than it has.
  for (let node = 0; node < 3; node++) {
    await cluster.kill(node);
    cluster.start(node);
    await pause(4000);
    await insist(() => log.publish("journal.noise", "x".repeat(2000)));
  }
  for (let i = 0; i < 30; i++)
    await Promise.all(Array.from({ length: 100 }, () => insist(() => log.publish("journal.noise", "x".repeat(2000)))));
  await pause(3000);
  const later = found(cluster, name);
  const kindsOf = (files: readonly string[]): string =>
    `${files.length} files (${[...new Set(files.map((file) => (/_js_/.test(file) ? "log of consensus" : /KV_/.test(file) ? "snapshots" : "journals")))].join(", ")})`;
  tell(
    "no byte of an erased student is in the files of any node",
    later.length === 0,
    `before ${kindsOf(before)}; ${sequences.length} messages overwritten, then ${kindsOf(after)}; every node restarted and 6 MB written after it, ${kindsOf(later)}`,
  );
  await client.close();
}

/** What an append and a look at the last event cost, with ever more journals. */
async function growth(cluster: Cluster): Promise<void> {
  const client = await cluster.client([0, 1, 2]);
  const log = jetstream(client);
  const manager = await jetstreamManager(client);
  const body = "e".repeat(300);
  let there = 0;
  for (let size = 1000; size <= JOURNALS; size *= 10) {
    for (; there < size; ) {
      const some = Array.from({ length: Math.min(200, size - there) }, () => `journal.s${there++}`).map((subject) =>
        insist(() => log.publish(subject, body)),
      );
      await Promise.all(some);
    }
    const [appended, opened]: [number[], number[]] = [[], []];
    for (let i = 0; i < 100; i++) {
      const subject = `journal.s${(i * 7919) % size}`;
      let began = performance.now();
      const last = await lastOf(client, subject);
      opened.push(performance.now() - began);
      began = performance.now();
      await log.publish(subject, body, { expect: { lastSubjectSequence: last.seq } });
      appended.push(performance.now() - began);
    }
    const began = performance.now();
    const info = await manager.streams.info(STREAM, { subjects_filter: "journal.*" });
    const listing = performance.now() - began;
    const middle = (values: number[]): string => values.sort((a, b) => a - b)[values.length >> 1]!.toFixed(2);
    const memory = await Promise.all([0, 1, 2].map((node) => cluster.residentMb(node)));
    console.log(
      `${size} journals: append ${middle(appended)} ms, last event ${middle(opened)} ms, list of ${Object.keys(info.state.subjects ?? {}).length} ${listing.toFixed(0)} ms, nodes ${memory.join(" ")} MB`,
    );
  }
  await client.close();
}

async function lastOf(
  client: Awaited<ReturnType<Cluster["client"]>>,
  subject: string,
): Promise<{ readonly seq: number; readonly text: string }> {
  const manager = await jetstreamManager(client, { timeout: 3000 });
  const message = await manager.streams.getMessage(STREAM, { last_by_subj: subject });
  if (message === null) throw new Error(`nothing at ${subject}`);
  return { seq: message.seq, text: message.string() };
}

/** Everything the writers wrote, as the log has it now. */
async function everything(cluster: Cluster): Promise<readonly string[]> {
  const client = await cluster.client([0, 1, 2]);
  const manager = await jetstreamManager(client, { timeout: 10_000 });
  const texts: string[] = [];
  const info = await insist(() => manager.streams.info(STREAM));
  for (let seq = 1; seq <= info.state.last_seq; seq++) {
    const message = await insist(() => manager.streams.getMessage(STREAM, { seq }));
    if (message !== null && /^journal\.(?:w\d|minority)$/.test(message.subject)) texts.push(message.string());
  }
  await client.close();
  return texts;
}

function found(cluster: Cluster, bytes: string): readonly string[] {
  return cluster.folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => join(parentPath, name))
      .filter((path) => {
        try {
          return readFileSync(path).includes(bytes);
        } catch {
          return false;
        }
      })
      .map((path) => relative(folder, path)),
  );
}

async function insist<T>(work: () => Promise<T>): Promise<T> {
  for (let tries = 0; ; tries++) {
    try {
      return await work();
    } catch (error) {
      if (tries > 100) throw error;
      await pause(200);
    }
  }
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
