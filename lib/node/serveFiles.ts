import { createServer } from "node:http";
import { extname } from "node:path";

/** Kinds of content by the ending of a name. */
const TYPES: Readonly<Record<string, string>> = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
};

/**
 * The kind of content of a file, by the ending of its name, as the header Content-Type has it.
 * @example
 * contentType("page.css"); // "text/css; charset=utf-8"
 */
export function contentType(path: string): string {
  return TYPES[extname(path)] ?? "application/octet-stream";
}

/** Files that are being served on this machine. */
export interface Serving {
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Serves files to this machine alone, on loopback: each under its path, `index.html` under "/". Nothing else is answered, whatever is asked.
 * `port` 0, or none, is any that is free. Rejects when the port is taken.
 *
 * @example
 * const serving = await serveFiles(new Map([["index.html", new Uint8Array()]]));
 * await serving.close();
 */
export function serveFiles(
  files: ReadonlyMap<string, Uint8Array>,
  { port = 0 }: { readonly port?: number } = {},
): Promise<Serving> {
  const server = createServer(({ method, url = "/" }, answer) => {
    const path = pathIn(url);
    const bytes = files.get(path === "" ? "index.html" : path);
    if (bytes === undefined || (method !== "GET" && method !== "HEAD")) {
      answer.writeHead(bytes === undefined ? 404 : 405, { "content-type": "text/plain" }).end();
      return;
    }
    answer.writeHead(200, {
      "content-type": contentType(path === "" ? "index.html" : path),
      "content-length": bytes.length,
      "cache-control": "no-cache",
      "x-content-type-options": "nosniff",
    });
    answer.end(method === "HEAD" ? undefined : bytes);
  });
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, "127.0.0.1", () => {
      const address = server.address();
      const taken = typeof address === "object" && address !== null ? address.port : port;
      resolve({
        address: `http://127.0.0.1:${taken}/`,
        close: () =>
          new Promise((done) => {
            server.close(() => done());
            server.closeAllConnections();
          }),
      });
    });
  });
}

/** The path that an address asks for, without its first slash; no file's when it cannot be read. */
function pathIn(url: string): string {
  try {
    return decodeURIComponent(new URL(url, "http://loopback").pathname).slice(1);
  } catch {
    return "\0";
  }
}
