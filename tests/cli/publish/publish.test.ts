import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openCourse } from "../../../lib/cli/input/courseFile.js";
import { closePublishFolder, openPublishFolder } from "../../../lib/cli/publish/folder.js";
import { publishPaper } from "../../../lib/cli/publish/paper.js";
import { publishPlan } from "../../../lib/cli/publish/plan.js";
import { publishPractice } from "../../../lib/cli/publish/practice.js";
import { fitsInZip } from "../../../lib/cli/publish/zips.js";
import { openEngraver } from "../../../lib/cli/render/sheets.js";
import { checkPublication, type Publication } from "../../../lib/schema/index.js";
import { cautionsIn, loadWords } from "../../../lib/words/index.js";
import { axeOn, enrolOn, hasChromium, openChromium, picture, visitor } from "../../browser/practisePage.js";
import { pythonWith } from "../../python.js";
import { isThere } from "../../render/sound/programs.js";
import { ROOT } from "../../sources.js";
import { saidBy, useFolder } from "../said.js";
import { ADDRESS, COURSE, type Ran, run, sums, tree } from "./published.js";

const folder = useFolder("leeway-publish-");
const site = join(folder, "site");
const encodes = isThere("ffmpeg", "ffmpeg", "publishing in compressed sound");
const FORMATS = encodes ? ["mp3", "flac"] : ["flac"];
const ASKED = ["--as", FORMATS.join(","), "--address", ADDRESS.slice(0, -1)];
const publish = (course: string, out: string, more: readonly string[] = []): readonly string[] => [
  "publish",
  course,
  "--out",
  out,
  ...ASKED,
  ...more,
];
const manifest = (): Publication => JSON.parse(readFileSync(join(site, "publication.json"), "utf8")) as Publication;

let first: Ran;
/** The checksums of what the first run made. */
let whole: Readonly<Record<string, string>>;
let german: readonly string[];
beforeAll(async () => {
  writeFileSync("course.yaml", COURSE);
  first = await run(publish("course.yaml", "site", ["--json"]));
  expect(first.status, first.err).toBe(0);
  whole = sums(site);
  const words = await loadWords("de");
  if (!words.ok) throw new Error("no German");
  german = cautionsIn(words.value);
}, 600_000);

