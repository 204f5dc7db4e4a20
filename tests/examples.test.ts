import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type DoorName, doorFiles, doorNames } from "./doors.js";
import { exampleScene } from "./exampleScene.js";
import { ROOT } from "./sources.js";

/**
 * Functions whose example cannot run here, each with the reason. They need what this suite does not have: a server, another program, a browser,
 * an engraver, a bank of sounds, or a recording.
 */
const NOT_RUN: Readonly<Record<string, string>> = {
  beginTake: "a browser",
  decodeInBrowser: "a browser",
  decodeSound: "a recording",
  encodeFilm: "another program",
  filmsHere: "another program",
  findBacking: "a recording",
  findPitches: "a recording",
  latencyBook: "a browser",
  listenToTaps: "a browser",
  measureLoop: "a browser",
  measureTapping: "a browser",
  openMicrophone: "a browser",
  openMidiInput: "a browser",
  openPlayer: "a browser",
  openPostgres: "a server",
  openRecords: "a school's key",
  openSoundFile: "a recording",
  outputAdvice: "a browser",
  readMidiFile: "a file",
  readMidiTake: "a file",
  readMusicXml: "a file",
  readSoundBank: "a bank of sounds",
  renderBatch: "threads of the built package",
  renderOverview: "typefaces",
  renderSheet: "an engraver",
  statementsOf: "a school's key",
  takeFromSound: "a recording",
  verovioEngraver: "an engraver",
  wordsOf: "a catalogue of messages",
  writeMidi: "messages that rooms make for themselves",
};

const functions = doorNames().filter(({ kind }) => kind === "function");
const own: Record<string, unknown> = {};
let folder: string;
let before: string;

beforeAll(async () => {
  before = process.cwd();
  folder = mkdtempSync(join(tmpdir(), "leeway-examples-"));
  process.chdir(folder);
  for (const file of doorFiles().values()) Object.assign(own, await import(/* @vite-ignore */ join(ROOT, file)));
});
afterAll(() => {
  process.chdir(before);
  rmSync(folder, { force: true, recursive: true });
});

/** Code -> what each line with a comment that is a value must be equal to. */
function withChecks(code: string): string {
  return code
    .split("\n")
    .map((line) => {
      const [, statement, said] = /^(?!const |let |for |if |import )(\S.*?);?\s*\/\/ (.+)$/.exec(line) ?? [];
      return statement !== undefined && isValue(said!) ? `check(${statement}, ${said});` : line;
    })
    .join("\n");
}

function isValue(text: string): boolean {
  try {
    return new Function(`"use strict"; return (${text});`)() !== undefined;
  } catch {
    return false;
  }
}

async function run(code: string): Promise<void> {
  const scene = await exampleScene(code);
  const check = (found: unknown, said: unknown): void => {
    if (typeof said === "number") expect(found).toBeCloseTo(said, 6);
    else if (typeof said === "object") expect(found).toMatchObject(said as object);
    else expect(found).toBe(said);
  };
  const given: Record<string, unknown> = { ...own, ...scene, check };
  const { outputText } = ts.transpileModule(`export {};\n${withChecks(code)}`, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  const names = Object.keys(given);
  // In a block of its own, so that an example may name what it makes as the scene does.
  const body = `"use strict"; return (async () => {${outputText.replace(/^export \{\};$/m, "")}})();`;
  await (new Function(...names, body)(...names.map((name) => given[name])) as Promise<void>);
}

const named = (each: DoorName): readonly [string, DoorName] => [`${each.door} ${each.name}`, each];

describe("every function at a door", () => {
  test.each(functions.map(named))("%s has a docstring and one example", (_name, { doc, examples }) => {
    expect(doc.length).toBeGreaterThan(10);
    expect(examples).toHaveLength(1);
  });

  test.each(functions.filter(({ name }) => NOT_RUN[name] === undefined).map(named))(
    "%s: its example runs, and gives what it says",
    async (_name, { examples }) => {
      for (const example of examples) await run(example);
    },
  );

  test("what is not run is there, and its example is code", () => {
    for (const [name, reason] of Object.entries(NOT_RUN)) {
      const example = functions.find((each) => each.name === name)?.examples[0];
      expect(example, `${name} needs ${reason}`).toBeDefined();
      const { diagnostics } = ts.transpileModule(example!, { reportDiagnostics: true });
      expect(diagnostics).toEqual([]);
    }
  });
});
