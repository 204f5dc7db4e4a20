import { writeSync } from "node:fs";
import { openSqlite } from "../../lib/store/sqlite/index.js";

/** A program that opens a store and closes it: `node opener.mjs STORE`. Prints `ready` before, then `kept opened` or `failed CODE`. */
const say = (line: string): void => void writeSync(1, `${line}\n`);

say("ready");
const opened = await openSqlite(process.argv[2]!, { create: false });
if (opened.ok) {
  await opened.value.close();
  say("kept opened");
} else say(`failed ${opened.problems[0]!.code}`);
