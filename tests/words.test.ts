import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ROOT, sourcesIn } from "./sources.js";

/** A word that has another one now, and what is written instead. */
const FORMER: readonly { readonly word: RegExp; readonly write: string }[] = [
  { word: /re-?entr(?:y|ies)/i, write: "landing" },
  { word: /\beas(?:e|ed|es|ing)\b|\bEASE_/i, write: "go back" },
  { word: /\bremark/i, write: "advice (of a problem), reason (of a finding)" },
  { word: /jitter/i, write: "steadiness; in statistics the standard deviation" },
  {
    word: /\bspreads?\b(?! over)|Spread(?!sheet)/,
    write: "steadiness; in statistics the standard deviation or error, or quartiles",
  },
  { word: /\b(?:the|of|more|own|with) scatter\b/, write: "steadiness; in statistics the standard deviation" },
  { word: /\bgrooves?\b/i, write: "the accompaniment, the band" },
  { word: /\bpass(?:es)? (?:of|through) the (?:pattern|riff)/i, write: "phrase" },
];

/** Files, or words in them, that keep a former word, each with its reason. */
const KEPT: readonly { readonly file: RegExp; readonly text?: RegExp; readonly because: string }[] = [
  { file: /^tests\/words\.test\.ts$/, because: "it names the words" },
  {
    file: /^lib\/(?:curriculum\/formerKeys|take\/formerNames|progress\/journal\/formerEvent)\.ts$/,
    because: "rewrites them",
  },
  {
    file: /^tests\/(?:curriculum\/former|store\/version1|problems\/FORMER_)/,
    because: "was written before, or is to be rewritten",
  },
  { file: /^schemas\/PROBLEMS\.md$/, text: /\bease:/, because: "shows a line that is rewritten" },
  { file: /^tests\/(?:progress\/journal\/formerEvent|store\/version1)\.test\.ts$/, because: "tests what is rewritten" },
  { file: /^tests\/cli\/course\/decide\.test\.ts$/, text: /reentryMs/, because: "tests what is rewritten" },
  {
    file: /^tests\/(?:bench|reference)\//,
    text: /"groove"|reference\/groove|Groove MIDI Dataset/,
    because: "the name of other people's data and of its folder",
  },
  {
    file: /^tests\/take\/steadiness\.test\.ts$/,
    text: /^\s*"spread",$/,
    because: "a seed, whose numbers the figures beside it belong to",
  },
];

/** Everything that people or programs read here, generated files and binary ones apart. */
const files = execFileSync(
  "git",
  [
    "ls-files",
    "-z",
    "--cached",
    "--others",
    "--exclude-standard",
    "lib",
    "schemas",
    "curricula",
    "tests",
    ".ci",
    "README.md",
    "DEVELOPERS.md",
  ],
  { cwd: ROOT, encoding: "utf8" },
)
  .split("\0")
  .filter((path) => /\.(?:ts|mjs|json|jsonl|ya?ml|md)$/.test(path) && !path.includes("/generated/"));

const isKept = (path: string, line: string): boolean =>
  KEPT.some(({ file, text }) => file.test(path) && (text === undefined || text.test(line)));

describe("the words of the design", () => {
  test("are read from files that are there", () => {
    for (const path of ["README.md", "lib/take/assess.ts", "schemas/curriculum.schema.json"])
      expect(files).toContain(path);
  });

  test("have no former word beside them outside what rewrites them", () => {
    const found = files.flatMap((path) =>
      readFileSync(join(ROOT, path), "utf8")
        .split("\n")
        .flatMap((line, i) => {
          if (isKept(path, line)) return [];
          const former = FORMER.find(({ word }) => word.test(line));
          return former ? [`${path}:${i + 1}: write ${former.write}: ${line.trim().slice(0, 120)}`] : [];
        }),
    );
    expect(found).toEqual([]);
  });

  test("keep a former word only where it still stands", () => {
    for (const { file, text } of KEPT) {
      const texts = files.filter((path) => file.test(path)).map((path) => readFileSync(join(ROOT, path), "utf8"));
      const stands = texts.some((each) =>
        each
          .split("\n")
          .some((line) => (text === undefined || text.test(line)) && FORMER.some(({ word }) => word.test(line))),
      );
      expect(stands, String(file)).toBe(true);
    }
  });
});

describe("marks of a sentence", () => {
  // A full stop of English stood after sentences in Japanese: what ends or joins sentences is the catalogue's, in what people read in their language.
  const BESIDE = /\bsay\((?:[^()]|\([^()]*\))*\)(?:\s*,\s*"|\s*\+\s*"|\})[.;:,!?](?:\s|"|`)/g;

  test("are in the catalogues, and not set beside what they say", () => {
    const rooms = ["lib/page", "lib/render", "lib/report", "lib/plan", "lib/take", "lib/progress"];
    const found = rooms.flatMap((room) =>
      sourcesIn(room).flatMap(({ path, text }) => (text.match(BESIDE) ?? []).map((each) => `${path}: ${each}`)),
    );
    expect(found).toEqual([]);
  });

  test("are found where they stand", () => {
    for (const wrong of ['h("p", {}, say("a.b"), ".")', `\`$\{say("a.b", { c: d(e) })}. \``, 'say("a.b") + "; "'])
      expect(wrong.match(BESIDE), wrong).not.toBeNull();
    expect('say("a.b", { c }), d'.match(BESIDE)).toBeNull();
  });
});
