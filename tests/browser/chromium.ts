import { existsSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { PATIENCE } from "./practisePage.js";

const CHROMIUM = "/usr/bin/chromium";
/** Whether the tests of a browser can run here. */
export const isThere: boolean = existsSync(CHROMIUM);
if (!isThere) console.log(`tests in a browser are skipped: ${CHROMIUM} is not installed`);

/** As strict as a school's server may be: nothing but files of its own, no code from text, no address but its own. */
const POLICY = "default-src 'none'; script-src 'self'; worker-src 'self'; connect-src 'self'; media-src 'self'";

/** A page in a browser of its own, served on loopback. */
export interface Served {
  readonly page: Page;
  /** Calls a function that the page's script put on `globalThis`. */
  call<Answer>(name: string, ...given: readonly unknown[]): Promise<Answer>;
  /** Everything the page asked for from elsewhere, or what went wrong in it. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

export interface ServedOptions {
  /** Script in `tests/browser/pages`. */
  readonly script: string;
  /** Further scripts, by address: paths from the root of the project. */
  readonly scripts?: Readonly<Record<string, string>>;
  /** A WAV file that is played into the microphone, from when it is opened. */
  readonly microphone?: string;
  /** Left out: the strict one; empty: none. */
  readonly policy?: string;
  readonly permissions?: readonly string[];
}

/** Serves a script of `tests/browser/pages` and opens it in Chromium. */
export async function serve(options: ServedOptions): Promise<Served> {
  const { policy = POLICY, permissions = ["microphone"] } = options;
  const files = new Map<string, string>();
  const scripts = { "/page.js": join("tests/browser/pages", options.script), ...options.scripts };
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
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: flags(options.microphone) });
  const context = await browser.newContext({ permissions: [...permissions] });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("pageerror", (error) => void complaints.push(error.message));
  page.on("console", (said) => said.type() === "error" && complaints.push(said.text()));
  page.on("request", (request) => {
    if (!request.url().startsWith(origin) && !request.url().startsWith("data:")) complaints.push(request.url());
  });
  await page.goto(`${origin}/`);
  return {
    page,
    complaints,
    call: (name, ...given) =>
      page.evaluate(
        ([of, words]) =>
          (globalThis as unknown as Record<string, (...words: readonly unknown[]) => Promise<never>>)[of]!(...words),
        [name, given] as const,
      ),
    close: () => closed(browser, server),
  };
}

async function closed(browser: Browser, server: Server): Promise<void> {
  await browser.close();
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
}

function flags(microphone: string | undefined): string[] {
  const listening =
    microphone === undefined
      ? []
      : ["--use-fake-device-for-media-stream", `--use-file-for-fake-audio-capture=${microphone}%noloop`];
  return ["--no-sandbox", "--use-fake-ui-for-media-stream", "--autoplay-policy=no-user-gesture-required", ...listening];
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
