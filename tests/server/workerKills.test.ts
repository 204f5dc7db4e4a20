import pg from "pg";
import { expect, test } from "vitest";
import { openHearingQueue } from "../../lib/server/index.js";
import { sample } from "../samples.js";
import { all, takesIn } from "../store/material.js";
import { startPostgres } from "../store/postgresServer.js";
import { quaySchool } from "./quaySchool.js";
import { schoolPrograms } from "./schoolPrograms.js";
import { killWorkers } from "./workerKills.js";

const NAMES = ["victim", "tern", "knot", "ruff", "plover", "dunlin"];

test("servers and workers that are killed at any moment lose no recording that was answered, count none twice, and one that ends its worker harms no other", async (context) => {
  const postgres = await startPostgres();
  if (postgres === undefined) return context.skip("PostgreSQL is not installed");
  const programs = await schoolPrograms();
  try {
    const url = await postgres.database("school");
    const { store, tokens } = await quaySchool(url, NAMES);
    const kills = Number(process.env.KILLS ?? sample({ suite: 4, proof: 300 }));
    const size = sample({ suite: 2, proof: 4 });
    const seed = process.env.SEED ?? "quay";
    const seen = await killWorkers(programs, { url, kills, servers: size, workers: size, seed, tokens });
    const counted: string[] = [];
    for (const name of NAMES)
      for (const take of takesIn(await all(store.events({ student: name, curriculum: "quay" }))))
        counted.push(`${name} ${take}`);
    console.log(
      `${seen.killed.servers} servers and ${seen.killed.workers} workers killed, ${seen.poisoned} ended by the poison; ${seen.sent} sent, ${seen.acknowledged.length} acknowledged, ${counted.length} counted; ${JSON.stringify(seen.refusals)}`,
    );
    expect(seen.killed.servers + seen.killed.workers).toBe(kills);
    expect(seen.acknowledged.filter((take) => !counted.includes(take))).toEqual([]);
    expect(counted.filter((take, i) => counted.indexOf(take) !== i)).toEqual([]);
    expect(seen.acknowledged.length).toBeGreaterThanOrEqual(NAMES.length - 1);
    expect(seen.poisoned).toBeGreaterThanOrEqual(3);
    expect(counted.filter((take) => take.startsWith("victim"))).toEqual([]);
    expect(await all(store.verify())).toEqual([]);

    // What dead servers left, sealed for ever, is gone as soon as nobody can be asking for it any more.
    const client = new pg.Client(url);
    await client.connect();
    await client.query("update leeway_hearing.held set made = now() - interval '1 h'");
    const queue = await openHearingQueue(url);
    if (!queue.ok) throw new Error(JSON.stringify(queue.problems));
    const working = queue.value.work({ threads: 1 });
    const left = async (): Promise<string> => {
      const { rows } = await client.query(`select (select count(*) from leeway_hearing.held)
        + (select count(*) from leeway_hearing.sound) as left`);
      return rows[0].left;
    };
    while ((await left()) !== "0") await new Promise((resolve) => setTimeout(resolve, 100));
    await working.end();
    await client.end();
    await queue.value.close();
    await store.close();
  } finally {
    programs.remove();
    postgres.stop();
  }
});
