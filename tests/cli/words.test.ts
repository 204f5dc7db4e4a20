import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { ROOT } from "../sources.js";
import { saidBy, useFolder } from "./said.js";

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");
const TAKES = join(ROOT, "curricula", "takes");
const RUNGS_OF_TWO_BARS = 6;

const folder = useFolder("leeway-words-");
const store = ["--store", "words.sqlite"];
/** What each command told people, on either stream, and in files it drew. */
const told = new Map<string, string>();

async function tell(name: string, words: readonly string[], input?: string): Promise<string> {
  const said = await saidBy(words, { ...(input === undefined ? {} : { input }), now: "2026-03-20T18:00:00Z" });
  expect(said.status, `${name}: ${said.err}`).toBe(0);
  told.set(name, `${said.out}\n${said.err}`);
  return said.out;
}

/** The texts of an SVG document or an HTML page. */
function lettered(markup: string): string {
  return markup
    .replaceAll(/<style>[\s\S]*?<\/style>/g, "")
    .replaceAll(/<[^>]*>/g, "\n")
    .replaceAll("\u00a0", " ");
}

function tellFiles(name: string, path: string): void {
  for (const file of readdirSync(path, { encoding: "utf8", recursive: true }))
    if (file.endsWith(".svg")) told.set(`${name} ${file}`, lettered(readFileSync(join(path, file), "utf8")));
}

beforeAll(async () => {
  await tell("check", ["check", COURSE]);
  await tell("rungs", ["rungs", COURSE, "two-bars"]);
  await tell("score", ["score", COURSE, "two-bars", "6"]);
  await tell("gate", ["gate", COURSE, "steady"]);
  const { out } = await saidBy(["score", COURSE, "two-bars", "1", "--json"]);
  const score = JSON.parse(out) as Score;
  const takes = [-9, -3, 4, 11].map((percent) => ({
    id: `of ${percent}`,
    zero: "bar-1",
    onsets: score.expected.map(({ at }) => {
      const silence = score.dropouts.find(({ from, to }) => at > from && at <= to);
      return silence === undefined ? at + 0.012 : at + 0.012 + ((at - silence.from) * percent) / 100;
    }),
  }));
  const lines = takes.map((take) => JSON.stringify(take)).join("\n");
  await tell("assess", ["assess", COURSE, "two-bars", "1", "-", "--pictures", "drawn"], lines);
  tellFiles("picture", join(folder, "drawn"));
  await tell("hurried", ["assess", COURSE, "one-bar", "1", join(TAKES, "one-bar-hurried.mid")]);
  await tell("enrol", ["enrol", COURSE, "tern", "gull", "knot", ...store, "--at", "2026-03-02T17:00:00Z"]);
  await tell("submit", ["submit", "tern", join(TAKES, "steady-week.jsonl"), ...store, "--at", "2026-03-05T18:00:00Z"]);
  const hurried = [join(TAKES, "one-bar-hurried.mid"), "--drill", "one-bar", "--rung", "1"];
  await tell("submit hurried", ["submit", "tern", ...hurried, ...store, "--at", "2026-03-12T18:00:00Z"]);
  const beyond = readFileSync(join(TAKES, "steady-week.jsonl"), "utf8")
    .split("\n")
    .find((line) => line.includes("tuesday"))!;
  for (let i = 0; i < 9; i++)
    await saidBy(["submit", "knot", "-", ...store, "--at", `2026-03-0${Math.min(i + 3, 9)}T1${i}:00:00Z`], {
      input: beyond.replace("tern-steady-tuesday", `knot-${i}`),
    });
  await tell("standing", ["standing", ...store]);
  await tell("place", ["place", "gull", "--drill", "two-bars", ...store]);
  await tell("place heard", ["place", "gull", join(TAKES, "gull-1.json"), "--drill", "two-bars", ...store]);
  const plan = ["plan", "tern", "--minutes", "20", "--today", "2026-03-21", ...store];
  await tell("plan", [...plan, "--ready-by", "2026-04-20", "--drill", "half-bar"]);
  await tell("plan of one who is stuck", ["plan", "knot", ...plan.slice(2)]);
  await tell("calendar", [...plan, "--calendar", "17:30"]);
  await tell("report", ["report", ...store]);
  told.set("report page", lettered((await saidBy(["report", "--as", "html", ...store])).out));
  told.set("report of one", lettered((await saidBy(["report", "tern", "--as", "svg", ...store])).out));
  await tell("render", ["render", COURSE, "two-bars", "--as", "chart", "--out", "charts"]);
  tellFiles("chart", join(folder, "charts"));
  const journal = await saidBy(["journal", "export", "tern", ...store]);
  writeFileSync("tern.jsonl", journal.out);
  await tell("decide", ["decide", COURSE, "--journal", "tern.jsonl"]);
  await tell("clicks", ["calibrate", "--clicks", "clicks.wav"]);
  await tell("listen", ["listen", "clicks.wav", "--family", "percussive"]);
}, 120_000);

