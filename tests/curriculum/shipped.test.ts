import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { compare, type Fraction, floor, toNumber } from "../../lib/base/index.js";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { keyText, midiNumber, type Note, type Pattern, pitchClasses, scaleOf } from "../../lib/pattern/index.js";
import { beatOf } from "../../lib/time/index.js";

const FOLDER = new URL("../../curricula/", import.meta.url);
const COURSES = readdirSync(FOLDER).filter((file) => file.endsWith(".yaml"));
const RECIPES = readdirSync(new URL("recipes/", FOLDER)).filter((file) => file.endsWith(".yaml"));
const FILES = [...COURSES, ...RECIPES.map((file) => `recipes/${file}`)];

function read(file: string): Curriculum {
  const result = readCurriculum(readFileSync(new URL(file, FOLDER), "utf8"), { file, readFile: () => undefined });
  if (!result.ok)
    throw new Error(
      result.problems.map((each) => `${each.where.line}:${each.where.column} ${each.code} ${each.message}`).join("\n"),
    );
  return result.value;
}

/** Semitones above the root of the chord qualities the shipped curricula use (common practice, no source). */
const CHORDS: Readonly<Record<string, readonly number[]>> = {
  "": [0, 4, 7],
  "7": [0, 4, 7, 10],
  m7: [0, 3, 7, 10],
  maj7: [0, 4, 7, 11],
};
const LETTERS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

function chordAt(pattern: Pattern, position: Fraction): { readonly root: number; readonly tones: readonly number[] } {
  const chord = pattern.chords.findLast((each) => compare(each.position, position) <= 0)!;
  const [, letter, sign, quality] = /^([A-G])([b#]?)(.*)$/.exec(chord.text)!;
  const root = (LETTERS[letter!]! + (sign === "b" ? 11 : sign === "#" ? 1 : 0)) % 12;
  return { root, tones: CHORDS[quality!]!.map((step) => (root + step) % 12) };
}

const pitchClass = (note: Note): number => midiNumber(note.pitch!) % 12;

/** The bar a note begins in; none for one of the pick-up. */
const barOf = (pattern: Pattern, note: Note) =>
  pattern.bars.findLast((bar) => compare(bar.position, note.position) <= 0);

/** Whether a note starts on a beat of its bar (in additive meters: on a group). */
function onStrongBeat(pattern: Pattern, note: Note): boolean {
  const bar = barOf(pattern, note);
  if (bar === undefined) return false;
  const inside = toNumber(note.position) - toNumber(bar.position);
  if (bar.meter.kind !== "additive") return Number.isInteger(inside / toNumber(beatOf(bar.meter)));
  let at = 0;
  for (const group of bar.meter.groups) {
    if (Math.abs(at - inside) < 1e-9) return true;
    at += group / bar.meter.lower;
  }
  return false;
}

const lines = (pattern: Pattern): readonly (readonly [string, readonly Note[]])[] =>
  pattern.parts
    .filter((part) => part.kind === "pitched")
    .flatMap((part) =>
      Object.entries(part.variants).map(([variant, notes]) => [`${part.name} ${variant}`, notes] as const),
    );

describe.each(FILES)("%s", (file) => {
  const patterns = Object.values(read(file).patterns);

  test("loads without an error and without advice", () => {
    const result = readCurriculum(readFileSync(new URL(file, FOLDER), "utf8"), { file, readFile: () => undefined });
    expect(result).toMatchObject({ ok: true, advice: [] });
  });
  test("names its schema for the editor, and cautions about loudness and strain", () => {
    expect(readFileSync(new URL(file, FOLDER), "utf8")).toMatch(
      /^# yaml-language-server: \$schema=(?:\.\.\/)+schemas\/curriculum\.schema\.json\n/,
    );
    expect(read(file).about).toMatch(/playback/);
    expect(read(file).about).toMatch(/hurts/);
  });
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: kit, bass and lead over at least four bars",
    (_, pattern) => {
      expect(pattern.bars.length).toBeGreaterThanOrEqual(4);
      expect(pattern.parts.map((part) => part.name)).toEqual(expect.arrayContaining(["bass", "kit", "lead"]));
      expect(pattern.chords.length).toBeGreaterThanOrEqual(4);
    },
  );
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: every bar of every part has a note",
    (_, pattern) => {
      for (const part of pattern.parts) {
        for (const [variant, notes] of Object.entries(part.variants)) {
          const bars = new Set(notes.flatMap((note) => barOf(pattern, note)?.number ?? []));
          expect([part.name, variant, bars.size]).toEqual([part.name, variant, pattern.bars.length]);
        }
      }
    },
  );
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: the bass has the root on every downbeat",
    (_, pattern) => {
      const bass = pattern.parts.find((part) => part.name === "bass")!.variants[""]!;
      for (const bar of pattern.bars) {
        const note = bass.find((each) => compare(each.position, bar.position) === 0);
        expect([bar.number, note && pitchClass(note)]).toEqual([bar.number, chordAt(pattern, bar.position).root]);
      }
    },
  );
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: strong beats carry notes of the chord",
    (_, pattern) => {
      for (const [name, notes] of lines(pattern)) {
        const strong = notes.filter((note) => onStrongBeat(pattern, note));
        const inChord = strong.filter((note) => chordAt(pattern, note.position).tones.includes(pitchClass(note)));
        expect(strong.length, name).toBeGreaterThan(0);
        // Our choice of three quarters: the others are passing notes, and have to be in the key.
        expect(inChord.length / strong.length, `${name}: ${inChord.length} of ${strong.length}`).toBeGreaterThanOrEqual(
          0.75,
        );
      }
    },
  );
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: notes are in the key or the chord, or lead by a semitone",
    (_, pattern) => {
      const key = scaleOf(keyText(pattern.key));
      if (!key.ok) throw new Error("no such key");
      const scale = pitchClasses(key.value);
      for (const [name, notes] of lines(pattern)) {
        notes.forEach((note, i) => {
          const next = notes[(i + 1) % notes.length]!;
          const leads = Math.abs(midiNumber(next.pitch!) - midiNumber(note.pitch!)) % 12 === 1;
          const fits =
            scale.includes(pitchClass(note)) ||
            chordAt(pattern, note.position).tones.includes(pitchClass(note)) ||
            leads;
          expect(fits, `${name}: note ${i + 1} (${note.pitch!.letter}) in bar ${floor(note.position) + 1}`).toBe(true);
        });
      }
    },
  );
  test.each(patterns.map((pattern) => [pattern.name, pattern] as const))(
    "%s: the lead can be sung: a twelfth at most, no leap beyond an octave",
    (_, pattern) => {
      for (const notes of Object.values(pattern.parts.find((part) => part.name === "lead")!.variants)) {
        const numbers = notes.map((note) => midiNumber(note.pitch!));
        expect(Math.max(...numbers) - Math.min(...numbers)).toBeLessThanOrEqual(19);
        for (const [i, number] of numbers.entries())
          expect(Math.abs((numbers[i + 1] ?? number) - number)).toBeLessThanOrEqual(12);
      }
    },
  );
  test("every drill has a score at its first and its last rung, in every mix", () => {
    for (const drill of read(file).drills) {
      const all = rungs(drill);
      for (const index of [0, all.count - 1]) {
        for (const mix of drill.mixes) {
          const score = scoreOf(all.at(index), mix.name);
          const { expected } =
            "ok" in score ? (score as never as { value: { expected: readonly unknown[] } }).value : score;
          expect(expected.length).toBeGreaterThan(0);
        }
      }
    }
  });
  test("every drill but the first can be reached from one that needs nothing", () => {
    const { drills } = read(file);
    expect(drills.filter((drill) => drill.needs.length === 0).length).toBeGreaterThan(0);
    expect(drills[0]!.needs).toEqual([]);
  });
});

