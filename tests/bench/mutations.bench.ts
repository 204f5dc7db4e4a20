/**
 * Broken inputs to the readers of what people give: how long the slowest takes, how much memory, and which throw. Two ways: so many mutations of good inputs;
 * and mutations led by coverage, where an input that reaches a block of our code or a number of runs of it that none reached before is kept and mutated further. Coverage is V8's own, block by
 * block (Chrome DevTools Protocol, Profiler.startPreciseCoverage); counts are sorted into powers of two, as is common practice (no source). A reader has a process of its own.
 * LEEWAY_INPUTS: mutations a reader (100 000); LEEWAY_MINUTES: most minutes a reader and a way (5).
 */
import { fork } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { Session } from "node:inspector/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { chance, type Material, mutated } from "../mutations/mutate.js";
import { readersIn } from "../mutations/readers.js";

const INPUTS = Number(process.env.LEEWAY_INPUTS ?? 100_000);
const MINUTES = Number(process.env.LEEWAY_MINUTES ?? 5);
/** Limits of a single input: seconds of processor time; of a process: megabytes beyond those it has before the first input, those of the engine itself. */
const MOST = { seconds: 1, megabytes: 200 };

interface Row {
  readonly inputs: number;
  readonly kept: number;
  readonly seconds: number;
  readonly megabytes: number;
  readonly slowest: string;
  /** Inputs that threw, as base64, with what they said. */
  readonly thrown: readonly (readonly [input: string, said: string])[];
}

const root = process.cwd();
const readers = readersIn(root);
const [asked, way] = process.argv[1] === fileURLToPath(import.meta.url) ? process.argv.slice(2) : [];
if (asked === undefined) await table();
else process.send!(await measured(asked, way === "led"));

async function table(): Promise<void> {
  console.log(`${INPUTS} inputs a reader, at most ${MINUTES} minutes each way\n`);
  console.log("| reader | way | inputs | kept | slowest, s of processor | memory, MB more | thrown |");
  console.log("|---|---|---|---|---|---|---|");
  for (const name of Object.keys(readers))
    for (const each of ["even", "led"]) {
      const row = await inProcess(name, each);
      const { inputs, kept, seconds, megabytes, thrown } = row;
      const cells = [name, each, inputs, kept, seconds.toFixed(3), megabytes.toFixed(0), thrown.length];
      console.log(`| ${cells.join(" | ")} |`);
      for (const [input, said] of thrown) console.log(`  ${said}: see ${written(input)}`);
      if (seconds > MOST.seconds) console.log(`  the slowest: see ${written(row.slowest)}`);
      if (thrown.length > 0 || seconds > MOST.seconds || megabytes > MOST.megabytes) process.exitCode = 1;
    }
}

/** Where an input is for a closer look. */
function written(base64: string): string {
  const path = join(mkdtempSync(join(tmpdir(), "leeway-mutation-")), "input");
  writeFileSync(path, Buffer.from(base64, "base64"));
  return path;
}

function inProcess(name: string, each: string): Promise<Row> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(import.meta.url), [name, each], { cwd: root });
    child.once("message", (row) => resolve(row as Row));
    child.once("error", reject);
    child.once("exit", (status) => reject(new Error(`${name}: ended with ${status}`)));
  });
}

async function measured(name: string, isLed: boolean): Promise<Row> {
  const { read, seeds, pieces } = readers[name]!;
  for (const seed of seeds) await read(seed);
  const coverage = isLed ? await coverageOf() : undefined;
  const luck = chance(1125);
  const kept = [...seeds];
  const material: Material = { seeds, pieces };
  const thrown = new Map<string, string>();
  const before = process.resourceUsage().maxRSS;
  const end = Date.now() + MINUTES * 60_000;
  let [inputs, most] = [0, 0];
  let slowest: Uint8Array = new Uint8Array();
  for (; inputs < INPUTS && Date.now() < end; inputs++) {
    const input = mutated(kept[luck.below(kept.length)]!, material, luck);
    const from = process.cpuUsage();
    try {
      await read(input);
    } catch (error) {
      thrown.set(String(error), Buffer.from(input).toString("base64"));
    }
    const { user, system } = process.cpuUsage(from);
    if (user + system > most) [most, slowest] = [user + system, input];
    if ((await coverage?.isNew()) === true) kept.push(input);
  }
  const megabytes = (process.resourceUsage().maxRSS - before) / 1024;
  const found = [...thrown].map(([said, input]) => [input, said] as const);
  const row = { inputs, kept: kept.length - seeds.length, seconds: most / 1e6, megabytes, thrown: found };
  return { ...row, slowest: Buffer.from(slowest).toString("base64") };
}

/** Whether the code that ran since the last question did something new. */
async function coverageOf(): Promise<{ isNew(): Promise<boolean> }> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });
  const seen = new Set<string>();
  return {
    isNew: async () => {
      const { result } = await session.post("Profiler.takePreciseCoverage");
      const size = seen.size;
      for (const { url, functions } of result)
        if (url === import.meta.url)
          for (const { ranges } of functions)
            for (const { startOffset, endOffset, count } of ranges)
              if (count > 0) seen.add(`${startOffset}-${endOffset}-${Math.floor(Math.log2(count))}`);
      return seen.size > size;
    },
  };
}