describe("what people read", () => {
  /** A number with a sign and nothing else to say which way: "-176 ms", "+12 ± 9 ms", "−1.6 %", "-0.5 beats". */
  const BARE_SIGN = /(?<![\w.:-])[-+−]\d+(?:\.\d+)?(?: ?± ?\d+(?:\.\d+)?)? ?(?:ms|%|beats?)(?![\w])/g;

  test("has no bare sign: early or late, fast or slow stands in its place", () => {
    expect("beyond -176 ± 13 ms; back +8 ms, −1.6 %".match(BARE_SIGN)).toHaveLength(3);
    for (const [name, text] of told) expect(text.match(BARE_SIGN) ?? [], name).toEqual([]);
    for (const name of ["assess", "hurried", "submit", "report", "report page"])
      expect(told.get(name), name).toMatch(/\d ms (?:early|late)/);
  });

  test("says where somebody landed, with the limit that was broken", () => {
    expect(told.get("hurried")).toMatch(/\blanded \d+ ms early \(limit 190\)/);
  });

  test("counts rungs from 1 on the command line, in plans, reports and charts alike", () => {
    expect(told.get("rungs")).toMatch(/^ {2}1 {2}│/m);
    expect(told.get("rungs")).toMatch(new RegExp(`^ {2}${RUNGS_OF_TWO_BARS} {2}│`, "m"));
    expect(told.get("score")).toContain(`two-bars, rung ${RUNGS_OF_TWO_BARS}:`);
    expect(told.get("place")).toMatch(/rung [1-6] of 6\b/);
    expect(told.get("plan")).toMatch(/: rung 2, tempo 80\b[\s\S]*: then on to tempo 88\b/);
    expect(told.get("report")).toMatch(/knot at steady, rung 1 of 8:/);
    expect(told.get("report page")).toMatch(/rung 1 of 8:/);
    expect(told.get("chart two-bars/two-bars-ladders.svg")).toMatch(/^rung 1$[\s\S]*^rung 6$/m);
    for (const [name, text] of told) expect(text, name).not.toMatch(/\brungs? 0\b|\bof 0 to\b/);
    const charts = [...told.keys()].filter((name) => /^chart two-bars.\d/.test(name));
    expect(new Set(charts.map((name) => Number(/^chart two-bars.(\d+)/.exec(name)![1])))).toEqual(
      new Set([1, 2, 3, 4, 5, 6]),
    );
  });

  test("takes rungs from 1, and says which there are", async () => {
    for (const words of [
      ["score", COURSE, "two-bars", "0"],
      ["render", COURSE, "two-bars", "--rungs", "0-2", "--out", "none"],
      ["submit", "tern", join(TAKES, "gull-1.json"), "--drill", "two-bars", "--rung", "7", ...store],
    ]) {
      const said = await saidBy(words);
      expect(said.status).toBe(1);
      expect(said.err).toMatch(/-> write (?:a number from 1 to 6|--rungs 1-6)/);
    }
    expect((await saidBy(["rungs", COURSE, "two-bars", "--from", "0"])).status).toBe(2);
  });

  test("as JSON has numbers from 1 beside the settings, and no index", async () => {
    const answers = [
      ["rungs", COURSE, "two-bars", "--json"],
      ["place", "gull", "--drill", "two-bars", "--json", ...store],
      ["plan", "tern", "--minutes", "20", "--today", "2026-03-21", "--json", ...store],
      ["report", "--as", "json", ...store],
      ["standing", "tern", "--json", ...store],
    ];
    for (const words of answers) {
      const { out } = await saidBy(words);
      expect(out, words[0]).not.toMatch(/"index":/);
      for (const [, number] of out.matchAll(/"number":\s*(-?\d+)/g)) expect(Number(number)).toBeGreaterThan(0);
      if (words[0] !== "standing") expect(out, words[0]).toMatch(/"number":/);
    }
  });

  test("has the cautions where something sounds or many takes are asked for, and the clicks carry their own", () => {
    for (const name of ["submit", "place", "plan", "report", "report page", "render", "clicks"])
      expect(told.get(name)!.replaceAll(/\s+/g, " "), name).toMatch(
        /stop when anything hurts; .* for a doctor\. What your school/,
      );
    expect(readFileSync("clicks.wav").toString("latin1")).toMatch(
      /turn the volume down .* for a doctor\. What your school/,
    );
  });

  test("does not tell somebody who keeps failing to fail twelve times more", () => {
    const plan = told.get("plan of one who is stuck");
    expect(plan).toMatch(/still far off .*: listen, and play along as well as it goes. It is not judged/);
    expect(plan).toMatch(/After 1 take of a rung without that: tempo 65\b/);
  });
});
