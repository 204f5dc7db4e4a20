import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CAUTIONS } from "../../../lib/base/index.js";
import { readMidiFile, readMusicXml } from "../../../lib/formats/index.js";
import { builtEntry } from "../../built.js";
import { ROOT } from "../../sources.js";
import { must } from "../../time/shorthand.js";
import { type Said, saidBy, useFolder } from "../said.js";

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");

const folder = useFolder("leeway-render-");

interface Manifest {
  readonly asked: unknown;
  readonly course: { readonly sha256: string };
  readonly files: readonly {
    readonly file: string;
    readonly bytes: number;
    readonly sha256: string;
    readonly format: string;
    readonly drill?: string;
    readonly player?: string;
  }[];
}

/** Runs the command in this process, in the folder of the tests. */
const leeway = (...words: readonly string[]): Promise<Said> => saidBy(["render", ...words]);
const manifestIn = (out: string): Manifest =>
  JSON.parse(readFileSync(join(folder, out, "leeway-manifest.json"), "utf8")) as Manifest;
const filesIn = (out: string): readonly string[] =>
  readdirSync(join(folder, out), { recursive: true, withFileTypes: true })
    .filter((found) => found.isFile())
    .map((found) =>
      join(found.parentPath, found.name)
        .slice(join(folder, out).length + 1)
        .replaceAll("\\", "/"),
    )
    .sort();
const sha256 = (bytes: Uint8Array | string): string => createHash("sha256").update(bytes).digest("hex");
const codesIn = (out: string): readonly string[] =>
  (JSON.parse(out) as { problems: { code: string }[] }).problems.map(({ code }) => code);

/** What is said on standard error when files that sound were made. */
const cautions = `${CAUTIONS.join("\n")}\n`;

