import type { IncomingMessage, Server } from "node:http";
import { createAdaptorServer } from "@hono/node-server";
import type { Addresses } from "./access/requireOrigin.js";
import type { FindFile } from "./answer/answerFile.js";
import type { School } from "./model.js";
import { schoolApp } from "./schoolApp.js";
import type { Seen } from "./watch/watch.js";

export interface ServeOptions {
  /** Version of leeway, for the OpenAPI document. */
  readonly version: string;
  /** 0, or none: any port that is free. */
  readonly port?: number;
  /** The address that people use where a reverse proxy stands before the server: "https://school.example". */
  readonly address?: string;
  /** Origins of other sites whose scripts may ask with a token. */
  readonly allow?: readonly string[];
  /** Files of the pages, by path: "/", "/app.js". One that is still being made is waited for. */
  readonly files?: FindFile;
  readonly log?: (seen: Seen) => void;
}

/** A school that is being served. */
export interface ServedSchool {
  /** Where people reach it, without a slash at the end. */
  readonly address: string;
  /** Where it is on this machine. */
  readonly loopback: string;
  /** Takes no more requests, and resolves when those at work are answered. */
  close(): Promise<void>;
}

/** Milliseconds for the head of a request, and for all of it: our choices, against clients that send a byte at a time. */
const HEAD_MS = 10_000;
const WHOLE_MS = 120_000;

/**
 * Serves a school on loopback, to this machine alone; a reverse proxy brings it to others, with TLS. Rejects when the port is taken.
 *
 * @example
 * const served = await serveSchool(openSchool({ store, courses: [course], consent }), { version: "1" });
 * await served.close();
 */
export async function serveSchool(school: School, options: ServeOptions): Promise<ServedSchool> {
  const { port = 0, address, allow = [], files = () => undefined, version, log = () => undefined } = options;
  let app = (_request: Request, _from: string): Promise<Response> =>
    Promise.resolve(new Response(null, { status: 503 }));
  const server = createAdaptorServer({
    fetch: (request, env) => app(request, (env as { incoming: IncomingMessage }).incoming.socket.remoteAddress ?? ""),
    overrideGlobalObjects: false,
    serverOptions: { headersTimeout: HEAD_MS, requestTimeout: WHOLE_MS },
  }) as Server;
  const taken = await listening(server, port);
  const addresses = addressesOf(taken, { address, allow });
  app = schoolApp(school, { addresses, isSecure: address?.startsWith("https:") ?? false, version, files, log });
  const loopback = `http://127.0.0.1:${taken}`;
  return {
    address: address?.replace(/\/+$/, "") ?? loopback,
    loopback,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeIdleConnections();
      }),
  };
}

function listening(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, "127.0.0.1", () => {
      const at = server.address();
      resolve(typeof at === "object" && at !== null ? at.port : port);
    });
  });
}

function addressesOf(
  port: number,
  { address, allow }: { readonly address: string | undefined; readonly allow: readonly string[] },
): Addresses {
  const local = [`127.0.0.1:${port}`, `localhost:${port}`];
  const outside = address === undefined ? [] : [new URL(address)];
  return {
    hosts: new Set([...local, ...outside.map(({ host }) => host)]),
    own: new Set([...local.map((host) => `http://${host}`), ...outside.map(({ origin }) => origin)]),
    allowed: new Set(allow.map((each) => new URL(each).origin)),
  };
}
