import { Hono } from "hono";
import pg from "pg";
import type { Connection } from "../../lib/store/sqlite/model.js";

/** A statement with its values, as a store asked it. */
export interface Asked {
  readonly text: string;
  readonly values: readonly unknown[];
}

/** A handler that asks the same statements and nothing else. */
export function bareHandler(url: string, log: ReadonlyMap<number, readonly Asked[]>, connections: number) {
  const pool = new pg.Pool({ connectionString: url, max: connections, options: "-c synchronous_commit=on" });
  const app = new Hono().put("/:i", async (c) => {
    await c.req.json();
    const client = await pool.connect();
    const rows: unknown[] = [];
    for (const { text, values } of log.get(Number(c.req.param("i")))!)
      rows.push((await client.query(text, [...values])).rows);
    client.release();
    return c.json(rows);
  });
  return { app, close: () => pool.end() };
}

/** The connection, which notes what is asked of it. */
export function noting(connection: Connection, note: (asked: Asked) => void): Connection {
  return {
    ...connection,
    prepare: (text) => {
      const statement = connection.prepare(text);
      const noted = (values: readonly unknown[]): readonly unknown[] => {
        note({ text, values: [...values] });
        return values;
      };
      return {
        reader: statement.reader,
        all: (values) => statement.all(noted(values)),
        run: (values) => statement.run(noted(values)),
        iterate: (values) => statement.iterate(noted(values)),
      };
    },
  };
}
