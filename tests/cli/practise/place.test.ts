import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../../lib/drill/index.js";
import { readJournal } from "../../../lib/progress/index.js";
import { PLAYERS, type Player, playTake } from "../../../lib/rehearsal/index.js";
import type { JournalEvent } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { must } from "../../time/shorthand.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");
const course = must(readCurriculum(readFileSync(COURSE, "utf8"), { file: COURSE, readFile: () => undefined }));

let folder: string;
let store: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-cli-place-"));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));
beforeEach(async () => {
  store = join(folder, `${count++}.sqlite`);
  await run("enrol", COURSE, "tern");
});

const run = (...words: readonly string[]): Promise<Said> => saidBy([...words, "--store", store]);

/** What `leeway place --json` answers. */
interface Answer {
  readonly drill: string;
  readonly done: boolean;
  readonly rung: string;
  readonly number: number;
  readonly tried: readonly { readonly number: number; readonly verdict: string }[];
  readonly says: string;
  readonly events: readonly JournalEvent[];
}
const asked = async (...words: readonly string[]): Promise<Answer> => {
  const { status, out, err } = await run("place", "tern", ...words, "--json");
  expect({ status, err }).toEqual({ status: 0, err: "" });
  return JSON.parse(out) as Answer;
};
const journal = async (): Promise<readonly JournalEvent[]> => readJournal((await run("journal", "export")).out).events;

/** A take of the rung asked for, as a file. */
function played({ drill, rung }: Answer, player: Player, name: string): string {
  const found = must(findRung(course.drills.find((each) => each.name === drill)!, rung));
  const { take } = playTake(scoreOf(found), player, name);
  const path = join(folder, `${name}.json`);
  writeFileSync(path, JSON.stringify({ ...take, id: name }));
  return path;
}

/** Played until the rung is found. */
async function placed(player: Player, name: string, ...words: readonly string[]): Promise<Answer> {
  let answer = await asked(...words);
  while (!answer.done) answer = await asked(played(answer, player, `${name}-${answer.tried.length}`), ...words);
  return answer;
}

describe("leeway place", () => {
  test("says what to play and writes nothing for it", async () => {
    const before = await journal();
    const said = await run("place", "tern");
    expect(said).toMatchObject({ status: 0, err: expect.stringContaining("protect your hearing") });
    expect(said.out).toMatch(
      /^tern in steady: Nothing was played yet\.\n {2}play: tempo \d+, riff plain \(rung \d of 8, mix listen\)\n$/,
    );
    expect(await journal()).toEqual(before);
  });

  test("puts the student, after a few takes, on a rung played clean, as a wish that is no evidence", async () => {
    const answer = await placed(PLAYERS.seasoned, "seasoned", "--teacher", "gull");
    expect(answer.tried.length).toBeLessThanOrEqual(12);
    expect(answer.number).toBeGreaterThan(1);
    expect(answer.tried).toContainEqual(expect.objectContaining({ number: answer.number, verdict: "within" }));
    expect(answer.events).toMatchObject([
      { kind: "set by teacher", drill: "steady", to: answer.rung, teacher: "gull", because: answer.says },
    ]);
    expect(answer.events[0]).not.toHaveProperty("by");
    const events = await journal();
    expect(events.at(-1)).toEqual(answer.events[0]);
    expect(events.filter(({ kind }) => kind === "take assessed")).toHaveLength(answer.tried.length);
    const standing = await run("standing", "tern");
    expect(standing.out).toContain("(set by teacher)\n    no takes here yet");
  });

  test("goes on where it was left off from the journal alone, on another device too", async () => {
    const first = await asked();
    const take = played(first, PLAYERS.able, "able-first");
    const second = await asked(take);
    expect(await asked()).toEqual({ ...second, events: [], take: undefined, finding: undefined });
    const { out } = await run("journal", "export");
    const text = join(folder, "moved.jsonl");
    writeFileSync(text, out);
    store = join(folder, `${count++}.sqlite`);
    await run("journal", "import", text);
    expect(await asked("--course", COURSE)).toEqual(await asked());
    expect((await asked()).rung).toBe(second.rung);
  });

  test("counts a take once, and says the same again", async () => {
    const take = played(await asked(), PLAYERS.able, "able-once");
    const first = await asked(take);
    const events = await journal();
    expect(await asked(take)).toEqual({ ...first, events: [] });
    expect(await journal()).toEqual(events);
  });

  test("sets the student after all when it was interrupted before", async () => {
    const answer = await placed(PLAYERS.seasoned, "seasoned");
    const text = join(folder, "cut.jsonl");
    const kept = (await journal()).filter(({ kind }) => kind !== "set by teacher");
    writeFileSync(text, kept.map((event) => JSON.stringify(event)).join("\n"));
    store = join(folder, `${count++}.sqlite`);
    await run("journal", "import", text);
    const again = await asked("--course", COURSE);
    // Nobody was named who lets them begin there: then it is the test that did, and the journal and the standing say so.
    expect(again).toMatchObject({
      done: true,
      rung: answer.rung,
      events: [{ kind: "set by teacher", by: "placement test" }],
    });
    expect(again.events[0]).not.toHaveProperty("teacher");
    expect((await run("standing", "tern")).out).toContain("(placement test)\n    no takes here yet");
    // And once it is set, a new search begins with what is known.
    expect(await asked()).toMatchObject({ done: false, tried: [], events: [] });
  });

  test("leaves a beginner on the first rung, and changes nothing for it", async () => {
    const answer = await placed(PLAYERS.wild, "wild");
    expect(answer).toMatchObject({ number: 1, events: [] });
    expect((await journal()).some(({ kind }) => kind === "set by teacher")).toBe(false);
    expect((await run("place", "tern")).out).toContain("  is there already; nothing was changed\n");
  });

  test("finds a place in a drill that is closed when it is named, and says what is not complete", async () => {
    let answer = await asked("--drill", "one-bar");
    for (let i = 0; !answer.done; i++) {
      const take = played(answer, PLAYERS.seasoned, `closed-${i}`);
      const said = await run("place", "tern", take, "--drill", "one-bar");
      if (said.out.includes("begins there")) {
        expect(said.out).toContain("  the drill needs half-bar, which is not complete yet\n");
        break;
      }
      answer = await asked("--drill", "one-bar");
    }
    const standing = JSON.parse((await run("standing", "tern", "--json")).out) as { drills: { drill: string }[] };
    // What needs it does not open by it, and what it needs is not complete by it.
    expect(standing.drills).toContainEqual(
      expect.objectContaining({ drill: "one-bar", state: "open", by: "placement test" }),
    );
    expect(standing.drills.map(({ drill }) => drill).sort()).toEqual(["one-bar", "steady"]);
  });

  test("takes one take at a time, and tells what is wrong with it, the drill or the student", async () => {
    const week = join(ROOT, "curricula", "takes", "steady-week.jsonl");
    expect(await run("place", "tern", week)).toMatchObject({ status: 2, out: "" });
    expect((await run("place", "tern", "missing.mid")).err).toContain("INPUT_NOT_FOUND");
    expect((await run("place", "tern", "--drill", "steadi")).err).toContain("DRILL_UNKNOWN");
    expect((await run("place", "gull")).err).toContain("STUDENT_UNKNOWN");
    expect((await run("place", "tern", "--at", "yesterday")).status).toBe(2);
  });
});
