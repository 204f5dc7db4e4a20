import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { build } from "esbuild";
import { build as viteBuild } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";

/** An application that needs three packages nobody installed, and one thing for which it needs none. */
const APPLICATION = `
import { readSoundBank } from "leeway/sound";
import { decodeSound, encodeFlac, encodeWav } from "leeway/formats";
const sound = { rate: 44100, channels: [new Float32Array(64), new Float32Array(64)] };
const said = [
  await readSoundBank(new TextEncoder().encode("RIFF")),
  await decodeSound(encodeFlac(sound)),
  await decodeSound(encodeWav(sound)),
].map((each) => (each.ok ? "done" : each.problems.map(({ code, remedy }) => code + ": " + remedy).join()));
console.log(JSON.stringify(said));
`;
const SAID = [
  "SYNTHESISER_MISSING: npm install spessasynth_core, or leave the bank out to hear the built-in voices",
  expect.stringMatching(/^RECORDING_DECODER_MISSING: .*npm install libflacjs/),
  "done",
];

const folder = mkdtempSync(join(tmpdir(), "leeway-without-packages-"));
const application = join(folder, "application.mjs");
const sheet = join(folder, "sheet.mjs");

beforeAll(() => {
  const installed = join(folder, "node_modules", "leeway");
  mkdirSync(installed, { recursive: true });
  cpSync(dirname(dirname(builtEntry())), join(installed, "dist"), { recursive: true });
  cpSync(join(ROOT, "package.json"), join(installed, "package.json"));
  symlinkSync(join(ROOT, "node_modules", "yaml"), join(folder, "node_modules", "yaml"));
  writeFileSync(application, APPLICATION);
  writeFileSync(
    sheet,
    `import { renderSheet } from "leeway/sheet"; console.log(JSON.stringify((await renderSheet({}, undefined, {})).problems.map(({ code, remedy }) => [code, remedy])));`,
  );
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

/** What a program prints, as JSON. */
function printed(path: string): unknown {
  const { stdout, stderr } = spawnSync(process.execPath, [path], { encoding: "utf8" });
  if (stdout === "") throw new Error(stderr);
  return JSON.parse(stdout);
}

describe("an application without the optional packages", () => {
  test("is told which to install when it needs them", () => {
    expect(printed(application)).toEqual(SAID);
    expect(printed(sheet)).toEqual([["SHEET_PACKAGE_MISSING", "npm install fontkit pdfkit"]]);
  });

  test.each(["browser", "node", "neutral"] as const)(
    "is bundled by esbuild for %s, and told then",
    async (platform) => {
      const outfile = join(folder, `esbuild-${platform}.mjs`);
      const { warnings } = await build({
        ...{ bundle: true, entryPoints: [application], format: "esm", logLevel: "silent", outfile, platform },
        minify: true,
      });
      expect(warnings).toEqual([]);
      expect(printed(outfile)).toEqual(SAID);
    },
  );

  test("is bundled by Vite, which uses Rollup, and told then", async () => {
    await viteBuild({
      build: {
        lib: { entry: application, formats: ["es"], fileName: "application" },
        outDir: "vite",
        target: "es2022",
      },
      configFile: false,
      logLevel: "silent",
      root: folder,
    });
    expect(printed(join(folder, "vite", "application.mjs"))).toEqual(SAID);
  });
});
