import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { build } from "esbuild";

/** As strict as a school's server may be: nothing but files of its own, no code from text, no address but its own. */
const POLICY = "default-src 'none'; script-src 'self'; worker-src 'self'; connect-src 'self'; media-src 'self'";

export interface Scripts {
  /** Script in `tests/browser/pages`. */
  readonly script: string;
  /** Further scripts, by address: paths from the root of the project. */
  readonly scripts?: Readonly<Record<string, string>>;
  /** Left out: the strict one; empty: none. */
  readonly policy?: string;
}

/** Serves a page with a script of `tests/browser/pages` on loopback, for any browser. */
export async function servedScripts({
  policy = POLICY,
  ...of
}: Scripts): Promise<{ readonly origin: string; close(): Promise<void> }> {
  const files = new Map<string, string>();
  const scripts = { "/page.js": join("tests/browser/pages", of.script), ...of.scripts };
  for (const [address, path] of Object.entries(scripts)) files.set(address, await bundled(path));
  const server = createServer((request, response) => {
    const text =
      request.url === "/"
        ? '<!doctype html><title>hands</title><script src="/page.js"></script>'
        : files.get(request.url!);
    response.writeHead(text === undefined ? 404 : 200, {
      "content-type": request.url === "/" ? "text/html" : "text/javascript",
      ...(policy === "" ? {} : { "content-security-policy": policy }),
    });
    response.end(text);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: async () => {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}

async function bundled(path: string): Promise<string> {
  const { outputFiles } = await build({
    bundle: true,
    conditions: ["browser"],
    define: { "import.meta.url": '"/"' },
    entryPoints: [resolve(path)],
    format: "iife",
    logLevel: "error",
    platform: "browser",
    target: "es2022",
    write: false,
  });
  return outputFiles[0]!.text;
}
