import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkFinding, checkScore, type Score } from "../../lib/schema/index.js";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";
import { type Said, saidBy, useFolder } from "./said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");

const folder = useFolder("leeway-cli-");

/** Runs a command line in this process, in the folder of the tests. */
const leeway = (words: readonly string[], input: string | Uint8Array = ""): Promise<Said> => saidBy(words, { input });

const file = (name: string, content: string | Uint8Array): string => {
  writeFileSync(join(folder, name), content);
  return name;
};
const json = (text: string): unknown => JSON.parse(text);
const lines = (text: string): readonly unknown[] => text.trimEnd().split("\n").map(json);

/** Onsets exactly where a rung expects them, counted from bar 1. */
async function exactOnsets(drill: string, rung: string): Promise<readonly number[]> {
  return (json((await leeway(["score", COURSE, drill, rung, "--json"])).out) as Score).expected.map(
    (onset) => onset.at,
  );
}

describe("leeway", () => {
  test("without a command says how it is used, as misuse", async () => {
    const said = await leeway([]);
    expect(said.status).toBe(2);
    expect(said.err).toContain("Usage: leeway");
  });

  test("prints help and its version when asked, as done", async () => {
    expect(await leeway(["--help"])).toMatchObject({ status: 0, err: "" });
    const { version } = json(readFileSync(join(ROOT, "package.json"), "utf8")) as { version: string };
    expect(await leeway(["--version"])).toEqual({ status: 0, out: `${version}\n`, err: "" });
  });

  test("explains in its help the words that answers use, in lines of a terminal", async () => {
    const { out } = await leeway(["--help"]);
    const closing = out.slice(out.indexOf("A take is one playing"));
    for (const word of ["take", "phrases", "outro", "drift", "landing", "steadiness", "clean", "rung", "gate"])
      expect(closing.split("Exit codes")[0], word).toMatch(new RegExp(`\\b${word}\\b`));
    expect(out.split("\n").filter((line) => line.length > 80)).toEqual([]);
  });

  test.each([
    [["chek", "x.yaml"]],
    [["check"]],
    [["check", COURSE, "--nope"]],
    [["rungs", COURSE]],
    [["rungs", COURSE, "half-bar", "--from", "-1"]],
    [["rungs", COURSE, "half-bar", "--from", "two"]],
    [["rungs", COURSE, "half-bar", "--from", "33"]],
    [["rungs", COURSE, "half-bar", "extra"]],
    [["assess", COURSE, "half-bar", "1"]],
    [["assess", COURSE, "half-bar", "1", "-", "--zero", "bar-2"]],
    [["assess", COURSE, "half-bar", "1", "-", "--latency-ms", "1e9"]],
    [["assess", COURSE, "half-bar", "1", "-", "--channel", "17"]],
    [["decide", COURSE]],
  ])("calls %j misuse, without a stack trace", async (words) => {
    const said = await leeway(words);
    expect(said.status).toBe(2);
    expect(said.err).not.toBe("");
    expect(said.err).not.toMatch(/^\s+at /m);
  });
});

describe("leeway check", () => {
  test("is done when there are no problems", async () => {
    expect(await leeway(["check", COURSE])).toMatchObject({ status: 0, err: "" });
    expect(json((await leeway(["check", COURSE, "--json"])).out)).toMatchObject({
      ok: true,
      curriculum: "quay-test",
      edition: "1.0.0",
    });
  });

  test("shows each problem as file:line:column, code, message, the line and a caret, uncoloured in a pipe", async () => {
    const broken = file("broken.yaml", readFileSync(COURSE, "utf8").replace("tempo: 96", "tempoo: 96"));
    // A process of its own: what is a terminal and what is a pipe, only the program knows.
    const said = spawnSync(process.execPath, [builtEntry(), "check", broken], {
      encoding: "utf8",
      env: { ...process.env, FORCE_COLOR: "1" },
    });
    expect(said.status).toBe(1);
    expect(said.stdout).toMatch(
      /^broken\.yaml:\d+:5 {2}UNKNOWN_KEY {2}a drill has no key "tempoo"; .*\n {8}tempoo: 96\n {8}\^\n {4}-> write tempo\n/m,
    );
    expect(said.stdout).not.toContain("\u001b");
  });

  test("checks every file, in order, and goes on after one that cannot be read", async () => {
    const said = await leeway(["check", "missing.yaml", COURSE, "--json"]);
    expect(said.status).toBe(1);
    expect(lines(said.out)).toMatchObject([
      { file: "missing.yaml", ok: false, problems: [{ code: "INPUT_NOT_FOUND" }] },
      { file: COURSE, ok: true },
    ]);
  });

  test.each([
    ["a folder", () => folder, "INPUT_IS_FOLDER"],
    ["an image", () => file("image.yaml", Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0, 255, 254)), "INPUT_NOT_TEXT"],
    ["an endless device", () => "/dev/zero", "INPUT_TOO_LARGE"],
  ])("says what is wrong with %s", async (_what, path, code) => {
    const said = await leeway(["check", path(), "--json"]);
    expect(said.status).toBe(1);
    expect(json(said.out)).toMatchObject({ ok: false, problems: [{ code }] });
  });

  test("reads no file outside the course's folder, not even through a link", async () => {
    file("secret.mid", "MThd");
    mkdirSync(join(folder, "courses"), { recursive: true });
    symlinkSync(join(folder, "secret.mid"), join(folder, "courses", "link.mid"));
    const course = readFileSync(COURSE, "utf8");
    for (const path of ["../secret.mid", "link.mid", join(folder, "secret.mid")]) {
      file(
        "courses/out.yaml",
        course.replace(/lead: \{ notes: .*\}/, `lead: { file: ${JSON.stringify(path)}, track: 1 }`),
      );
      const said = await leeway(["check", "courses/out.yaml", "--json"]);
      expect(said.status).toBe(1);
      expect(said.out).toMatch(/PATH_LEAVES_FOLDER|FILE_NOT_FOUND/);
    }
  });
});

