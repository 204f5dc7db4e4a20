#!/usr/bin/env node
import { leaveWithReader } from "./leaveWithReader.js";
import { version } from "./version.js";

leaveWithReader();
// A decoder prints errors to the console; the program reports them as problems.
console.error = () => undefined;
const words = process.argv.slice(2);
// The version alone needs nothing of what the program is made of.
if (words.length === 1 && words[0] === "--version") process.stdout.write(`${version}\n`);
else process.exitCode = await (await import("./runInProcess.js")).runInProcess(words);
