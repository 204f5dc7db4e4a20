import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { all } from "../store/material.js";
import { type Program, programOf, run } from "../store/processes.js";
import { must } from "../time/shorthand.js";
import { memoryDoors } from "./faults.js";
import { killable, STEPS } from "./killable.js";
import { holdsIn, placesOf, termsOf } from "./laws.js";
import { editionsOf, KEY, playTerm } from "./term.js";

let folder: string;
let program: Program;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-kills-"));
  program = await programOf("../whole/player.ts");
});
afterAll(() => {
  program.remove();
  rmSync(folder, { recursive: true, force: true });
});

/** Lives of a program that are cut short, milliseconds within which that happens, and steps played in peace afterwards: our choice. */
const KILLS = 5;
const LONGEST_LIFE = 150;
const PEACE = 20;

test.each([1, 2])(
  "killed (SIGKILL) in the middle of term %i again and again, a school loses nothing it was told was kept",
  async (seed) => {
    const path = join(folder, `${seed}.sqlite`);
    const chance = random(seed);
    const whole = killable(seed, STEPS);
    const terms = termsOf(editionsOf(whole), false);
    let [from, until, kills] = [0, STEPS, 0];
    const acknowledged: (readonly string[])[] = [];
    while (from < until) {
      const isPeace = kills >= KILLS;
      if (isPeace) until = Math.min(STEPS, from + PEACE);
      const words = [path, String(seed), String(from), String(until)];
      const life = isPeace
        ? await run(program, words)
        : await run(program, [...words, "stay"], { killAfter: chance.uniform() * LONGEST_LIFE });
      expect([...life.failed, life.err]).toEqual([""]);
      kills += life.killed ? 1 : 0;
      from = life.kept.includes("all") ? until : Number(life.kept.at(-1) ?? from - 1) + 1;
      const store = must(await openSqlite(path, { create: false }));
      // Killed before anybody was enrolled, there is nothing to lose yet.
      if ((await store.open(KEY))?.standing !== undefined) {
        const ids = (await holdsIn(store, terms)).map(({ id }) => id);
        for (const before of acknowledged) expect(ids).toEqual(expect.arrayContaining([...before]));
        acknowledged.push(ids);
        // What was answered is there: the takes of every step that was said to be kept.
        const takes = await all(store.events(KEY));
        const undone = whole.steps.slice(0, from).filter(({ what }) => what === "take").length;
        expect(takes.filter(({ kind }) => kind === "take assessed").length).toBeGreaterThanOrEqual(undone);
      }
      await store.close();
    }
    expect(kills, "the program was killed").toBeGreaterThan(0);
    const [quiet] = memoryDoors(1);
    await playTerm(killable(seed, until), { school: [quiet!] });
    const store = must(await openSqlite(path, { create: false }));
    const [killed, undisturbed] = await Promise.all(
      [store, quiet!.store].map(async (each) => (await each.open(KEY))!.standing!),
    );
    expect(placesOf(killed!)).toBe(placesOf(undisturbed!));
    await store.close();
  },
);
