import { writeSync } from "node:fs";
import { openSqlite } from "../../lib/store/sqlite/index.js";

/** A program that opens a store, brings it up to date and closes it: `node opener.mjs STORE`. Prints `ready` before, then `kept opened` or `failed CODE`. */
const say = (line: string): void => void writeSync(1, `${line}\n`);

say("ready");
const opened = await openSqlite(process.argv[2]!, { create: false, migrate: true });
if (opened.ok) {
  await opened.value.close();
  say("kept opened");
} else say(`failed ${opened.problems[0]!.code}`);
