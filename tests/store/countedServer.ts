import { connect, createServer, type Socket } from "node:net";

/** A way to a PostgreSQL server on which round trips are counted: how often it said that it is ready for the next question. */
export interface CountedServer {
  /** The same database by this way. */
  readonly url: string;
  /** Round trips so far, one for each connection that was begun included. */
  trips(): number;
  /** Text that was sent to the server since it was asked last. */
  sent(): string;
  close(): void;
}

/** The first byte of the message by which a server waits for a question (PostgreSQL manual, 55.7: ReadyForQuery). */
const READY = "Z".charCodeAt(0);
/** A message is its kind, a byte, and its length, four bytes that count themselves. */
const KIND = 1;
const HEAD = KIND + 4;

/** Listens on loopback and passes everything on to the server of an address. */
export async function countedServer(url: string): Promise<CountedServer> {
  const to = new URL(url);
  let trips = 0;
  let sent: Buffer[] = [];
  const open = new Set<Socket>();
  const server = createServer((near) => {
    const far = connect(Number(to.port), to.hostname);
    for (const each of [near, far]) open.add(each.on("error", () => undefined).setNoDelay(true));
    let rest = Buffer.alloc(0);
    near.on("data", (bytes) => void sent.push(bytes)).pipe(far);
    far.on("data", (bytes) => {
      rest = Buffer.concat([rest, bytes]);
      while (rest.length >= HEAD && rest.length >= KIND + rest.readInt32BE(KIND)) {
        if (rest[0] === READY) trips++;
        rest = rest.subarray(KIND + rest.readInt32BE(KIND));
      }
    });
    far.pipe(near);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const through = new URL(url);
  through.port = String((server.address() as { readonly port: number }).port);
  return {
    url: through.href,
    trips: () => trips,
    sent: () => {
      const text = Buffer.concat(sent).toString("latin1");
      sent = [];
      return text;
    },
    close: () => {
      server.close();
      for (const each of open) each.destroy();
    },
  };
}