describe("leeway publish", () => {
  test("writes a folder with the pages, the sheets, the sound of each version, a file for each instrument and the overview", () => {
    const { files, made, kept, removed } = JSON.parse(first.out) as Record<string, number>;
    expect({ files, kept, removed }).toEqual({ files: made, kept: 0, removed: 0 });
    const of = (kind: string): Publication["files"] => manifest().files.filter((each) => each.kind === kind);
    // One drill of two rungs in two mixes; trumpet, tuba, kit and score.
    expect(of("sound").length).toBe(4 * FORMATS.length);
    expect(
      of("sheet")
        .map(({ player, part, score }) => player ?? part ?? score)
        .sort(),
    ).toEqual(["trumpet", "tuba", "kit", true].sort());
    expect(of("silent-zip").map(({ file }) => file)).toEqual(["zips/trumpet.zip", "zips/tuba.zip"]);
    expect(of("sound-zip").map(({ file }) => file)).toEqual(["zips/sound.zip"]);
    for (const path of ["index.html", "overview.pdf", "practice.html", "practice/index.html", "page.css"])
      expect(existsSync(join(site, path)), path).toBe(true);
  });

  test("names every file, and nothing but files that a web server hands out without signs of escape", () => {
    const found = sums(site);
    const { "publication.json": _, ...others } = found;
    expect(Object.fromEntries(manifest().files.map(({ file, sha256 }) => [file, sha256]))).toEqual(others);
    for (const path of Object.keys(found))
      expect(path).toMatch(/^(?:[A-Za-z0-9][A-Za-z0-9._-]*\/)*[A-Za-z0-9][A-Za-z0-9._-]*$/);
  });

  test("writes a manifest that its schema and Python's jsonschema accept, without a time or a place of this machine", () => {
    expect(checkPublication(manifest())).toMatchObject({ ok: true });
    const text = readFileSync(join(site, "publication.json"), "utf8");
    expect(text).not.toContain(folder);
    expect(manifest()).toMatchObject({ address: ADDRESS, course: { language: "de" }, cautions: german });
    const python = pythonWith("jsonschema");
    if (python === undefined) return;
    const script =
      "import json, sys, jsonschema; jsonschema.Draft202012Validator(json.load(open(sys.argv[1]))).validate(json.load(open(sys.argv[2])))";
    const schema = join(ROOT, "schemas", "publication.schema.json");
    const judged = spawnSync(python, ["-c", script, schema, join(site, "publication.json")], { encoding: "utf8" });
    expect([judged.status, judged.stderr]).toEqual([0, ""]);
  });

  test("zips for each instrument what it needs, as Python's zipfile reads it", () => {
    const python = pythonWith("zipfile");
    if (python === undefined) return;
    const script = `import hashlib, json, sys, zipfile
z = zipfile.ZipFile(sys.argv[1])
assert z.testzip() is None
print(json.dumps({i.filename: [hashlib.sha256(z.read(i)).hexdigest(), list(i.date_time)] for i in z.infolist()}))`;
    const own = new Map(manifest().files.map((each) => [each.file, each.sha256]));
    /** The files in a ZIP file below the folder of the course, each as the published folder has it. */
    const namesIn = (zip: string): readonly string[] => {
      const read = spawnSync(python, ["-c", script, join(site, "zips", zip)], { encoding: "utf8" });
      expect(read.stderr).toBe("");
      const entries = Object.entries(JSON.parse(read.stdout) as Record<string, [string, number[]]>);
      for (const [path, [sum, at]] of entries) {
        const name = path.replace("short-walk/", "");
        if (name !== "index.html") expect([name, sum]).toEqual([name, own.get(name)]);
        expect(at.slice(0, 3)).toEqual([1980, 1, 1]);
      }
      return entries.map(([path]) => path.replace("short-walk/", ""));
    };
    const names = namesIn("tuba.zip");
    expect(names.filter((path) => path.startsWith("sheets/"))).toEqual([expect.stringContaining("_tuba.pdf")]);
    for (const path of ["index.html", "practice.html", "overview.pdf", "page.css"]) expect(names).toContain(path);
    // What sounds is the same for all, and there once: it is unpacked into the same folder.
    expect(names.filter((path) => path.startsWith("sound/"))).toEqual([]);
    const sounds = namesIn("sound.zip");
    expect(sounds.length).toBe(4);
    expect(sounds.every((path) => path.startsWith("sound/") && path.endsWith(FORMATS[0]!))).toBe(true);
  });

  test("has the cautions on its pages, on paper and in the tags of what sounds, in the course's language", () => {
    const html = readFileSync(join(site, "index.html"), "utf8");
    for (const caution of german) expect(html).toContain(caution);
    expect(html).toContain('<html lang="de">');
    if (encodes)
      for (const { file } of manifest().files.filter(({ kind }) => kind === "sound")) {
        const asked = ["-v", "error", "-show_entries", "format_tags:stream_tags", join(site, file)];
        const { stdout } = spawnSync("ffprobe", asked, { encoding: "utf8" });
        expect(stdout.replaceAll(/\s+/g, " "), file).toContain(german.join(" "));
        // A new edition sounds as the one before: it is not told in what sounds.
        expect(stdout).not.toContain("1.0.0");
      }
    if (!isThere("pdftotext", "poppler-utils", "the cautions on paper")) return;
    for (const { file } of manifest().files.filter(({ kind }) => kind === "sheet" || kind === "overview")) {
      const { stdout } = spawnSync("pdftotext", ["-raw", join(site, file), "-"], { encoding: "utf8" });
      const text = stdout.replaceAll(/\s+/g, " ");
      for (const caution of german) expect(text, file).toContain(caution);
      const leads = file === "overview.pdf" ? ADDRESS : `${ADDRESS}practice/#/drill/Gehen%20und%20Landen/1`;
      expect(text.replaceAll(" ", ""), file).toContain(leads);
    }
  });

  test("touches nothing when nothing changed, and of a changed tolerance makes only what says it", async () => {
    const before = tree(site);
    const again = await run(publish("course.yaml", "site", ["--json"]));
    expect(JSON.parse(again.out)).toMatchObject({ made: 0, kept: before.size - 1, removed: 0 });
    expect(tree(site)).toEqual(before);

    writeFileSync("changed.yaml", COURSE.replace("landing: 120 ms", "landing: 90 ms").replace("1.0.0", "1.1.0"));
    const changed = await run(publish("changed.yaml", "site", ["--json"]));
    expect(changed.status, changed.err).toBe(0);
    const after = tree(site);
    const touched = [...after].filter(([path, { at }]) => before.get(path)?.at !== at).map(([path]) => path);
    expect(
      touched.filter((path) => /^(?:sound|strips|practice\/(?!courses|index|service|sheets|page))/.test(path)),
    ).toEqual([]);
    for (const path of ["overview.pdf", "practice.html", "zips/tuba.zip", "index.html"])
      expect(touched).toContain(path);
    expect(JSON.parse(changed.out)).toMatchObject({ made: touched.length - 1, kept: after.size - touched.length });
  }, 300_000);

  test("removes what is no longer of the course, and leaves what somebody else put there or changed", async () => {
    writeFileSync(join(site, "CNAME"), "quay.example\n");
    const strip = manifest().files.find(({ kind }) => kind === "strip")!.file;
    const less = await run(publish("changed.yaml", "site", ["--mix", "play", "--json"]));
    expect(JSON.parse(less.out)).toMatchObject({ removed: 2 * FORMATS.length });
    expect(manifest().files.filter(({ mix }) => mix === "listen")).toEqual([]);
    expect(Object.keys(sums(site)).filter((path) => path.includes("listen"))).toEqual([]);
    expect(existsSync(join(site, "CNAME"))).toBe(true);
    expect(existsSync(join(site, strip))).toBe(true);
  }, 300_000);

  test("goes on after it was killed, with no half file under its name, and makes the same bytes on another day and in another time zone", async () => {
    const record = "killed/sound/.publishing-sound.jsonl";
    const lines = (): number => (existsSync(record) ? readFileSync(record, "utf8").split("\n").length - 1 : 0);
    const asked = publish("course.yaml", "killed", ["--json"]);
    const killed = await run(asked, { until: () => lines() >= 2 });
    expect(killed.status).toBe(null);
    const finished = Object.entries(sums("killed")).filter(([path]) => !/(?:^|\/)\./.test(path));
    for (const [path, sum] of finished) expect([path, sum]).toEqual([path, whole[path]]);
    expect(finished.length).toBeLessThan(Object.keys(whole).length);

    const day = `const D=Date;globalThis.Date=class extends D{constructor(...a){super(...(a.length?a:[D.now()+4e10]))}static now(){return D.now()+4e10}}`;
    const env = { NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(day)}`, TZ: "Asia/Tokyo" };
    const gone = await run(asked, { env });
    expect(gone.status, gone.err).toBe(0);
    expect((JSON.parse(gone.out) as { kept: number }).kept).toBeGreaterThanOrEqual(2);
    expect(sums("killed")).toEqual(whole);
  }, 600_000);

  test("says before which files and bytes there would be, exactly, and leaves the folder as it is", async () => {
    const counts = (out: string) => {
      const { files, bytes, made, kept, removed } = JSON.parse(out) as Record<string, number>;
      return { files, bytes, made, kept, removed };
    };
    cpSync(site, "counted", { recursive: true });
    const before = tree("counted");
    const more = ["--mix", "play", "--rungs", "1-1"];
    const asked = await run(publish("changed.yaml", "counted", [...more, "--dry-run", "--json"]));
    expect(asked.status, asked.err).toBe(0);
    expect(tree("counted")).toEqual(before);
    const real = await run(publish("changed.yaml", "counted", [...more, "--json"]));
    expect(counts(asked.out)).toEqual(counts(real.out));
    expect(counts(real.out).removed).toBeGreaterThan(0);
    const loaded = await loadWords("en");
    if (!loaded.ok) throw new Error("no English");
    const english = loaded.value;
    const told = await run(publish("changed.yaml", "counted", [...more, "--dry-run", "--language", "en"]));
    expect(told.out).toMatch(/^ {2}sound: 2 files, [\d.]+ MB$/m);
    expect(told.out).toContain("the folder is as it was");
    for (const caution of cautionsIn(english)) expect(told.err).toContain(caution);
  }, 300_000);

  test("refuses an address that is none, a format that does not sound, and a folder with an index page from elsewhere", async () => {
    for (const address of ["quay.example", "ftp://quay.example/", "https://quay.example/?a=1"])
      expect(await saidBy(["publish", "course.yaml", "--out", "x", "--address", address])).toMatchObject({ status: 2 });
    expect(await saidBy(["publish", "course.yaml", "--out", "x", "--as", "pdf"])).toMatchObject({ status: 2 });
    mkdirSync("theirs");
    writeFileSync("theirs/index.html", "<p>ours");
    const said = await saidBy(publish("course.yaml", "theirs", ["--json"]));
    expect(JSON.parse(said.out).problems[0]).toMatchObject({ code: "PUBLICATION_FOLDER_TAKEN" });
    expect(sums("theirs")).toEqual({ "index.html": expect.any(String) });
  });

  test("takes a manifest that somebody wrote for no more than it is: nothing outside the folder is removed", async () => {
    mkdirSync("hurt");
    writeFileSync("outside.txt", "keep");
    const sum = sums(folder)["outside.txt"]!;
    const entry = { file: "../outside.txt", bytes: 4, sha256: sum, from: sum, kind: "index" };
    writeFileSync("hurt/publication.json", JSON.stringify({ ...manifest(), files: [entry] }));
    const opened = await openPublishFolder("hurt");
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    expect([...opened.value.earlier.keys()]).toEqual(["../outside.txt"]);
    expect(await closePublishFolder(opened.value, { ...manifest(), files: [] })).toMatchObject({ ok: true, value: 0 });
    expect(readFileSync("outside.txt", "utf8")).toBe("keep");
  });

  test("keeps nothing half made of what was stopped (PUBLISHING_STOPPED)", async () => {
    const course = openCourse("course.yaml", new Map());
    const opened = await openPublishFolder("stopped");
    const words = await loadWords("de");
    if (!course.ok || !opened.ok || !words.ok) throw new Error("not opened");
    const of = { file: "course.yaml", sum: "", address: undefined };
    const plan = publishPlan(course.value, of, { as: ["flac"], out: "stopped", paper: "a4" });
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    const stopped = { words: words.value, signal: AbortSignal.abort(), engraver: openEngraver };
    for (const step of [publishPaper, publishPractice])
      expect(await step(opened.value, plan.value, stopped)).toMatchObject({
        ok: false,
        problems: [{ code: "PUBLISHING_STOPPED" }],
      });
    expect(Object.keys(sums("stopped")).filter((path) => /^(?:sheets|practice)/.test(path))).toEqual([]);
    expect(readFileSync("stopped/.publishing.jsonl", "utf8")).toBe("");
  });

  test("leaves out the file of an instrument that would be larger than ZIP files can be (PUBLICATION_ZIP_TOO_LARGE)", () => {
    expect(fitsInZip([{ file: "sound/a.wav", bytes: 4_294_000_000 }])).toBe(true);
    expect(fitsInZip([{ file: "sound/a.wav", bytes: 4_294_967_200 }])).toBe(false);
  });
});

describe.skipIf(!hasChromium)("a published folder in a browser", () => {
  let browser: Browser;
  let served: { readonly address: string; close(): void };
  beforeAll(async () => {
    browser = await openChromium();
    served = await plainServer("site");
  }, 300_000);
  afterAll(async () => {
    await browser?.close();
    served?.close();
  });

  test("has an index page on which every link leads somewhere and every sound plays for as long as its take, without a script or a stray request", async () => {
    const guest = await visitor(browser, served.address);
    const { page } = guest;
    await page.goto(served.address);
    expect(await page.textContent("h1")).toBe("Kurzer Weg");
    expect(await page.textContent("h2:has-text('Gehen')")).toBe("Gehen & <Landen>");
    const links = await page.$$eval("[href],[src],[srcset]", (all) =>
      all.map((each) => {
        const to = each.getAttribute("href") ?? each.getAttribute("src") ?? each.getAttribute("srcset")!;
        return new URL(to, document.baseURI).href;
      }),
    );
    expect(links.length).toBeGreaterThan(20);
    for (const link of new Set(links))
      if (link !== ADDRESS) expect([link, (await fetch(link, { method: "HEAD" })).status]).toEqual([link, 200]);
    // 24 beats (count-in, twice two bars, outro), a quarter of a second before and a second after them.
    const durations = await durationsOn(page);
    const versions = await page.locator("audio").count();
    expect(durations.length).toBe(FORMATS.length * versions);
    const seconds = [150, 160].map((tempo) => (24 * 60) / tempo + 1.25);
    // A frame of MP3 is 26 ms.
    for (const [i, duration] of durations.entries())
      expect(Math.abs(duration - seconds[Math.floor((2 * i) / durations.length)]!)).toBeLessThan(0.03);
    await page.$eval("audio", async (audio: HTMLAudioElement) => {
      audio.muted = true;
      await audio.play();
      while (audio.currentTime < 0.2) await new Promise((resolve) => setTimeout(resolve, 20));
      audio.pause();
    });
    expect(await page.evaluate(() => document.scripts.length)).toBe(0);
    expect(await axeOn(page)).toEqual([]);
    await picture(page, "published");
    expect([guest.strayed, guest.complaints]).toEqual([[], []]);
    await guest.context.close();
  }, 120_000);

  test("is fit for dark rooms and for paper", async () => {
    const guest = await visitor(browser, served.address, { dark: true, width: 1000 });
    await guest.page.goto(served.address);
    expect(await axeOn(guest.page)).toEqual([]);
    await guest.page.emulateMedia({ media: "print", colorScheme: "light" });
    expect(await guest.page.isVisible("audio")).toBe(false);
    expect(await guest.page.isVisible("h3")).toBe(true);
    await guest.context.close();
  });

  test("leads to the practice page, and from a rung to that rung", async () => {
    const guest = await visitor(browser, served.address);
    const { page } = guest;
    await page.goto(served.address);
    await page.click("a.go");
    await enrolOn(page, "Möwe");
    await page.goto(served.address);
    await page.click("li:nth-of-type(2) > p > a");
    await page.waitForSelector("text=/Sprosse 2 von 2/");
    expect([guest.strayed, guest.complaints]).toEqual([[], []]);
    await guest.context.close();
  }, 120_000);

  test("can be listened to from a disk, without any server", async () => {
    const address = pathToFileURL(join(folder, "site/index.html")).href;
    const guest = await visitor(browser, address.replace("index.html", ""));
    await guest.page.goto(address);
    expect(await guest.page.$eval("main", (main) => getComputedStyle(main).maxWidth)).toBe("760px");
    for (const duration of await durationsOn(guest.page)) expect(duration).toBeGreaterThan(10);
    expect([guest.strayed, guest.complaints]).toEqual([[], []]);
    await guest.context.close();
  });
});

/** The length of each sound on the page, in each of its formats, s. */
function durationsOn(page: Page): Promise<readonly number[]> {
  return page.$$eval("audio source", (all) =>
    Promise.all(
      all.map(
        (source) =>
          new Promise<number>((resolve, reject) => {
            const audio = new Audio((source as HTMLSourceElement).src);
            audio.onloadedmetadata = () => resolve(audio.duration);
            audio.onerror = () => reject(new Error(`${audio.src}: ${audio.error?.message}`));
            audio.load();
          }),
      ),
    ),
  );
}

/** Python's own server of static files, on loopback. */
async function plainServer(of: string): Promise<{ readonly address: string; close(): void }> {
  const python = pythonWith("http.server") ?? "python3";
  const server = spawn(python, ["-u", "-m", "http.server", "0", "--bind", "127.0.0.1", "--directory", of]);
  const port = await new Promise<string>((resolve, reject) => {
    server.on("error", reject);
    server.stdout.on("data", (text: Buffer) => {
      const found = /port (\d+)/.exec(text.toString());
      if (found !== null) resolve(found[1]!);
    });
  });
  return { address: `http://127.0.0.1:${port}/`, close: () => void server.kill() };
}
