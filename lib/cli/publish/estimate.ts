import { type Result, success } from "../../base/index.js";
import { compileCourse } from "../../curriculum/index.js";
import type { Words } from "../../words/index.js";
import { pageParts } from "../page/pageParts.js";
import { readersOf } from "../render/sheets.js";
import type { PublishPlan, SoundFormat } from "./plan.js";
import { soundJobsOf } from "./sound.js";

/** How many files and bytes there would be, by kind. Files that sound, sheets and single files for instruments are counted; the rest is estimated. */
export interface Estimate {
  readonly kind: "sound" | "sheet" | "practice" | "zip" | "other";
  readonly files: number;
  readonly bytes: number;
}

/**
 * Bytes for a second of sound: WAV by its format (24 bits, two channels, 44.1 kHz), MP3 and Opus as the encoders are asked for, the others as measured on
 * the shipped courses with the built-in voices: they follow what sounds.
 */
const PER_SECOND: Readonly<Record<SoundFormat, number>> = {
  wav: 264_600,
  flac: 55_000,
  mp3: 24_000,
  m4a: 18_000,
  opus: 16_000,
  ogg: 10_000,
};
/** Seconds before and after a take in its file. */
const AROUND = 1.25;
/** Bytes of a sheet, a riff in notes and a strip, as measured on the shipped courses. */
const SHEET = 30_000;
const RIFF = 16_000;
const STRIP = 8_000;
/** Widths that each riff is engraved for. */
const WIDTHS = 2;

/** What publishing would make. Problem: PAGE_PARTS_MISSING. */
export async function estimate(plan: PublishPlan, words: Words): Promise<Result<readonly Estimate[]>> {
  const parts = await pageParts(words.language);
  if (!parts.ok) return parts;
  const jobs = soundJobsOf(plan);
  if (!jobs.ok) return jobs;
  const { drills, formats, course } = plan;
  let seconds = 0;
  for (let i = 0; i < jobs.value.count; i++) {
    const { duration, countIn } = jobs.value.at(i).score;
    seconds += duration + countIn + AROUND;
  }
  const soundIn = (format: SoundFormat): number => Math.round(seconds * PER_SECOND[format]);
  const sheets = drills.reduce((sum, planned) => sum + readersOf(planned, plan.options.for).length, 0);
  const riffs = drills.reduce((sum, { drill }) => sum + WIDTHS * (drill.players.length + 1), 0);
  const content = compileCourse(course).length + riffs * RIFF;
  const script = parts.value.find(({ path }) => path === "single.js")?.content.length ?? 0;
  const single = script + content;
  const partBytes = parts.value.reduce((sum, each) => sum + each.content.length, 0);
  const players = new Set(drills.flatMap(({ players: own }) => own.map(({ instrument }) => instrument.name)));
  const zips = Math.max(1, players.size);
  const other = { kind: "other", files: 2 + 2 * drills.length, bytes: SHEET + 2 * drills.length * STRIP } as const;
  const perZip = soundIn(formats[0]!) + drills.length * SHEET + single / 2 + other.bytes;
  return success([
    {
      kind: "sound",
      files: jobs.value.count * formats.length,
      bytes: formats.reduce((sum, each) => sum + soundIn(each), 0),
    },
    { kind: "sheet", files: sheets, bytes: sheets * SHEET },
    {
      kind: "practice",
      // The document, its manifest and index, the course and its sheets; the page in one file; and two files that the index page has too.
      files: parts.value.length + 5 + riffs + 3,
      bytes: partBytes + content + single,
    },
    { kind: "zip", files: zips, bytes: Math.round(zips * perZip) },
    other,
  ]);
}