describe("leeway rungs", () => {
  test("lists rungs by number and settings", async () => {
    const said = await leeway(["rungs", COURSE, "half-bar", "--from", "1", "--to", "2", "--json"]);
    expect(json(said.out)).toMatchObject({
      drill: "half-bar",
      count: 32,
      from: 1,
      to: 2,
      rungs: [{ number: 1 }, { number: 2 }],
    });
    expect((await leeway(["rungs", COURSE, "half-bar"])).out).toMatch(
      /^half-bar: 32 rungs; climbs silence \(4\), then tempo \(8\)\n {3}1 {2}│━━━━│━━━━│━━━━│━━··│ {2}dropout=1\/2 bar/,
    );
  });

  test("shows each phrase in which a silence is longer, and the silence under an open bar", async () => {
    const first = join(ROOT, "curricula", "quayside-first-course.yaml");
    expect((await leeway(["rungs", first, "growing", "--to", "1"])).out.split("\n").slice(1, 3)).toEqual([
      "  1  │━━━━│━━━━│━━━━│━━··│  dropout=1/2 bar to 1 bar by 1/2 bar each 2 phrases,parts=bass+kit,tempo=76,variant=plain",
      "     │━━━━│━━━━│━━━━│····│",
    ]);
    const winds = join(ROOT, "curricula", "quayside-wind-and-brass.yaml");
    expect((await leeway(["rungs", winds, "tidewater-open", "--to", "3"])).out.split("\n").slice(4, 6)).toEqual([
      "  3  │━━━━│━━━━│━━━━│····│  dropout=1 bar,open=3+4,parts=bass+kit,tempo=80,variant=plain",
      "                ~~~~ ~~~~",
    ]);
  });

  test("suggests the drill that was meant", async () => {
    const said = await leeway(["rungs", COURSE, "half-bra"]);
    expect(said.status).toBe(1);
    expect(said.err).toContain("DRILL_UNKNOWN");
    expect(said.err).toContain("-> write half-bar");
  });
});

describe("leeway score", () => {
  test("prints what the score schema describes", async () => {
    const said = await leeway(["score", COURSE, "half-bar", "tempo=96,dropout=1 bar", "--json"]);
    expect(said.status).toBe(0);
    expect(checkScore(json(said.out))).toMatchObject({
      ok: true,
      value: { curriculum: "quay-test", mix: "play", tempo: 96 },
    });
  });

  test("finds the same rung by number and by settings", async () => {
    const byNumber = (await leeway(["score", COURSE, "half-bar", "13", "--json"])).out;
    const { rung } = json(byNumber) as Score;
    expect((await leeway(["score", COURSE, "half-bar", rung, "--json"])).out).toBe(byNumber);
  });

  test("fits 80 columns", async () => {
    for (const line of (await leeway(["score", COURSE, "half-bar", "1", "--mix", "alone"])).out.split("\n"))
      expect([...line].length).toBeLessThanOrEqual(80);
  });

  test("names the mixes there are", async () => {
    const said = await leeway(["score", COURSE, "half-bar", "1", "--mix", "solo"]);
    expect(said.status).toBe(1);
    expect(said.err).toContain("has the mixes play, alone");
  });
});

