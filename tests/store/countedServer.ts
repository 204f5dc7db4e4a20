import { connect, createServer, type Socket } from "node:net";

/** A way to a PostgreSQL server on which round trips are counted: how often it said that it is ready for the next question. */
export interface CountedServer {
  /** The same database by this way. */
  readonly url: string;
  /** Round trips so far, one for each connection that was begun included. */
  trips(): number;
  /** What was asked so far: the text of each statement, and its name, empty for one that has none. */
  asked(): readonly { readonly name: string; readonly text: string }[];
  close(): void;
}

/** The first byte of the message by which a server waits for a question (PostgreSQL manual, 55.7: ReadyForQuery). */
const READY = "Z";
/** A message is its kind, a byte, and its length, four bytes that count themselves. */
const KIND = 1;
const HEAD = KIND + 4;

/** Takes bytes as they come and gives the messages that are whole. */
function messages(): (bytes: Buffer) => readonly { readonly kind: string; readonly body: Buffer }[] {
  let rest: Buffer = Buffer.alloc(0);
  return (bytes) => {
    const whole: { kind: string; body: Buffer }[] = [];
    rest = Buffer.concat([rest, bytes]);
    while (rest.length >= HEAD && rest.length >= KIND + rest.readInt32BE(KIND)) {
      const end = KIND + rest.readInt32BE(KIND);
      whole.push({ kind: String.fromCharCode(rest[0]!), body: rest.subarray(HEAD, end) });
      rest = rest.subarray(end);
    }
    return whole;
  };
}

/** Listens on loopback and passes everything on to the server of an address. */
export async function countedServer(url: string): Promise<CountedServer> {
  const to = new URL(url);
  let trips = 0;
  const asked: { name: string; text: string }[] = [];
  const open = new Set<Socket>();
  const server = createServer((near) => {
    const far = connect(Number(to.port), to.hostname);
    for (const each of [near, far]) open.add(each.on("error", () => undefined).setNoDelay(true));
    let isGreeted = false;
    near.on("data", (bytes: Buffer) => {
      // The first message of a client has no kind (PostgreSQL manual, 55.7: StartupMessage).
      const rest = isGreeted ? bytes : bytes.subarray(bytes.readInt32BE(0));
      isGreeted = true;
      for (const { kind, body } of sending(rest)) {
        const [name, text] = body.toString("utf8").split("\0") as [string, string];
        if (kind === "P") asked.push({ name, text });
        if (kind === "Q") asked.push({ name: "", text: name });
      }
    });
    near.pipe(far);
    const sending = messages();
    const answering = messages();
    far.on("data", (bytes: Buffer) => {
      for (const { kind } of answering(bytes)) if (kind === READY) trips++;
    });
    far.pipe(near);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const through = new URL(url);
  through.port = String((server.address() as { readonly port: number }).port);
  return {
    url: through.href,
    trips: () => trips,
    asked: () => asked,
    close: () => {
      server.close();
      for (const each of open) each.destroy();
    },
  };
}
