import { existsSync } from "node:fs";
import { chromium, type Page } from "playwright-core";
import { PATIENCE } from "./practisePage.js";
import { type Scripts, servedScripts } from "./servedScripts.js";

const CHROMIUM = "/usr/bin/chromium";
/** Whether the tests of a browser can run here. */
export const isThere: boolean = existsSync(CHROMIUM);
if (!isThere) console.log(`tests in a browser are skipped: ${CHROMIUM} is not installed`);

/** A page in a browser of its own, served on loopback. */
export interface Served {
  readonly page: Page;
  /** Calls a function that the page's script put on `globalThis`. */
  call<Answer>(name: string, ...given: readonly unknown[]): Promise<Answer>;
  /** Everything the page asked for from elsewhere, or what went wrong in it. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

export interface ServedOptions extends Scripts {
  /** A WAV file that is played into the microphone, from when it is opened. */
  readonly microphone?: string;
  readonly permissions?: readonly string[];
}

/** Serves a script of `tests/browser/pages` and opens it in Chromium. */
export async function serve(options: ServedOptions): Promise<Served> {
  const { permissions = ["microphone"] } = options;
  const { origin, close } = await servedScripts(options);
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
    close: async () => {
      await browser.close();
      await close();
    },
  };
}

function flags(microphone: string | undefined): string[] {
  const listening =
    microphone === undefined
      ? []
      : ["--use-fake-device-for-media-stream", `--use-file-for-fake-audio-capture=${microphone}%noloop`];
  return ["--no-sandbox", "--use-fake-ui-for-media-stream", "--autoplay-policy=no-user-gesture-required", ...listening];
}
