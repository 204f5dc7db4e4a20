/**
 * Tuplets in a swung riff, written, counted out by hand and read back by others. The rule: swing makes pairs of eighths or sixteenths uneven and has no effect on
 * a note whose duration is not the nominal value of its type (MusicXML 4.0, element `swing`), so that a tuplet is even. Where a tuplet that begins or ends
 * off the beat stands is common practice, no source; that tuplets meeting off the beat are even together is our choice.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import midiFile from "midi-file";
import { afterAll, describe, expect, test } from "vitest";
import { type Curriculum, compileCourse, openCourse, readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { midiOf, musicXmlOf, riffPage, studentMidiOf } from "../../lib/render/index.js";
import { encodeWav, renderSound } from "../../lib/render/sound/index.js";
import type { Score } from "../../lib/schema/index.js";
import { assess, follow } from "../../lib/take/index.js";
import { isThere } from "../render/sound/programs.js";
import { must } from "../time/shorthand.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-tuplets-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

/** Beats per minute: sixteenths and less are played at the slow one. */
const tempoOf = (line: string): number => (line.includes("1/16") ? 60 : 108);
const beatOf = (line: string): number => 60 / tempoOf(line);
const BARS = 4;

/** Two beats of a line in 4/4 with eighths swung 2:1, and where its notes begin, in sixths or eighteenths of a beat, counted out by hand. */
const FIGURES: readonly (readonly [name: string, line: string, onsets: readonly number[]])[] = [
  ["a triplet of eighths", "3 in 2 [1/8 D4 E4 F4] 1/8 G4 A4", [0, 1 / 3, 2 / 3, 1, 5 / 3]],
  ["a quarter and an eighth in a triplet", "3 in 2 [1/4 D4 1/8 F4] 1/8 G4 A4", [0, 2 / 3, 1, 5 / 3]],
  ["a triplet of quarters across the beat", "3 in 2 [1/4 D4 E4 F4]", [0, 2 / 3, 4 / 3]],
  ["a triplet of sixteenths on the beat", "3 in 2 [1/16 D4 E4 F4] 1/8 G4 1/4 A4", [0, 2 / 9, 4 / 9, 2 / 3, 1]],
  ["a triplet of sixteenths off the beat", "1/8 D4 3 in 2 [1/16 E4 F4 G4] 1/4 A4", [0, 2 / 3, 7 / 9, 8 / 9, 1]],
  [
    "two triplets of sixteenths in a beat",
    "3 in 2 [1/16 D4 E4 F4] 3 in 2 [1/16 G4 F4 E4] 1/4 A4",
    [0, 1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6, 1],
  ],
  ["six in the time of four", "6 in 4 [1/16 D4 E4 F4 G4 F4 E4] 1/4 A4", [0, 1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6, 1]],
  ["five in the time of four", "5 in 4 [1/16 D4 E4 F4 G4 F4] 1/4 A4", [0, 1 / 5, 2 / 5, 3 / 5, 4 / 5, 1]],
  ["a triplet from off-beat to off-beat", "1/8 D4 3 in 2 [1/8 E4 F4 G4] 1/8 A4", [0, 2 / 3, 1, 4 / 3, 5 / 3]],
  ["an eighth tied into a triplet", "1/8 D4 E4 3 in 2 [1/8 tie F4 G4]", [0, 2 / 3, 4 / 3, 5 / 3]],
  ["a triplet tied into an eighth", "3 in 2 [1/8 D4 E4 F4] 1/8 tie G4", [0, 1 / 3, 2 / 3, 5 / 3]],
  ["a rest in a triplet", "3 in 2 [1/8 - E4 F4] 1/8 G4 A4", [1 / 3, 2 / 3, 1, 5 / 3]],
];

const course = (line: string, { swing = "2:1 1/8 note", kit = "ride: xxxxxxxx | ..." } = {}): string => `
curriculum: ebb
edition: 1.0.0
title: Ebb
patterns:
  ebb:
    meter: 4/4
    bars: ${BARS}
    swing: ${swing}
    parts:
      kit: { voices: { ${kit} } }
      lead: { instrument: marimba, notes: "${line} | ..." }
drills:
  ebb:
    pattern: ebb
    student: lead
    dropout: { length: 1 bar }
    ladders: [{ tempo: [${tempoOf(line)}] }]
    mixes: { play: { lead: off }, listen: { lead: plays } }
    tolerance: { drift: 3 %, landing: 60 ms }
`;

const read = (text: string, files: ReadonlyMap<string, Uint8Array> = new Map()): Curriculum =>
  must(readCurriculum(text, { file: "ebb.yaml", readFile: (path) => files.get(path) }));

