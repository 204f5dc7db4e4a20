import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { leeway } from "../../lib/cli/program.js";

/** What a command line answered. */
export interface Said {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, with something on standard input and at a time of its own. */
export async function saidBy(
  words: readonly string[],
  { input = "", now = "2026-03-02T17:30:00Z" }: { readonly input?: string | Uint8Array; readonly now?: string } = {},
): Promise<Said> {
  const said = { out: "", err: "" };
  const status = await leeway(words, {
    print: (text) => {
      said.out += text;
    },
    tell: (text) => {
      said.err += text;
    },
    readInput: () => (typeof input === "string" ? new TextEncoder().encode(input) : input),
    colours: { print: false, tell: false },
    now: () => now,
  });
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