test("three courses ship beside the recipes: five drills in the first course, transposing instruments and open bars, odd meters", () => {
  expect(COURSES).toEqual(["quayside-first-course.yaml", "quayside-odd-meters.yaml", "quayside-wind-and-brass.yaml"]);
  const first = read("quayside-first-course.yaml");
  expect(first.drills.map((drill) => [drill.name, ...drill.needs])).toEqual([
    ["steady"],
    ["half-bar", "steady"],
    ["one-bar", "half-bar"],
    ["two-bars", "one-bar"],
    ["growing", "two-bars"],
  ]);
  const winds = read("quayside-wind-and-brass.yaml");
  expect(winds.drills.some((drill) => drill.open !== undefined)).toBe(true);
  expect(
    winds.drills[0]!.players.filter(({ instrument }) => instrument.transposition.chromatic % 12 !== 0).length,
  ).toBeGreaterThanOrEqual(4);
  const oneByOne = winds.drills.find(({ name }) => name === "lantern-one-by-one")!;
  const { dropouts } = scoreOf(rungs(oneByOne).at(0), "play");
  expect(dropouts.map(({ parts }) => parts.join("+"))).toEqual(["kit", "kit", "bass+kit", "bass+kit"]);
  expect(oneByOne.countInVoice).toBe("sticks");
  const odd = Object.values(read("quayside-odd-meters.yaml").patterns).map((pattern) => pattern.bars[0]!.meter);
  expect(odd).toMatchObject([
    { kind: "additive", groups: [2, 2, 3], lower: 8 },
    { kind: "compound", groups: [3, 3, 3, 3], lower: 8 },
  ]);
});
