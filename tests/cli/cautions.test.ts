import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { CAUTIONS } from "../../lib/base/index.js";
import { FORMATS, type Format, SOUNDS } from "../../lib/cli/render/plan.js";
import { batchFormat, type Compression } from "../../lib/node/batch/model.js";
import { renderFile } from "../../lib/node/batch/renderFile.js";
import type { FilmFormat } from "../../lib/node/index.js";
import { labelOf } from "../../lib/render/sound/index.js";
import { smallFilm } from "../render/film/smallFilm.js";
import { jettyScore } from "../render/sound/material.js";
import { isThere } from "../render/sound/programs.js";
import { ROOT } from "../sources.js";
import { type Said, saidBy, useFolder } from "./said.js";

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");
const WEEK = join(ROOT, "curricula", "takes", "steady-week.jsonl");
const store = ["--store", "quay.sqlite"];

useFolder("leeway-cautions-");

/** Every command, and what it is asked for here; `none` says why a command neither makes sound nor asks for takes. A new command has to take its place. */
const COMMANDS: Readonly<Record<string, readonly string[] | { readonly none: string }>> = {
  check: { none: "a course is read" },
  words: { none: "words are listed" },
  explain: { none: "a code is explained" },
  compile: { none: "data for programs" },
  rungs: { none: "what a course holds is listed" },
  score: { none: "what a rung holds is listed" },
  assess: { none: "what was played is told" },
  gate: ["gate", COURSE, "half-bar"],
  decide: { none: "JSON lines for programs" },
  enrol: ["enrol", COURSE, "tern", "gull", ...store],
  submit: ["submit", "tern", WEEK, ...store],
  standing: ["standing", ...store],
  place: ["place", "gull", "--drill", "two-bars", ...store],
  plan: ["plan", "tern", "--minutes", "20", "--today", "2026-03-21", ...store],
  listen: { none: "what was recorded is told" },
  draft: { none: "what was recorded is told" },
  calibrate: ["calibrate", "--clicks", "clicks.wav"],
  render: ["render", COURSE, "half-bar", "1", "--mix", "play", "--as", "midi", "--out", "rendered"],
  serve: { none: "goes on until it is stopped; its page has the cautions" },
  work: { none: "recordings are heard for a server, which answers" },
  store: { none: "tables are brought up to date" },
  pack: { none: "files are carried over" },
  unpack: { none: "files are carried over" },
  publish: { none: "its sound is made in threads, which have the built package: tests/cli/publish has them" },
  page: { none: "the page itself has the cautions, before it sounds" },
  report: ["report", ...store],
  journal: { none: "records are carried over" },
  rehearse: { none: "simulated students play" },
};

/** Every format of `render`: what of a file of it holds the cautions, as text. */
const FILES: Readonly<Record<Format, ((path: string) => string) | { readonly none: string }>> = {
  midi: bytesOf,
  musicxml: bytesOf,
  chart: { none: "a picture that neither sounds nor asks" },
  wav: bytesOf,
  flac: bytesOf,
  mp3: tagsOf,
  m4a: tagsOf,
  opus: tagsOf,
  ogg: tagsOf,
  pdf: (path) => spawnSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" }).stdout,
  svg: (path) => bytesOf(path).replaceAll(/<[^>]*>/g, " "),
  mp4: tagsOf,
  webm: tagsOf,
};

function bytesOf(path: string): string {
  return readFileSync(path).toString("latin1");
}

function tagsOf(path: string): string {
  return spawnSync("ffprobe", ["-v", "error", "-show_entries", "format_tags:stream_tags", path], { encoding: "utf8" })
    .stdout;
}

/** A file as the command has it made, here without its threads, which need the built package. */
async function soundFile(as: Compression, folder: string): Promise<void> {
  mkdirSync(folder);
  const job = { file: "take", score: jettyScore({ phrases: 1 }) };
  const task = { job, format: batchFormat({ as }), label: labelOf(job.score), folder, recordings: {} };
  const made = await renderFile({ ...task, earlier: undefined, bank: undefined, cover: undefined }, undefined);
  expect(made).toMatchObject({ ok: true });
}

/** A film as the command has it made, here small. */
async function filmFile(as: FilmFormat, folder: string): Promise<void> {
  mkdirSync(folder);
  const { bytes } = await smallFilm(as, "play", { width: 64, height: 36 });
  writeFileSync(join(folder, `film.${as}`), bytes);
}

function isSound(format: Format): format is Compression {
  return (SOUNDS as readonly Format[]).includes(format);
}

const plain = (text: string): string => text.replaceAll(/\s+/g, " ");
const said = new Map<string, Said>();
const programs =
  isThere("ffmpeg", "ffmpeg", "the cautions in compressed sound") &&
  isThere("pdftotext", "poppler-utils", "the cautions on paper");

beforeAll(async () => {
  for (const [name, asked] of Object.entries(COMMANDS)) if (!("none" in asked)) said.set(name, await saidBy(asked));
}, 120_000);

describe("the cautions", () => {
  test("have a place in this list for every command of the program", async () => {
    const { out } = await saidBy(["--help"]);
    const known = Array.from(out.matchAll(/^ {2}([a-z]+) (?:\[|<)/gm), ([, name]) => name!).filter(
      (name) => name !== "help",
    );
    expect(known.sort()).toEqual(Object.keys(COMMANDS).sort());
    expect(Object.keys(FILES).sort()).toEqual([...FORMATS].sort());
  });

  test("stand beside every answer that sounds or asks for takes, in one wording", () => {
    for (const [name, { status, out, err }] of said) {
      expect(status, `${name}: ${err}`).toBe(0);
      expect(plain(out + err), name).toContain(CAUTIONS.join(" "));
    }
  });

  test("defer to a doctor, the school, the teacher and local rules", () => {
    for (const word of ["doctor", "school", "teacher", "local rules"]) expect(CAUTIONS.join(" ")).toContain(word);
  });

  test.each(FORMATS.filter((format) => !("none" in FILES[format])))(
    "are in a file of the format %s",
    async (format) => {
      if (!programs && !["midi", "musicxml", "wav", "flac", "svg"].includes(format)) return;
      const out = `as-${format}`;
      if (isSound(format)) await soundFile(format, out);
      else if (format === "mp4" || format === "webm") await filmFile(format, out);
      else {
        const asked = ["half-bar", "1", "--mix", "play", "--for", "trumpet", "--as", format, "--out", out];
        const made = await saidBy(["render", COURSE, ...asked]);
        expect(made.status, made.err).toBe(0);
      }
      const files = readdirSync(out, { recursive: true, encoding: "utf8" }).filter((name) =>
        new RegExp(`\\.(?:mid|${format})$`).test(name),
      );
      expect(files.length).toBeGreaterThan(0);
      const read = FILES[format] as (path: string) => string;
      // Those of the student's part alone and the later pages of a sheet go with the first.
      expect(files.some((name) => plain(read(join(out, name))).includes(plain(CAUTIONS[1]!)))).toBe(true);
    },
    240_000,
  );

  test("are in the clicks that measure a device", () => {
    expect(bytesOf("clicks.wav")).toContain(CAUTIONS.join(" "));
  });
});