function scoreFor(line: string, mix = "play", options: Parameters<typeof course>[1] = {}): Score {
  const { drills } = read(course(line, options));
  return scoreOf(rungs(drills[0]!).at(0), mix);
}

/** A whole bar of a figure: twice the two beats. */
const whole = (line: string): string => `${line} ${line}`;

/** Where a player begins the notes who plays the figure as counted, over a whole take, in seconds from bar 1. */
function played(onsets: readonly number[], { duration, beat }: Score): readonly number[] {
  const twoBeats = Array.from({ length: Math.round(duration / beat / 2) }, (_, i) => 2 * i);
  return twoBeats.flatMap((from) => onsets.map((at) => (from + at) * beat));
}

describe.each(FIGURES)("%s in swung eighths", (_, line, onsets) => {
  const score = scoreFor(whole(line));
  const player = played(onsets, score);

  test("is expected where it is counted", () => {
    expect(score.expected.map(({ at }) => at)).toHaveLength(player.length);
    score.expected.forEach(({ at }, i) => {
      expect(at).toBeCloseTo(player[i]!, 6);
    });
  });

  test("a player who counts it is within, at an offset below 3 ms, by assess() and by follow()", () => {
    const take = { zero: "bar-1" as const, onsets: [...player] };
    const finding = assess(score, take);
    expect(finding.verdict).toBe("within");
    expect(Math.abs(finding.offsetMs as number)).toBeLessThan(3);
    const follower = follow(score, { zero: "bar-1" });
    for (const onset of take.onsets) expect(Math.abs(follower.play(onset).asynchronyMs as number)).toBeLessThan(3);
  });

  test("sounds, and is written to MIDI files, where it is counted, and no note goes on into the next", () => {
    const listen = scoreFor(whole(line), "listen");
    const lead = listen.parts.find(({ student }) => student)!.notes;
    const beforeSilence = lead.filter(({ at, seconds }) => at >= 0 && seconds > 0);
    expect(beforeSilence.map(({ at }) => at)).toEqual(listen.expected.map(({ at }) => at));
    lead.slice(1).forEach(({ at }, i) => {
      expect(lead[i]!.at + lead[i]!.seconds).toBeLessThanOrEqual(at + 1e-9);
    });
    for (const bytes of [must(midiOf(listen)), must(studentMidiOf(score))]) {
      const { sounding, ends } = readByMidiFile(bytes, 4 * beatOf(line));
      expect(sounding).toHaveLength(player.length);
      sounding.forEach((at, i) => {
        // A tick is 1.2 ms at most here, and the tempo is in whole microseconds.
        expect(Math.abs(at - player[i]!)).toBeLessThan(0.0013);
        if (i > 0) expect(ends[i - 1]!).toBeLessThanOrEqual(at + 1e-6);
      });
    }
  });
});

/** When the notes of the lead's track begin and end, in seconds from bar 1, which is after so many seconds, by the npm package midi-file. */
function readByMidiFile(bytes: Uint8Array, countIn: number): { sounding: readonly number[]; ends: readonly number[] } {
  const { header, tracks } = midiFile.parseMidi(bytes);
  const tempo = tracks.flat().flatMap((event) => (event.type === "setTempo" ? [event.microsecondsPerBeat] : []))[0]!;
  const track = tracks.find((events) => events.some((event) => event.type === "trackName" && event.text === "lead"))!;
  const found = { sounding: [] as number[], ends: [] as number[] };
  let ticks = 0;
  for (const event of track) {
    ticks += event.deltaTime;
    const at = (ticks / header.ticksPerBeat!) * (tempo / 1e6) - countIn;
    if (event.type === "noteOn" && event.velocity > 0) found.sounding.push(at);
    else if (event.type === "noteOn" || event.type === "noteOff") found.ends.push(at);
  }
  return found;
}

const near = (value: number): unknown => expect.closeTo(value, 6);

/** A time in beats, when it is in the first two. */
const inTwoBeats = (at: number, beat: number): readonly number[] => (at < 2 * beat - 1e-6 ? [at / beat] : []);

