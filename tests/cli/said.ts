import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import type { LoadWords } from "../../lib/cli/language.js";
import { leeway } from "../../lib/cli/program.js";
import { openEngraver } from "../../lib/cli/render/sheets.js";
import type { Terminal } from "../../lib/cli/terminal.js";

/** What a command line answered. */
export interface Said {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

export interface SaidOptions {
  readonly input?: string | Uint8Array;
  readonly now?: string;
  /** Finds the language of the answer. */
  readonly load?: LoadWords;
}

/** Commands that engrave. */
const ENGRAVING: ReadonlySet<string> = new Set(["draft", "page", "publish", "render", "serve"]);
/** Their engraver, which all commands of a process share while it is held here. */
let engraver: ReturnType<typeof openEngraver> | undefined;

/** Runs a command line in this process, with something on standard input and at a time of its own. */
export async function saidBy(
  words: readonly string[],
  { input = "", now = "2026-03-02T17:30:00Z", load }: SaidOptions = {},
): Promise<Said> {
  const said = { out: "", err: "" };
  const terminal: Terminal = {
    print: (text) => {
      said.out += text;
    },
    tell: (text) => {
      said.err += text;
    },
    readInput: () => (typeof input === "string" ? new TextEncoder().encode(input) : input),
    colours: { print: false, tell: false },
    isWatched: false,
    now: () => now,
  };
  if (ENGRAVING.has(words[0] ?? "")) {
    engraver ??= openEngraver();
    await engraver;
  }
  const status = await leeway(words, terminal, load);
  return { status, ...said };
}

/** A new folder that this file's tests work in, as a person in a terminal would; it goes when they are over. */
export function useFolder(prefix: string): string {
  const before = process.cwd();
  const folder = mkdtempSync(join(tmpdir(), prefix));
  process.chdir(folder);
  afterAll(() => {
    process.chdir(before);
    rmSync(folder, { force: true, recursive: true });
  });
  return folder;
}
