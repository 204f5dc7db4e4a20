import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Curriculum, readCurriculum } from "../../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../../lib/drill/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { must } from "../../time/shorthand.js";

/** A rung of a shipped course, with its own tolerances. */
export interface Material {
  readonly name: string;
  readonly score: Score;
  readonly curriculum: Curriculum;
  /** The course as it is written. */
  readonly source: string;
  /** The same drill at the same tempo and silence in its other variant; undefined when the drill has one alone. */
  readonly otherVariant: Score | undefined;
}

/** Rungs by course, drill and settings; all of their accompaniment falls silent. Between them: every shipped course and every kind of line. */
const RUNGS = [
  ["quarters, 1/2 bar", "quayside-first-course", "half-bar", "tempo=84", undefined],
  ["even eighths, 1 bar", "quayside-first-course", "one-bar", "tempo=84,variant=busy", "tempo=84,variant=plain"],
  ["quarters, 2 bars", "quayside-first-course", "two-bars", "dropout=2 bars,tempo=84", undefined],
  ["sevens, 3/8", "quayside-odd-meters", "sevens-dropouts", "dropout=3/8 note,tempo=88,variant=plain", undefined],
  [
    "sevens even, 1 bar",
    "quayside-odd-meters",
    "sevens-dropouts",
    "dropout=1 bar,tempo=96,variant=busy",
    "dropout=1 bar,tempo=96,variant=plain",
  ],
  [
    "compound, 1 bar",
    "quayside-odd-meters",
    "ferry-dropouts",
    "dropout=1 bar,tempo=60,variant=plain",
    "dropout=1 bar,tempo=60,variant=busy",
  ],
  [
    "compound busy, 2 bars",
    "quayside-odd-meters",
    "ferry-dropouts",
    "dropout=2 bars,tempo=60,variant=busy",
    "dropout=2 bars,tempo=60,variant=plain",
  ],
  [
    "swung, 1 1/2 bars",
    "quayside-wind-and-brass",
    "lantern-dropouts",
    "dropout=1 1/2 bars,parts=bass+kit,tempo=112,variant=plain",
    "dropout=1 1/2 bars,parts=bass+kit,tempo=112,variant=busy",
  ],
  [
    "swung busy, 2 bars",
    "quayside-wind-and-brass",
    "lantern-dropouts",
    "dropout=2 bars,parts=bass+kit,tempo=112,variant=busy",
    "dropout=2 bars,parts=bass+kit,tempo=112,variant=plain",
  ],
  [
    "moving, 1 bar",
    "quayside-wind-and-brass",
    "tidewater-dropouts",
    "dropout=1 bar,key=F mixolydian,tempo=88,variant=plain",
    "dropout=1 bar,key=F mixolydian,tempo=88,variant=busy",
  ],
  [
    "moving sixteenths, 2 bars",
    "quayside-wind-and-brass",
    "tidewater-dropouts",
    "dropout=2 bars,key=F mixolydian,tempo=88,variant=busy",
    "dropout=2 bars,key=F mixolydian,tempo=88,variant=plain",
  ],
] as const;

/** The rung whose silent bar is left open to improvise in: apart from the others, because nothing is expected in its silences. */
const OPEN = ["open bar", "quayside-wind-and-brass", "tidewater-open", "open=4,tempo=88", undefined] as const;

type RungName = readonly [name: string, course: string, drill: string, rung: string, other: string | undefined];

// Below the working directory: tests and benches both run at the root.
const FOLDER = "curricula";

/** The rungs the tables are run on, read from the shipped courses. */
export function materials(): readonly Material[] {
  return RUNGS.map(materialOf);
}

export function openMaterial(): Material {
  return materialOf(OPEN);
}

function materialOf([name, course, drillName, rung, other]: RungName): Material {
  const file = `${course}.yaml`;
  const text = readFileSync(join(FOLDER, file), "utf8");
  const curriculum = must(readCurriculum(text, { file, readFile: () => undefined }));
  const drill = curriculum.drills.find((each) => each.name === drillName);
  if (drill === undefined) throw new RangeError(`${file} has no drill ${drillName}`);
  const scoreAt = (settings: string): Score => scoreOf(must(findRung(drill, settings)), "play");
  return {
    name,
    curriculum,
    source: text,
    score: scoreAt(rung),
    otherVariant: other === undefined ? undefined : scoreAt(other),
  };
}