describe("tuplets of other parts, swings and sources", () => {
  const strokes = (kit: string, swing?: string): readonly number[] =>
    scoreFor(whole("1/4 D4 E4"), "play", { kit, ...(swing && { swing }) })
      .parts.find(({ name }) => name === "kit")!
      .notes.flatMap(({ at }) => inTwoBeats(at, beatOf("")));

  test("a shuffle written in triplets is played as written, and falls together with swung eighths", () => {
    expect(strokes("ride: x-xx-xx-xx-x | ...")).toEqual([0, 2 / 3, 1, 5 / 3].map(near));
    expect(strokes("ride: xxxxxxxx | ...")).toEqual([0, 2 / 3, 1, 5 / 3].map(near));
  });

  test("in a bar of 24 characters a beat with a stroke off the eighths and sixteenths is a tuplet, and another is swung", () => {
    expect(strokes("ride: xxxxxxx--x--xxxxxxx--x-- | ...")).toEqual(
      [0, 1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6, 1, 5 / 3].map(near),
    );
  });

  test("with swung sixteenths the triplet of eighths is even, and so is one of sixteenths", () => {
    const at = (line: string): readonly number[] =>
      scoreFor(whole(line), "play", { swing: "2:1 1/16 note" }).expected.flatMap(({ at }) =>
        inTwoBeats(at, beatOf(line)),
      );
    expect(at("3 in 2 [1/8 D4 E4 F4] 1/16 G4 F4 E4 F4")).toEqual([0, 1 / 3, 2 / 3, 1, 4 / 3, 3 / 2, 11 / 6].map(near));
    expect(at("3 in 2 [1/16 D4 E4 F4] 1/8 G4 1/4 A4")).toEqual([0, 1 / 6, 1 / 3, 1 / 2, 1].map(near));
  });

  test("two voices of drums that are struck at once are one onset of the student's, whichever way each is written", () => {
    const text = course("1/4 D4 D4 D4 D4", { kit: "ride: x-xx-xx-xx-x | ..., snare: -x-x-x-x | ..." })
      .replace("student: lead", "student: kit")
      .replace("play: { lead: off }, listen: { lead: plays }", "play: { kit: off }");
    const score = scoreOf(rungs(read(text).drills[0]!).at(0));
    expect(score.expected.slice(0, 4).map(({ at }) => at / beatOf(""))).toEqual([0, 2 / 3, 1, 5 / 3].map(near));
  });

  test("a riff written to MusicXML and read from the file again sounds as it did", () => {
    // The page cuts a bracket at the beat, so that a triplet across it is two of sixteenths there, with a tie.
    const kept = FIGURES.filter(([name]) => name !== "a triplet from off-beat to off-beat");
    expect(kept).toHaveLength(FIGURES.length - 1);
    for (const [name, line] of kept) {
      const listen = scoreFor(whole(line), "listen");
      const { pattern } = read(course(whole(line))).drills[0]!;
      const xml = must(musicXmlOf(riffPage(pattern, { part: "lead" })));
      const files = new Map([["ebb.musicxml", new TextEncoder().encode(xml)]]);
      const text = course(whole(line)).replace(/notes: ".*?"/, "file: ebb.musicxml");
      const { drills } = read(text, files);
      const again = scoreOf(rungs(drills[0]!).at(0), "listen");
      expect(
        again.expected.map(({ at }) => at),
        name,
      ).toEqual(listen.expected.map(({ at }) => at));
    }
  });

  test("a compiled course plays as the course, and one compiled before tuplets were told still opens", () => {
    const written = read(course(whole("3 in 2 [1/8 D4 E4 F4] 1/8 G4 A4")));
    const opened = must(openCourse(compileCourse(written)));
    expect(scoreOf(rungs(opened.drills[0]!).at(0))).toEqual(scoreOf(rungs(written.drills[0]!).at(0)));
  });
});

const aubio = isThere("aubioonset", "aubio-tools", "onsets of swung triplets found by an independent detector");
test.skipIf(!aubio)(
  "an independent detector hears a rendered line of triplets and swung eighths where it is counted",
  () => {
    const [, line, onsets] = FIGURES[0]!;
    const listen = scoreFor(whole(line), "listen");
    const sound = must(renderSound({ ...listen, parts: listen.parts.filter(({ student }) => student), countIn: 0 }));
    const path = join(folder, "line.wav");
    writeFileSync(path, encodeWav(sound, { samples: 16 }));
    const { stdout } = spawnSync(
      "aubioonset",
      ["-i", path, "-O", "hfc", "-B", "256", "-H", "64", "-t", "0.3", "-s", "-60", "-M", "0.03"],
      { encoding: "utf8" },
    );
    const found = stdout.trim().split("\n").map(Number);
    const player = played(onsets, listen);
    const lead = found[0]! - player[0]!;
    const errors = player.map((at) => Math.min(...found.map((each) => Math.abs(each - lead - at))));
    console.log(
      `aubioonset: ${found.length} onsets for ${player.length} notes, furthest ${(1000 * Math.max(...errors)).toFixed(2)} ms`,
    );
    expect(found).toHaveLength(player.length);
    expect(Math.max(...errors)).toBeLessThan(0.005);
  },
);
