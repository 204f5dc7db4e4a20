import { existsSync } from "node:fs";
import puppeteer, { type Browser, type Page } from "puppeteer-core";

const FIREFOX = "/usr/bin/firefox-esr";
/** Whether the tests of Firefox can run here. */
export const hasFirefox: boolean = existsSync(FIREFOX);
if (!hasFirefox) console.log(`tests in Firefox are skipped: ${FIREFOX} is not installed`);

/**
 * Opens Firefox over WebDriver BiDi. Sound may begin without a gesture and microphones are made up; on a machine without a device for sound its `AudioContext` stays suspended all the same, so that nothing
 * is heard in it.
 */
export function openFirefox(): Promise<Browser> {
  return puppeteer.launch({
    browser: "firefox",
    executablePath: FIREFOX,
    headless: true,
    protocolTimeout: 240_000,
    extraPrefsFirefox: {
      "media.autoplay.default": 0,
      "media.navigator.streams.fake": true,
      "media.navigator.permission.disabled": true,
    },
  });
}

/** A page, with what goes wrong in it and what it asks for from elsewhere. */
export interface FirefoxPage {
  readonly page: Page;
  readonly complaints: readonly string[];
}

/** Opens an address in a new tab of phone size, and waits for its document. */
export async function firefoxPage(browser: Browser, address: string): Promise<FirefoxPage> {
  const page = await browser.newPage();
  page.setDefaultTimeout(90_000);
  await page.setViewport({ width: 390, height: 800 });
  const complaints: string[] = [];
  const { origin } = new URL(address);
  page.on("pageerror", (error) => void complaints.push(String(error)));
  page.on("console", (said) => said.type() === "error" && void complaints.push(said.text()));
  page.on("request", (request) => {
    if (!request.url().startsWith(origin) && !/^(?:blob|data):/.test(request.url())) complaints.push(request.url());
  });
  await page.goto(address);
  return { page, complaints };
}