describe("leeway render", () => {
  test("draws what sounds when, and the ladders of a drill once", async () => {
    const said = await leeway(COURSE, "half-bar", "1", "--mix", "play", "listen", "--as", "chart", "--out", "drawn");
    expect(said).toEqual({ status: 0, out: "3 files and leeway-manifest.json in drawn\n", err: cautions });
    const { files } = manifestIn("drawn");
    expect(files.map(({ file, format }) => [file, format])).toEqual([
      ["half-bar/01-half-bar-76-listen_chart.svg", "chart"],
      ["half-bar/01-half-bar-76-play_chart.svg", "chart"],
      ["half-bar/half-bar-ladders.svg", "chart"],
    ]);
    for (const { file, sha256: sum } of files) {
      const svg = readFileSync(join(folder, "drawn", file), "utf8");
      expect(sha256(svg)).toBe(sum);
      expect(svg).toMatch(/^<svg [\s\S]*<title>[\s\S]*<\/svg>\s*$/);
    }
  });

  test("writes one rung in one mix, with a manifest that says what was made and its checksums", async () => {
    const said = await leeway(
      COURSE,
      "half-bar",
      "1",
      "--mix",
      "play",
      "--as",
      "midi,musicxml",
      "--out",
      "one",
      "--for",
      "trumpet",
    );
    expect(said).toEqual({ status: 0, out: "4 files and leeway-manifest.json in one\n", err: cautions });
    const { files, course, asked } = manifestIn("one");
    expect(files.map(({ file }) => file)).toEqual([
      "half-bar/01-half-bar-76-play.mid",
      "half-bar/01-half-bar-76-play_concert-score.musicxml",
      "half-bar/01-half-bar-76-play_student.mid",
      "half-bar/01-half-bar-76-play_trumpet.musicxml",
    ]);
    expect(filesIn("one")).toEqual([...files.map(({ file }) => file), "leeway-manifest.json"].sort());
    expect(course.sha256).toBe(sha256(readFileSync(COURSE)));
    expect(asked).toEqual({
      drill: "half-bar",
      rung: "1",
      mixes: ["play"],
      players: ["trumpet"],
      formats: ["midi", "musicxml"],
    });
    for (const { file, bytes, sha256: sum } of files) {
      const content = readFileSync(join(folder, "one", file));
      expect(content.length).toBe(bytes);
      expect(sha256(content)).toBe(sum);
    }
    expect(must(readMidiFile(readFileSync(join(folder, "one", "half-bar/01-half-bar-76-play.mid")))).format).toBe(1);
    const xml = readFileSync(join(folder, "one", "half-bar/01-half-bar-76-play_trumpet.musicxml"));
    expect(must(readMusicXml(xml)).parts).toHaveLength(1);
  });

  test("writes the same bytes for the same command, the manifest's too", async () => {
    const asked = ["half-bar", "--rungs", "2-3", "--as", "midi,musicxml", "--for", "trumpet", "tuba"];
    for (const out of ["again-1", "again-2"]) expect((await leeway(COURSE, ...asked, "--out", out)).status).toBe(0);
    expect(filesIn("again-1")).toEqual(filesIn("again-2"));
    for (const file of filesIn("again-1"))
      expect(readFileSync(join(folder, "again-1", file))).toEqual(readFileSync(join(folder, "again-2", file)));
  });

  test("takes every mix of every rung of a drill, and every drill of a course, when none is named", async () => {
    const text = readFileSync(join(ROOT, "tests", "cli", "quay.yaml"), "utf8");
    writeFileSync(join(folder, "few.yaml"), text.replace("to: 2 bars", "to: 1 bar").replace("to: 112", "to: 88"));
    expect((await leeway("few.yaml", "half-bar", "--out", "drill")).status).toBe(0);
    const drill = manifestIn("drill").files.map(({ file }) => file);
    const numbers = new Set(drill.map((file) => /^half-bar\/(\d\d)-/.exec(file)?.[1]));
    expect([...numbers].sort()).toEqual(["01", "02", "03", "04"]);
    for (const mix of ["alone", "play"]) expect(drill.some((file) => file.includes(`-${mix}`))).toBe(true);
    expect((await leeway("few.yaml", "--out", "course")).status).toBe(0);
    const course = manifestIn("course").files.map(({ file }) => file);
    expect(course).toEqual(expect.arrayContaining(drill));
    expect(new Set(course.map((file) => file.split("/")[0]))).toEqual(new Set(["half-bar", "steady"]));
  });

  test("names every file so that a web server serves it as it is written, and a person knows it in any folder", async () => {
    const words = ["--rungs", "1", "--as", "midi,musicxml,chart,svg", "--for", "trumpet", "B flat clarinet", "--out"];
    const plain = new Map<string, string>();
    for (const by of ["drill", "rung", "player"]) {
      expect((await leeway(COURSE, "half-bar", ...words, by, "--folders", by)).status).toBe(0);
      for (const { file, sha256: sum, player } of manifestIn(by).files) {
        // RFC 3986, section 2.3: unreserved characters need no escape.
        expect(file).toMatch(/^[\w.~/-]+$/);
        const path = file.split("/");
        const own = path.at(-1)!;
        expect(own).toContain("half-bar");
        expect(plain.get(own) ?? sum, own).toBe(sum);
        plain.set(own, sum);
        const folders = path.slice(0, -1);
        const isOfRung = /^01-/.test(own);
        if (by === "drill") expect(folders).toEqual(["half-bar"]);
        if (by === "rung") expect(folders).toEqual(isOfRung ? ["half-bar", "01-76"] : ["half-bar"]);
        if (by === "player")
          expect(folders).toEqual([player?.replaceAll(" ", "-").toLowerCase() ?? "everyone", "half-bar"]);
      }
    }
  });

  test("prints the manifest as JSON when asked", async () => {
    const said = await leeway(COURSE, "half-bar", "1", "--out", "json", "--json");
    expect(JSON.parse(said.out)).toEqual(manifestIn("json"));
  });

  test("renders sound with a whole file under each name and no other left over", () => {
    // A process of its own: the threads that make sound run the built worker.
    const words = ["render", COURSE, "half-bar", "1", "--mix", "play", "--as", "wav", "--out", "sound"];
    const said = spawnSync(process.execPath, [builtEntry(), ...words], { cwd: folder, encoding: "utf8" });
    expect(said).toMatchObject({ status: 0, stderr: cautions });
    expect(filesIn("sound")).toEqual(["half-bar/01-half-bar-76-play.wav", "leeway-manifest.json", "sound-files.jsonl"]);
    const wav = readFileSync(join(folder, "sound", "half-bar/01-half-bar-76-play.wav"));
    // RIFF WAVE: the size in the header counts all but the first eight bytes.
    expect(wav.subarray(0, 4).toString("latin1")).toBe("RIFF");
    expect(wav.readUInt32LE(4)).toBe(wav.length - 8);
  });

  test("draws sheets for each player, with the notation engraver at hand", async () => {
    const said = await leeway(
      COURSE,
      "half-bar",
      "1",
      "--as",
      "pdf,svg",
      "--for",
      "trumpet",
      "tuba",
      "--out",
      "sheets",
    );
    expect(said.status, said.err).toBe(0);
    const { files } = manifestIn("sheets");
    expect(files.map(({ drill }) => drill)).toEqual(files.map(() => "half-bar"));
    expect(files.filter(({ format }) => format === "pdf").map(({ player }) => player)).toEqual(["trumpet", "tuba"]);
    expect(
      readFileSync(join(folder, "sheets", "half-bar/half-bar-sheet_trumpet.pdf"))
        .subarray(0, 5)
        .toString(),
    ).toBe("%PDF-");
  });

  test("prints the overview of a whole course, with what it is about", async () => {
    const said = await leeway(COURSE, "--rungs", "1", "--as", "pdf,svg", "--for", "tuba", "--out", "whole");
    expect(said.status, said.err).toBe(0);
    const of = manifestIn("whole").files.filter(({ drill }) => drill === undefined);
    const [first, ...others] = of.map(({ file }) => file);
    expect(first).toBe("overview.pdf");
    expect(others).toEqual(others.map((_, i) => `overview_${i + 1}.svg`));
    const svg = readFileSync(join(folder, "whole", others[0]!), "utf8").replaceAll(/<[^>]*>/g, " ");
    expect(svg.replaceAll(/\s+/g, " ")).toContain("Sing the bass line in your head while it is gone.");
  });

  test("gives drills, mixes and instruments whose names are alike files of their own, whatever is rendered of them", async () => {
    // Names that differ in signs a file name does not keep, in case or by a number, or that are words of the file name itself.
    const drills = ["half-bar", "half_bar", "half.bar", "Half-bar", "straight"];
    const instruments = [
      "quay horn",
      "quay-horn",
      "quay_horn",
      "Quay-Horn",
      "concert score",
      "quay horn 1",
      "Cornet",
      "bell",
    ];
    const text = readFileSync(join(ROOT, "tests", "cli", "quay.yaml"), "utf8");
    const half = /^ {2}half-bar:\n(?: {4}.*\n)*/m.exec(text)![0];
    const described = instruments
      .map((name) => `  "${name}": { sounds: perfect fifth lower, lowest: B1, highest: F6 }\n`)
      .join("");
    const mixed = half.replace("      alone:", '      "play - student": { kit: drops, lead: off }\n      alone:');
    const copies = drills.map((name) => mixed.replace("half-bar", name)).join("");
    const players = [...instruments, "cornet"];
    const mixes = ["play", "play - student"];
    const asked = ["--rungs", "1", "--mix", ...mixes, "--as", "midi,musicxml,chart", "--for", ...players];
    const course = text
      .replace(half, copies)
      .replace(/^ {2}steady:\n(?: {4}.*\n)*/m, "")
      .replace(/^ {4}needs:.*\n/gm, "");
    writeFileSync(join(folder, "alike.yaml"), `instruments:\n${described}${course}`);
    const said = await leeway("alike.yaml", ...asked, "--out", "alike");
    expect(said.status, said.err).toBe(0);
    const { files } = manifestIn("alike");
    // For each drill: the ladders, in each mix MIDI of all and of the student, the concert score and a chart, and a part for each player, where other parts fall silent.
    expect(files).toHaveLength(drills.length * (1 + mixes.length * (4 + players.length)));
    expect(new Set(files.map(({ file }) => file.normalize("NFKC").toLowerCase())).size).toBe(files.length);
    for (const { file, sha256: sum } of files) expect(sha256(readFileSync(join(folder, "alike", file)))).toBe(sum);
    const names = files.map(({ file }) => file);
    expect(names).toContain("straight/01-straight-0.5-bar-84-play_bell.musicxml");
    expect(names).toContain("straight/01-straight-0.5-bar-84-play_concert-score.musicxml");
    // What is chosen changes no name.
    const one = ["half_bar", "1", "--mix", "play", "--as", "musicxml", "--for", "quay_horn"];
    expect((await leeway("alike.yaml", ...one, "--out", "alike-one")).status).toBe(0);
    expect(manifestIn("alike-one").files.every(({ file }) => names.includes(file))).toBe(true);
    // A page of a sheet has a number, as a name may have.
    expect(
      (await leeway("alike.yaml", "half_bar", "--rungs", "1", "--as", "svg", "--for", ...players, "--out", "pages"))
        .status,
    ).toBe(0);
    const pages = manifestIn("pages").files;
    expect(new Set(pages.map(({ file }) => file.toLowerCase())).size).toBe(pages.length);
    for (const { file, sha256: sum } of pages) expect(sha256(readFileSync(join(folder, "pages", file)))).toBe(sum);
  });

  test("leaves whole files only when it is interrupted, and says so", async () => {
    // The whole course, so that it is far from its end whenever this process comes to look.
    const child = spawn(process.execPath, [builtEntry(), "render", COURSE, "--as", "wav", "--out", "stopped"], {
      cwd: folder,
    });
    const over = new Promise<number | null>((resolve) => child.on("exit", resolve));
    let told = "";
    child.stderr.on("data", (text: Buffer) => {
      told += text.toString();
    });
    const record = join(folder, "stopped", "sound-files.jsonl");
    while (!existsSync(record)) await new Promise((resolve) => setTimeout(resolve, 20));
    child.kill("SIGINT");
    expect(await over).toBe(1);
    expect(told).toContain("RENDERING_STOPPED");
    expect(filesIn("stopped").filter((file) => !/\.(wav|jsonl)$/.test(file))).toEqual([]);
    const whole = filesIn("stopped").filter((file) => file.endsWith(".wav"));
    expect(whole.length).toBeGreaterThan(0);
    for (const file of whole) {
      const wav = readFileSync(join(folder, "stopped", file));
      expect(wav.readUInt32LE(4)).toBe(wav.length - 8);
    }
  });
});

