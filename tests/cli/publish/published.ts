import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { builtEntry } from "../../built.js";

/** A course of one drill whose takes last eleven seconds, in German. A title has signs that mean something in HTML. */
export const COURSE = `
curriculum: short-walk
edition: 1.0.0
title: Kurzer Weg
about: Zwei Takte am Kai.
author: Möwe
licence: CC BY 4.0
language: de
players: [trumpet, tuba]
patterns:
  steps:
    meter: 4/4
    bars: 2
    key: C major
    parts:
      kit: { voices: { kick: x---x--- | ..., hat: x-x-x-x- | ... } }
      lead: { notes: "1/4 C4 1/8 D4 E4 1/4 F4 - | 1/4 G4 F4 1/8 E4 D4 1/4 C4" }
drills:
  "Gehen und Landen":
    title: "Gehen & <Landen>"
    pattern: steps
    student: lead
    phrases: 2
    count-in: 1 bar
    outro: 1 bar
    dropout: { length: 1 bar, parts: [kit] }
    ladders:
      - tempo: { from: 150, to: 160, by: 10 }
    mixes: { play: { lead: off }, listen: { lead: plays } }
    tolerance: { drift: 12 %, landing: 120 ms }
    gate: { clean: 1, of: 1 }
`;

/** Where it is to be served. */
export const ADDRESS = "https://quay.example/walk/";

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built program, as a person in a terminal would. `until`: it is killed, with all that it started, as soon as this holds. */
export function run(
  words: readonly string[],
  { env = {}, until }: { readonly env?: Readonly<Record<string, string>>; readonly until?: () => boolean } = {},
): Promise<Ran> {
  const child = spawn(process.execPath, [builtEntry(), ...words], {
    detached: true,
    env: { ...process.env, ...env },
  });
  const said = { out: "", err: "" };
  child.stdout.on("data", (text: Buffer) => {
    said.out += text;
  });
  child.stderr.on("data", (text: Buffer) => {
    said.err += text;
  });
  const watch =
    until === undefined
      ? undefined
      : setInterval(() => {
          // The group that this test started, and nothing else.
          if (until() && child.exitCode === null) process.kill(-child.pid!, "SIGKILL");
        }, 20);
  return new Promise((resolve) => {
    child.on("close", (status) => {
      clearInterval(watch);
      resolve({ status, ...said });
    });
  });
}

/** Each file below a folder: its path, its checksum and when it was last written. */
export function tree(folder: string): ReadonlyMap<string, { readonly sum: string; readonly at: number }> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = files.map((entry) => join(entry.parentPath, entry.name)).sort();
  return new Map(
    paths.map((path) => {
      const sum = createHash("sha256").update(readFileSync(path)).digest("hex");
      return [path.slice(folder.length + 1), { sum, at: statSync(path).mtimeMs }];
    }),
  );
}

/** Checksums alone. */
export function sums(folder: string): Readonly<Record<string, string>> {
  return Object.fromEntries([...tree(folder)].map(([path, { sum }]) => [path, sum]));
}
