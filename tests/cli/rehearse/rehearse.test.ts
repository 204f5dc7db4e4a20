import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { RehearsalReport } from "../../../lib/schema/index.js";
import { checkRehearsal } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy, useFolder } from "../said.js";

const COURSE = "small.yaml";
const FIRST = readFileSync(join(ROOT, "curricula", "quayside-first-course.yaml"), "utf8");
useFolder("leeway-rehearse-");

const say = (...words: string[]): Promise<Said> => saidBy(["rehearse", ...words, "--workers", "1", "--keep", "kept"]);
const small = [COURSE, "--drill", "half-bar", "--students", "60", "--weeks", "4"] as const;
let whole: Said;

beforeAll(async () => {
  // Two rungs of half a bar are rehearsed, so that little has to be played.
  writeFileSync(COURSE, FIRST.replace("from: 76, to: 92, by: 8", "from: 84, to: 92, by: 8"));
  whole = await say(...small, "--json");
  // Rungs are played here; a machine that others share may need minutes for them.
}, 600_000);

describe("leeway rehearse", () => {
  test("answers with a document of the published schema, the same again", async () => {
    expect(whole.status).toBe(0);
    expect(checkRehearsal(JSON.parse(whole.out))).toMatchObject({ ok: true });
    expect((await say(...small, "--as", "json")).out).toBe(whole.out);
  });

  test("parts joined give the bytes of one run, whatever their order", async () => {
    for (const shard of [1, 2, 3])
      expect((await say(...small, "--shard", `${shard}/3`, "--out", `part-${shard}`)).status).toBe(0);
    expect((await say("--merge", "part-3", "part-1", "part-2", "--json")).out).toBe(whole.out);
  });

  test("parts that do not fit are refused: one missing, one twice, one damaged, one of another rehearsal", async () => {
    const missing = await say("--merge", "part-1", "part-2");
    expect([missing.status, missing.err]).toEqual([1, expect.stringContaining("part 3/3 is missing")]);
    expect((await say("--merge", "part-1", "part-1", "part-2")).err).toContain("given twice");
    writeFileSync("damaged", readFileSync("part-3", "utf8").replace('"students":', '"students" :'));
    expect((await say("--merge", "part-1", "part-2", "damaged")).err).toContain("damaged");
    expect((await say(...small, "--seed", "2", "--shard", "3/3", "--out", "other")).status).toBe(0);
    const other = await say("--merge", "part-1", "part-2", "other", "--json");
    expect(other.out).toContain("REHEARSAL_PARTS_UNFIT");
  });

  test("what was kept is used, and what was kept and damaged is played again", async () => {
    for (const file of readdirSync("kept"))
      writeFileSync(join("kept", file), readFileSync(join("kept", file), "utf8").slice(0, -9));
    expect((await say(...small, "--json")).out).toBe(whole.out);
  });

  test("a course that asks nothing is not said to be in order: what to change is", async () => {
    const easy = `
curriculum: easy
edition: 1.0.0
title: Easy
patterns:
  riff:
    meter: 4/4
    bars: 2
    parts: { kit: { voices: { hat: xxxx | same } }, lead: { notes: 1/4 D4 E4 F4 G4 | same } }
drills:
  half-bar:
    pattern: riff
    student: lead
    ladders: [tempo: { from: 60, to: 64, by: 4 }]
    dropout: { length: 1 beat, parts: [kit] }
    tolerance: { drift: 30 %, landing: 900 ms, steadiness: 400 ms }
    gate: { clean: 1, of: 2 }
`;
    writeFileSync("easy.yaml", easy);
    const { out } = await say("easy.yaml", ...small.slice(1));
    expect(out).toMatch(/asks nothing that these students cannot do: \d+ of \d+ takes/);
    expect(out).toContain("tighten the tolerances");
    expect(out).not.toContain("stands out");
  });

  test("as text, tables and a picture", async () => {
    const text = await say(...small);
    expect(text.out).not.toContain("asks nothing");
    for (const part of ["60 simulated students", "steadiest quarter", "tempo 84", "They decide nothing about anybody"])
      expect(text.out).toContain(part);
    const rungs = await say(...small, "--as", "csv");
    // A cell that holds commas is in quotes.
    const cells = rungs.out.split("\r\n").map((row) => row.replaceAll(/"[^"]*"/g, "").split(",").length);
    expect(cells).toEqual([26, 26, 26, 1]);
    expect((await say(...small, "--as", "csv", "--table", "students")).out).toContain("least steady quarter,half-bar,");
    const picture = await say(...small, "--as", "svg", "--width", "360");
    expect(picture.out).toMatch(/^<svg [^>]*viewBox="0 0 360 \d+"/);
    expect(picture.out.match(/opacity="0.7"/g)).toHaveLength(60);
  });

  test("an old edition beside the new one: the same students, and its narrower limits cost them more takes", async () => {
    const text = readFileSync(COURSE, "utf8");
    writeFileSync(
      "old.yaml",
      text
        .replace(/^edition: .*$/m, "edition: 0.9.0")
        .replace("drift: 8 %, landing: 120 ms", "drift: 4 %, landing: 60 ms"),
    );
    const { out } = await say(...small, "--against", "old.yaml", "--json");
    const report = JSON.parse(out) as RehearsalReport;
    expect(checkRehearsal(report)).toMatchObject({ ok: true });
    expect(report.against!.edition).toBe("0.9.0");
    const takes = report.comparisons[0]!.differences.find(({ figure }) => figure === "takes")!;
    expect(takes.low).toBeGreaterThan(0);
  });

  test("policies stand beside one that does nothing, one by chance, one that knows, and one made to cheat", async () => {
    const { out } = await say(...small, "--compare", "policies", "--json");
    const report = JSON.parse(out) as RehearsalReport;
    const of = (policy: string) => report.comparisons.find(({ way }) => way.after === policy)!.differences;
    expect(report.comparisons.map(({ way }) => way.after).sort()).toEqual([
      "easiest",
      "nothing",
      "oracle",
      "random",
      "turns",
    ]);
    for (const policy of ["nothing", "easiest"])
      expect(of(policy).find(({ figure }) => figure === "days")!.low).toBeGreaterThan(0);
    // One drill: whatever chooses among drills chooses the same.
    for (const policy of ["turns", "oracle", "random"])
      for (const { difference } of of(policy)) expect(difference).toBe(0);
  });

  test("gates of other kinds, and whether the minutes suffice for a date", async () => {
    const gates = JSON.parse((await say(...small, "--compare", "gates", "--json")).out) as RehearsalReport;
    const takes = gates.comparisons.map(
      ({ differences }) => differences.find(({ figure }) => figure === "takes")!.difference,
    );
    expect(Math.min(...takes)).toBeLessThan(0);
    const dated = [
      COURSE,
      "--drill",
      "half-bar",
      "--students",
      "60",
      "--minutes",
      "10",
      "--from",
      "2026-03-02",
    ] as const;
    const soon = JSON.parse((await say(...dated, "--by", "2026-03-04", "--json")).out) as RehearsalReport;
    const late = JSON.parse((await say(...dated, "--by", "2026-05-29", "--json")).out) as RehearsalReport;
    expect(soon.time!.share).toBeLessThan(late.time!.share);
    expect((await say(...dated, "--by", "2026-05-29")).out).toContain("By 2026-05-29, from 2026-03-02 on");
  });

  test("a population of its own: steadier hands finish sooner; what it gets wrong is named with its line", async () => {
    writeFileSync("steady.yaml", "population: steady hands\ntraits:\n  motor: { median: 6, ratio: 1.1 }\n");
    const steady = JSON.parse((await say(...small, "--population", "steady.yaml", "--json")).out) as RehearsalReport;
    const usual = JSON.parse(whole.out) as RehearsalReport;
    expect(steady.population).toBe("steady hands");
    expect(steady.results.kinds[0]!.finished).toBeGreaterThanOrEqual(usual.results.kinds[0]!.finished);
    writeFileSync("wrong.yaml", "population: wrong\ntraits:\n  motor: { median: 6, ratio: 0.5 }\n");
    const wrong = await say(...small, "--population", "wrong.yaml");
    expect([wrong.status, wrong.err]).toEqual([1, expect.stringContaining("wrong.yaml:3")]);
  });

  test("options that do not go together, and none at all, are misuse", async () => {
    expect((await say()).status).toBe(2);
    expect((await say(COURSE, "--merge", "part-1")).status).toBe(2);
    expect((await say(...small, "--by", "2026-05-29")).status).toBe(2);
    expect((await say(COURSE, "--by", "soon")).err).toContain("--by must be a date");
    expect((await say(...small, "--shard", "4/3")).status).toBe(2);
  });
});