describe("leeway assess", () => {
  test("gives one finding a take as JSON Lines, in the order given, whatever form the take has", async () => {
    const onsets = await exactOnsets("half-bar", "1");
    const object = file("object.json", JSON.stringify({ id: "a", onsets, zero: "bar-1" }));
    const list = file("list.json", JSON.stringify(onsets));
    const many = file(
      "many.jsonl",
      `${JSON.stringify({ id: "b", onsets })}\n\n${JSON.stringify({ id: "c", onsets })}\n`,
    );
    const said = await leeway(
      ["assess", COURSE, "half-bar", "1", object, list, many, "-", "--zero", "bar-1", "--json"],
      JSON.stringify({ id: "d", onsets }),
    );
    expect(said.status).toBe(0);
    const findings = lines(said.out) as { readonly take: string; readonly verdict: string }[];
    expect(findings.map((finding) => finding.take.replace(/#.*/, ""))).toEqual(["a", "list.json", "b", "c", "d"]);
    for (const finding of findings) {
      expect(checkFinding(finding).ok).toBe(true);
      expect(finding.verdict).toBe("within");
    }
  });

  test("names a take without a name by its content, so that the same take counts once", async () => {
    const onsets = await exactOnsets("half-bar", "1");
    const name = async (content: unknown): Promise<string> =>
      (
        json(
          (await leeway(["assess", COURSE, "half-bar", "1", file("t.json", JSON.stringify(content)), "--json"])).out,
        ) as {
          take: string;
        }
      ).take;
    expect(await name(onsets)).toBe(await name(onsets));
    expect(await name(onsets)).not.toBe(await name(onsets.slice(1)));
  });

  test("goes on after a take with problems, and says so in its place", async () => {
    const onsets = await exactOnsets("half-bar", "1");
    const many = file(
      "mixed.jsonl",
      `${JSON.stringify({ id: "a", onsets })}\n{"onsets": ["x"]}\n{"onsets": [1,\n${JSON.stringify({ id: "b", onsets })}\n`,
    );
    const said = await leeway(["assess", COURSE, "half-bar", "1", many, "--json"]);
    expect(said.status).toBe(1);
    expect(lines(said.out)).toMatchObject([
      { take: "a" },
      {
        take: "mixed.jsonl:2",
        problems: [{ code: "WRONG_TYPE", where: { file: "mixed.jsonl", line: 2, pointer: "/onsets/0" } }],
      },
      { take: "mixed.jsonl:3", problems: [{ code: "JSON_SYNTAX", where: { file: "mixed.jsonl", line: 3 } }] },
      { take: "b" },
    ]);
  });

  test("says a problem of a take to people on standard error", async () => {
    const said = await leeway(["assess", COURSE, "half-bar", "1", "-"], "{ onsets");
    expect(said.status).toBe(1);
    expect(said.err).toMatch(/^standard input:1:\d+ {2}JSON_SYNTAX {2}/);
  });

  test("writes a finding for people with the verdict, a sentence and the bars, in 80 columns", async () => {
    const take = file(
      "exact.json",
      JSON.stringify({ id: "exact", zero: "bar-1", onsets: await exactOnsets("half-bar", "1") }),
    );
    const { out, status } = await leeway(["assess", COURSE, "half-bar", "1", take]);
    expect(status).toBe(0);
    expect(out).toMatch(/^exact {2}within/);
    expect(out).toContain("│━━━━│━━━━│━━━━│━━··│");
    for (const line of out.split("\n").slice(2)) expect([...line].length).toBeLessThanOrEqual(100);
  });
});

describe("leeway assess --pictures", () => {
  test("draws each take in a file of its name, and says where it cannot", async () => {
    const onsets = await exactOnsets("steady", "1");
    const takes = file(
      "pictured.jsonl",
      ["first", "second"].map((id) => JSON.stringify({ id, zero: "bar-1", onsets })).join("\n"),
    );
    const said = await leeway(["assess", COURSE, "steady", "1", takes, "--pictures", "drawn"]);
    expect(said.status).toBe(0);
    expect(readdirSync(join(folder, "drawn")).sort()).toEqual(["first.svg", "second.svg"]);
    expect(readFileSync(join(folder, "drawn", "first.svg"), "utf8")).toMatch(/^<svg [\s\S]*<title>[\s\S]*<\/svg>\s*$/);
    const refused = await leeway(["assess", COURSE, "steady", "1", takes, "--pictures", join(takes, "within")]);
    expect(refused.status).toBe(1);
    expect(refused.err).toContain("OUTPUT_");
  });
});

describe("output that nobody reads to its end", () => {
  test("ends quietly", async () => {
    const child = spawn(process.execPath, [builtEntry(), "rungs", COURSE, "half-bar", "--json"], {
      stdio: ["ignore", "pipe", "pipe"],
    });
    child.stdout.destroy();
    let err = "";
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    const status = await new Promise((done) => child.on("close", done));
    expect(err).toBe("");
    expect(status).toBe(0);
  });
});
