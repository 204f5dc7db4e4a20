import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { encodeFlac } from "../../lib/render/sound/index.js";
import { clicksAs, hasFfmpeg, soundOf, wavBytes } from "../formats/sound/soundFiles.js";
import { ROOT } from "../sources.js";

/** When the notes of the take begin, seconds. */
const NOTES = [0.25, 0.6, 1.1, 1.45, 2.05, 2.5] as const;

/** A small take: struck notes that ring for a while. */
const samples = Float32Array.from({ length: 3 * 44_100 }, (_, i) =>
  NOTES.reduce((sum, at, n) => {
    const since = i / 44_100 - at;
    const tone = Math.sin(2 * Math.PI * 220 * (1 + n / 6) * since) + 0.5 * Math.sin(2 * Math.PI * 1234 * since);
    return since < 0 ? sum : sum + 0.3 * tone * Math.exp(-since / 0.08);
  }, 0),
);

const CHROMIUM = "/usr/bin/chromium";
const isThere = existsSync(CHROMIUM);
if (!isThere) console.log(`listening in a browser is skipped: ${CHROMIUM} is not installed`);

/** Runs in the page: decodes by the browser's decoder or our own, and listens. */
const SCRIPT = `
import { decodeInBrowser, decodeSound, findOnsets } from "./lib/listen/index.js";
window.listen = async (base64, name, own) => {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const context = new OfflineAudioContext(1, 1, 44100);
  const opened = own ? await decodeSound(bytes, { name }) : await decodeInBrowser(bytes, context, { name });
  if (!opened.ok) return { problems: opened.problems, onsets: [] };
  const heard = await findOnsets(opened.value.sound, { family: "percussive" });
  return { problems: opened.value.problems(), onsets: heard.onsets.map(({ at }) => at) };
};`;

/** How far an onset may be from its note: the step between spectra it is sought in, and a short block of a lossy encoder (128 samples). */
const TOLERANCE = 0.01 + 128 / 44_100;

describe.skipIf(!isThere)("leeway/listen in a browser", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-page-"));
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    const bundle = await build({
      bundle: true,
      conditions: ["browser"],
      format: "iife",
      logLevel: "error",
      platform: "browser",
      stdin: { contents: SCRIPT, loader: "ts", resolveDir: ROOT },
      target: "es2022",
      write: false,
    });
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    page = await browser.newPage();
    page.on("pageerror", (error) => void complaints.push(error.message));
    await page.setContent("<!doctype html><title>listening</title>");
    await page.addScriptTag({ content: bundle.outputFiles[0]!.text });
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { force: true, recursive: true });
  });

  async function heardIn(bytes: Uint8Array, name: string, own: boolean) {
    const words = [Buffer.from(bytes).toString("base64"), name, own] as const;
    const heard = await page.evaluate(
      ([base64, file, mine]) =>
        (globalThis as unknown as { listen: (...words: unknown[]) => Promise<unknown> }).listen(base64, file, mine),
      words,
    );
    expect(complaints).toEqual([]);
    return heard as { readonly problems: readonly { readonly code: string }[]; readonly onsets: readonly number[] };
  }

  function expectNotes(onsets: readonly number[]): void {
    expect(onsets.length).toBe(NOTES.length);
    NOTES.forEach((at, i) => {
      expect(Math.abs(onsets[i]! - at)).toBeLessThanOrEqual(TOLERANCE);
    });
  }

  test("finds the onsets of a small take through the browser's decoder", async () => {
    const heard = await heardIn(wavBytes({ samples: [samples] }), "take.wav", false);
    expect(heard.problems).toEqual([]);
    expectNotes(heard.onsets);
  });

  test.skipIf(!hasFfmpeg)(
    "finds them in MP3 without a tag and in M4A, which browsers decode each in their way",
    async () => {
      const mp3 = clicksAs(folder, "take.mp3", ["-c:a", "libmp3lame", "-write_xing", "0"], samples).bytes;
      const heard = await heardIn(mp3, "take.mp3", false);
      expect(heard.problems.map(({ code }) => code)).toEqual(["RECORDING_START_UNSTATED"]);
      expectNotes(heard.onsets);
      const m4a = await heardIn(
        clicksAs(folder, "take.m4a", ["-c:a", "aac", "-b:a", "192k"], samples).bytes,
        "take.m4a",
        false,
      );
      // Builds of Chromium without that decoder say so.
      if (m4a.problems.length > 0) console.log("M4A in the browser is skipped: this Chromium does not decode it");
      else expectNotes(m4a.onsets);
    },
  );

  test("finds them with its own decoders", async () => {
    expectNotes((await heardIn(wavBytes({ samples: [samples], coding: "s24" }), "take.wav", true)).onsets);
    expectNotes((await heardIn(encodeFlac(soundOf([samples, samples])), "take.flac", true)).onsets);
    if (hasFfmpeg)
      expectNotes(
        (await heardIn(clicksAs(folder, "own.mp3", ["-c:a", "libmp3lame"], samples).bytes, "a.mp3", true)).onsets,
      );
  });

  test("answers bytes that are no sound with a problem", async () => {
    expect((await heardIn(new Uint8Array(100), "take.wav", false)).problems).toMatchObject([
      { code: "RECORDING_FORMAT_UNKNOWN" },
    ]);
    const cut = wavBytes({ samples: [samples] }).subarray(0, 20);
    expect((await heardIn(cut, "take.wav", false)).problems).toMatchObject([{ code: "RECORDING_DECODER_FAILED" }]);
  });
});
