import { createServer, type IncomingMessage, type Server } from "node:http";
import { getRequestListener } from "@hono/node-server";
import { answerUnread, unreadAnswer } from "./answer/answerUnread.js";
import type { School } from "./model.js";
import { type HandlerOptions, schoolHandler } from "./schoolHandler.js";

export interface ServeOptions extends Omit<HandlerOptions, "address" | "local"> {
  /** 0, or none: any port that is free. */
  readonly port?: number;
  /** The address that people use where a reverse proxy stands before the server: "https://school.example". */
  readonly address?: string;
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

/**
 * Milliseconds for the head of a request, and for all of it: our choices, against clients that send a byte at a time. A server that was busy itself counts that time
 * too, so that little would refuse good requests.
 */
const HEAD_MS = 60_000;
const WHOLE_MS = 120_000;
/** Milliseconds for which a connection is kept for a next request: longer than a proxy keeps it (60 s as a rule, from memory), so that none is closed while something comes. */
const KEPT_MS = 75_000;

/**
 * Serves a school on loopback, to this machine alone; a reverse proxy brings it to others, with TLS. Rejects when the port is taken.
 *
 * @example
 * const served = await serveSchool(openSchool({ store: school, courses: [course], consent: "Kept: the name you choose." }));
 * (await fetch(`${served.loopback}/health`)).status; // 200
 * await served.close();
 */
export async function serveSchool(school: School, options: ServeOptions = {}): Promise<ServedSchool> {
  const { port = 0, address, ...around } = options;
  let handle: ReturnType<typeof schoolHandler> = () => Promise.resolve(new Response(null, { status: 503 }));
  const listener = getRequestListener(
    (request, env) => handle(request, (env as { incoming: IncomingMessage }).incoming.socket.remoteAddress ?? ""),
    // Called for what is no request: a school's own answers never reject.
    { overrideGlobalObjects: false, errorHandler: () => unreadAnswer("REQUEST_NOT_READ") },
  );
  const server = createServer(
    { headersTimeout: HEAD_MS, requestTimeout: WHOLE_MS, keepAliveTimeout: KEPT_MS, requireHostHeader: false },
    (request, response) => void listener(request, response),
  );
  server.on("clientError", (error, socket) => void answerUnread(error, socket));
  // What a client expects of a server may be left unheard (RFC 9110, section 10.1.1).
  server.on("checkExpectation", (request, response) => void server.emit("request", request, response));
  const taken = await listening(server, port);
  const loopback = `http://127.0.0.1:${taken}`;
  const local = [loopback, `http://localhost:${taken}`];
  handle = schoolHandler(school, { ...around, local, address: address ?? loopback });
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
