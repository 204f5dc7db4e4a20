import { connect, createServer, type Server, type Socket } from "node:net";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { enrol } from "../../lib/practice/index.js";
import { digestOf } from "../../lib/server/access/digestOf.js";
import { openSchool, type ServedSchool, serveSchool } from "../../lib/server/index.js";
import { eventsOf, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { playTo, quay } from "../practice/quay.js";
import { type PostgresServer, startPostgres } from "../store/postgresServer.js";

const course = quay();
const AT = "2026-09-01T08:00:00.000Z";
const NAMES = ["tern", "knot", "ruff", "plover"];
const TAKES = 6;

/** A line to the database that can be cut, or go dead without a word: what is sent then arrives nowhere. */
async function lineTo(url: string): Promise<{ readonly url: string; isDead: boolean; close(): void }> {
  const { port } = new URL(url);
  const ends = new Set<Socket>();
  const state = { isDead: false };
  const server: Server = createServer((near) => {
    const far = connect(Number(port), "127.0.0.1");
    for (const end of [near, far]) ends.add(end.on("error", () => undefined));
    near.on("data", (piece) => void (!state.isDead && far.write(piece)));
    far.on("data", (piece) => void (!state.isDead && near.write(piece)));
    near.on("close", () => far.destroy());
    far.on("close", () => near.destroy());
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const line = new URL(url);
  line.port = `${(server.address() as { port: number }).port}`;
  return {
    url: line.href,
    get isDead() {
      return state.isDead;
    },
    set isDead(is: boolean) {
      state.isDead = is;
      // What was lost on the way is not sent again: both ends begin anew.
      if (!is) for (const end of ends) end.destroy();
    },
    close: () => {
      for (const end of ends) end.destroy();
      server.close();
    },
  };
}

describe("a school on PostgreSQL", () => {
  let server: PostgresServer | undefined;
  let store: Store;
  let school: ServedSchool;
  let line: Awaited<ReturnType<typeof lineTo>>;

  beforeAll(async () => {
    server = await startPostgres();
    if (server === undefined) return;
    line = await lineTo(await server.database("school"));
    const opened = await openPostgres(line.url, { create: true, connections: 4 });
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    store = opened.value;
    const { register } = store as Required<Store>;
    await register.beginClass({ name: "monday", curriculum: course.name });
    for (const name of NAMES) {
      const digest = digestOf(`invitation of ${name}`);
      await register.invite({ digest, className: "monday", role: "student", name, until: "2040-01-01T00:00:00Z" });
      const key = { digest: digestOf(`token-of-${name}`), name, kind: "token", until: "2040-01-01T00:00:00Z" } as const;
      await register.accept((await register.invitation(digest, AT))!, key, AT);
      await enrol(store, name, { course, at: AT });
    }
    const limits = { patience: 3000, perMinute: 1e6 };
    school = await serveSchool(openSchool({ store, courses: [course], consent: "Kept: a name.", limits }));
  }, 120_000);
  afterAll(async () => {
    await school?.close();
    await store?.close().catch(() => undefined);
    line?.close();
    server?.stop();
  });

  /** Asks until it is answered; every other answer says that it cannot be now. Notes the statuses. */
  async function insist<T>(
    name: string,
    path: string,
    { statuses, body }: { statuses: Set<number>; body?: string },
  ): Promise<T> {
    const at = `${school.loopback}/api/students/${name}/courses/${course.name}/${path}`;
    const headers = { authorization: `Bearer token-of-${name}`, "content-type": "application/json" };
    for (;;) {
      const answer = await fetch(at, body === undefined ? { headers } : { method: "PUT", headers, body });
      statuses.add(answer.status);
      if (answer.status === 200) return (await answer.json()) as T;
      if (![503, 504].includes(answer.status)) throw new Error(`${answer.status} ${await answer.text()}`);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }

  interface Open {
    readonly drills: readonly { readonly drill: string; readonly rung: string; readonly state: string }[];
  }

  async function term(from: number, meanwhile: () => Promise<void>): Promise<ReadonlySet<number>> {
    const statuses = new Set<number>();
    const playing = NAMES.map(async (name) => {
      for (let take = from; take < from + TAKES; take++) {
        const { drills } = await insist<Open>(name, "standing", { statuses });
        const { drill, rung } = drills.find(({ state }) => state === "open")!;
        const id = `${take}`;
        const body = JSON.stringify(playTo(course, { id, drill, rung, how: take % 2 === 0 ? "in time" : "late" }));
        const answer = await insist<object>(name, `takes/${id}`, { statuses, body });
        expect(await insist<object>(name, `takes/${id}`, { statuses, body })).toEqual(answer);
      }
    });
    await meanwhile();
    await Promise.all(playing);
    for (const name of NAMES) {
      const events = await eventsOf(store, { student: name, curriculum: course.name });
      const takes = events.flatMap((event) => (event.kind === "take assessed" ? [event.take] : []));
      expect(takes).toEqual(Array.from({ length: from + TAKES }, (_, i) => `${i}`));
    }
    for await (const problem of store.verify()) expect(problem).toBeUndefined();
    return statuses;
  }

  test("that crashes and recovers under load gives no wrong answer, loses nothing it took and counts nothing twice", async ({
    skip,
  }) => {
    if (server === undefined) return skip("PostgreSQL is not installed");
    const statuses = await term(0, async () => {
      for (let i = 0; i < 2; i++) {
        await new Promise((resolve) => setTimeout(resolve, 300));
        server!.crash();
      }
    });
    expect([...statuses].every((status) => [200, 503, 504].includes(status))).toBe(true);
  }, 180_000);

  test("whose line goes dead without a word says that it cannot now, in time, and goes on when the line is back", async ({
    skip,
  }) => {
    if (server === undefined) return skip("PostgreSQL is not installed");
    const statuses = await term(TAKES, async () => {
      await new Promise((resolve) => setTimeout(resolve, 200));
      line.isDead = true;
      const health = await fetch(`${school.loopback}/health`);
      expect([503, 504]).toContain(health.status);
      line.isDead = false;
    });
    expect([...statuses].every((status) => [200, 503, 504].includes(status))).toBe(true);
  }, 180_000);
});