describe("leeway render, asked for what cannot be", () => {
  test.each([
    [["--as", "midi,mp9", "--out", "x"], "--as must be one of midi"],
    [["--out", "x", "--paper", "a3"], "a4, letter"],
    [[], "--out"],
  ])("calls %j misuse", async (words, part) => {
    const said = await leeway(COURSE, ...words);
    expect(said.status).toBe(2);
    expect(said.err).toContain(part);
    expect(existsSync(join(folder, "x"))).toBe(false);
  });

  test.each([
    [["half-bar", "1", "--mix", "plai"], "MIX_UNKNOWN"],
    [["half-bar", "1", "--for", "trumpett"], "INSTRUMENT_UNKNOWN"],
    [["half-bar", "99"], "RUNG_NUMBER_OUT_OF_RANGE"],
    [["half-barr"], "DRILL_UNKNOWN"],
    [["half-bar", "--rungs", "3-1"], "RUNG_RANGE_NOT_READ"],
    [["half-bar", "--rungs", "1-99"], "RUNG_RANGE_NOT_READ"],
  ])("%j is %s, and no folder is made", async (words, code) => {
    const said = await leeway(COURSE, ...words, "--out", "none", "--json");
    expect(said.status).toBe(1);
    expect(codesIn(said.out)).toContain(code);
    expect(existsSync(join(folder, "none"))).toBe(false);
  });

  const long = (): string => {
    const text = readFileSync(COURSE, "utf8").replace(
      /tempo: \{ from: \d+, to: \d+, by: \d+ \}/,
      "tempo: { from: 60, to: 120, by: 0.01 }",
    );
    writeFileSync(join(folder, "long.yaml"), text);
    return "long.yaml";
  };

  test("refuses thousands of rungs unless a range is named", async () => {
    const course = long();
    const all = await leeway(course, "steady", "--out", "many", "--json");
    expect([all.status, codesIn(all.out)]).toEqual([1, ["RENDER_TOO_MANY_FILES"]]);
    expect((await leeway(course, "steady", "--rungs", "5000-5001", "--out", "many")).status).toBe(0);
  });

  test("says what part is out of an instrument's reach", async () => {
    const text = readFileSync(COURSE, "utf8").replace(
      /^players:/m,
      "instruments: { fog horn: { lowest: C2, highest: E2 } }\nplayers:",
    );
    writeFileSync(join(folder, "fog.yaml"), text);
    const said = await leeway("fog.yaml", "half-bar", "1", "--for", "fog horn", "--out", "none", "--json");
    expect(said.status).toBe(1);
    expect(codesIn(said.out).join()).toMatch(/WRITTEN_(BELOW|ABOVE)_RANGE/);
  });

  test("names a file in the way of the folder, and a folder in the way of a file", async () => {
    writeFileSync(join(folder, "taken"), "mine");
    const said = await leeway(COURSE, "half-bar", "1", "--out", "taken", "--json");
    expect([said.status, codesIn(said.out)]).toEqual([1, ["OUTPUT_NAME_TAKEN"]]);
    expect(readFileSync(join(folder, "taken"), "utf8")).toBe("mine");
    mkdirSync(join(folder, "way", "half-bar", "01-half-bar-76-play.mid"), { recursive: true });
    const inside = await leeway(COURSE, "half-bar", "1", "--mix", "play", "--out", "way", "--json");
    expect([inside.status, codesIn(inside.out)]).toEqual([1, ["OUTPUT_NAME_TAKEN"]]);
    expect(filesIn("way")).toEqual([]);
  });

  const isLinux = process.platform === "linux";
  if (!isLinux)
    console.log("SKIPPED: a folder that cannot be made and a file that cannot grow, which are tried on Linux");
  test.skipIf(!isLinux)("names a folder that cannot be made", async () => {
    const said = await leeway(COURSE, "half-bar", "1", "--out", "/proc/leeway", "--json");
    expect(said.status).toBe(1);
    expect(codesIn(said.out)[0]).toMatch(/^OUTPUT_/);
  });

  test.skipIf(!isLinux)("leaves nothing half-written when there is no room for a file", () => {
    // A limit of 512 bytes to a file, its signal ignored: writing fails as on a full disk.
    const command = `trap "" XFSZ; ulimit -f 1; exec "${process.execPath}" "${builtEntry()}" render "${COURSE}" half-bar 1 --out full --as musicxml --json`;
    const { status, stdout } = spawnSync("bash", ["-c", command], { cwd: folder, encoding: "utf8" });
    expect([status, codesIn(stdout)]).toEqual([1, ["OUTPUT_DISK_FULL"]]);
    expect(filesIn("full")).toEqual([]);
  });

  test("names a logo that is not there, and draws no sheet", async () => {
    writeFileSync(join(folder, "logo.yaml"), `logo: pictures/none.png\n${readFileSync(COURSE, "utf8")}`);
    const said = await leeway("logo.yaml", "half-bar", "1", "--as", "svg", "--out", "logoless", "--json");
    expect([said.status, codesIn(said.out)]).toEqual([1, ["LOGO_NOT_FOUND"]]);
    expect(said.out).toContain("pictures/none.png");
    expect(existsSync(join(folder, "logoless", "half-bar"))).toBe(false);
  });

  test("names a sound bank that is not there, and writes no sound", async () => {
    const said = await leeway(
      COURSE,
      "half-bar",
      "1",
      "--as",
      "wav",
      "--bank",
      "nowhere.sf2",
      "--out",
      "bankless",
      "--json",
    );
    expect([said.status, codesIn(said.out)]).toEqual([1, ["SOUND_BANK_NOT_FOUND"]]);
    expect(filesIn("bankless")).toEqual([]);
  });
});
