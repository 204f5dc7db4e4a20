import { existsSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { expect } from "vitest";
import { serveFiles } from "../../lib/node/index.js";
import type { Score } from "../../lib/schema/index.js";
import { saidBy } from "../cli/said.js";

const CHROMIUM = "/usr/bin/chromium";
export const hasChromium: boolean = existsSync(CHROMIUM);
if (!hasChromium) console.log(`the practice page in a browser is skipped: ${CHROMIUM} is not installed`);

/** Milliseconds for which a page is waited for: nothing here measures time, and several browsers may share two cores. */
export const PATIENCE = 90_000;

export function openChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
}

/** A page made of courses by the command line, and served on loopback. */
export async function servedPage(
  courses: readonly string[],
  folder: string,
  {
    changed = () => undefined,
  }: { /** Called when the folder is made, before it is served. */ readonly changed?: () => void } = {},
): Promise<{ address: string; close(): Promise<void> }> {
  const made = await saidBy(["page", ...courses, "--out", folder]);
  if (made.status !== 0) throw new Error(made.err);
  changed();
  return serveFiles(
    new Map(
      readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map(({ parentPath, name }) => {
          const path = join(parentPath, name);
          return [path.slice(folder.length + 1), new Uint8Array(readFileSync(path))] as const;
        }),
    ),
  );
}

/** A visitor: a browser without a past, who notes every request that leaves the origin and everything that goes wrong on the page. */
export interface Visitor {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly strayed: readonly string[];
  readonly complaints: readonly string[];
}

export async function visitor(
  browser: Browser,
  address: string,
  {
    dark = false,
    width = 360,
    height = 740,
  }: { readonly dark?: boolean; readonly width?: number; readonly height?: number } = {},
): Promise<Visitor> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    acceptDownloads: true,
  });
  context.setDefaultTimeout(PATIENCE);
  const strayed: string[] = [];
  const complaints: string[] = [];
  const origin = address.startsWith("http") ? new URL(address).origin : address;
  context.on("request", (request) => {
    if (!request.url().startsWith(origin) && !/^(?:blob|data):/.test(request.url())) strayed.push(request.url());
  });
  const page = await context.newPage();
  page.on("pageerror", (error) => void complaints.push(error.message));
  page.on("console", (message) => message.type() === "error" && void complaints.push(message.text()));
  return { context, page, strayed, complaints };
}

/** Nothing left the origin, and nothing went wrong on the page. */
export function expectQuiet({ strayed, complaints }: Visitor): void {
  expect(strayed).toEqual([]);
  expect(complaints).toEqual([]);
}

/** Fills the first form: a student who taps. */
export async function enrolOn(page: Page, name: string): Promise<void> {
  await page.fill("#nick", name);
  await page.check("input[name=input][value=taps]");
  await page.click("button.go");
  await page.waitForSelector(".programme");
}

/**
 * Starts what the drill on the page has, and taps at the notes of the score, as somebody does who hears the band: by the moment at which the browser says that its first sound, the
 * beginning of the count-in, is heard. Each tap has the time it was meant for, however busy the machine is.
 */
export async function tapAlong(page: Page, { expected, countIn }: Pick<Score, "expected" | "countIn">): Promise<void> {
  await page.evaluate(() => {
    const { start } = AudioBufferSourceNode.prototype;
    const first = new Promise((resolve) => {
      AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
        AudioBufferSourceNode.prototype.start = start;
        resolve({ context: this.context, when });
        start.call(this, when, ...rest);
      };
    });
    Object.assign(globalThis, { first });
  });
  await page.click("#start");
  await page.waitForSelector("#pad");
  await page.evaluate(
    async ({ taps, countIn }) => {
      const pad = document.querySelector("#pad")!;
      const { first } = globalThis as unknown as { first: Promise<{ context: AudioContext; when: number }> };
      const { context, when } = await first;
      const told = () => context.getOutputTimestamp() as { contextTime: number; performanceTime: number };
      while (told().contextTime < when) await new Promise((resolve) => setTimeout(resolve, 20));
      const { contextTime, performanceTime } = told();
      const begun = performanceTime + 1000 * (when + countIn - contextTime);
      for (const at of taps) {
        const due = begun + 1000 * at;
        if (due > performance.now()) await new Promise((resolve) => setTimeout(resolve, due - performance.now()));
        const tap = new PointerEvent("pointerdown", { bubbles: true, button: 0 });
        Object.defineProperty(tap, "timeStamp", { value: due });
        pad.dispatchEvent(tap);
      }
    },
    { taps: expected.map(({ at }) => at), countIn },
  );
}

/** What axe-core finds wrong in what is shown: rule and element of each violation. */
export async function axeOn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: there } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await there.run();
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 200)}`));
  });
}

/** Writes a picture of a view for people to look at, when `LEEWAY_PICTURES` names a folder. */
export async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env.LEEWAY_PICTURES;
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  const width = page.viewportSize()!.width;
  await page.screenshot({ path: join(folder, `${name}-${width}.png`), fullPage: true });
}
