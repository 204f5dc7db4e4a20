import { writeSync } from "node:fs";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { killable } from "./killable.js";
import { playTerm } from "./term.js";

/**
 * A school's program: plays a term on the store in a file from a step on, and says after each step that it was kept.
 * `node player.mjs STORE SEED FROM UNTIL [stay]`: prints `kept I` and so on, and `kept all` at the end; told to stay, it is then there to be killed.
 */
const [path, seed, from, until, end] = process.argv.slice(2) as [string, string, string, string, string?];

/** Milliseconds a program stays to be killed: far longer than that takes on any machine, and nobody is left behind for ever. */
const STAY = 60_000;
const say = (line: string): void => void writeSync(1, `${line}\n`);

const opened = await openSqlite(path, { create: true });
if (!opened.ok) say(`failed ${opened.problems[0]!.code}`);
else {
  const store = opened.value;
  const door = {
    store,
    dieAt: () => undefined,
    calm: () => false,
    restart: async () => undefined,
    close: () => store.close(),
  };
  say("ready");
  await playTerm(killable(Number(seed), Number(until)), {
    school: [door],
    from: Number(from),
    watch: { done: (step) => say(`kept ${step}`) },
  });
  say("kept all");
  if (end === "stay") await new Promise((resolve) => setTimeout(resolve, STAY));
}
