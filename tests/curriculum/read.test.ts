import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { courseFrom, courseText, HOLD, placesIn, read } from "./courses.js";

describe("readCurriculum()", () => {
  test("reads a course into plain data that survives JSON", () => {
    const course = courseFrom(courseText({ head: "about: A test.\n" }));
    expect(course).toMatchObject({
      name: "quay-test",
      edition: "1.0.0",
      title: "Quay test",
      about: "A test.",
      formerly: {},
    });
    expect(course.drills.map((drill) => [drill.name, drill.pattern.name, drill.phrases])).toEqual([
      ["hold", "riff", 4],
    ]);
    expect(JSON.parse(JSON.stringify(course))).toEqual(course);
  });

  test("finds problems of the shape, of a pattern, of a drill and of the course at once, in the order of the text", () => {
    const text = courseText({
      head: "titel: Quay\nplayers: [trumpett]\n",
      drills: `${HOLD}    needs: [hald]\n${HOLD.replace("hold", "other").replace("40 ms", "40 bananas")}${HOLD.replace("hold", "third").replace("90", "ninety")}`,
    }).replace("| G2", "| H2");
    expect(placesIn(text)).toEqual([
      "UNKNOWN_KEY 4:1",
      "INSTRUMENT_UNKNOWN 5:11",
      "PITCH_NOT_READ 13:31",
      "DRILL_UNKNOWN 25:13",
      "TOLERANCE_NOT_READ 31:30",
      "WRONG_TYPE 36:12",
    ]);
  });

  test("an unknown key of a pattern hides nothing of its lines, and a broken pattern nothing of the drills over it", () => {
    const text = courseText({ drills: `${HOLD}    gate: { clean: 5, of: 4 }\n` })
      .replace("| G2", "| H2")
      .replace("    meter:", "    colour: blue\n    meter:");
    expect(placesIn(text).map((place) => place.split(" ")[0])).toEqual([
      "UNKNOWN_KEY",
      "PITCH_NOT_READ",
      "GATE_CANNOT_BE_MET",
    ]);
  });

  test("a drill over a broken pattern, or over a misspelt one, is read against its parts and bars", () => {
    const drills = `${HOLD.replace("student: lead", "student: led")}    dropout: { at: [9], length: 1 measures }\n`;
    const text = courseText({ drills });
    const ofDrill = ["PART_UNKNOWN", "SPAN_UNIT_UNKNOWN", "DROPOUT_BAR_OUTSIDE_PATTERN"].sort();
    const codes = (each: string) => placesIn(each).map((place) => place.split(" ")[0]);
    expect(codes(text).toSorted()).toEqual(ofDrill);
    expect(codes(text.replace("| G2", "| H2")).toSorted()).toEqual([...ofDrill, "PITCH_NOT_READ"].sort());
    expect(codes(text.replace("pattern: riff", "pattern: rif")).toSorted()).toEqual(
      [...ofDrill, "PATTERN_UNKNOWN"].sort(),
    );
    // Nothing is known of this one, whatever an object has under its name.
    const inherited = courseText({ drills: HOLD }).replace("pattern: riff", "pattern: constructor");
    expect(codes(inherited.replace("  riff:", "  constructor:").replace(/meter: \S+/, "meter: four"))).toEqual([
      "METER_NOT_READ",
    ]);
    // What follows from notes is not judged of a pattern that could not be read whole.
    expect(codes(courseText({ drills: HOLD }).replace("| G2", "| H2"))).toEqual(["PITCH_NOT_READ"]);
  });

  test("what is missing because it did not fit is not reported as missing", () => {
    const codes = (text: string) => placesIn(text).map((place) => place.split(" ")[0]);
    expect(codes(courseText().replace("tempo: 90", "tempos: 90"))).toEqual(["UNKNOWN_KEY"]);
    expect(codes(courseText().replace("tempo: 90", "ladders: [{ tempo: [ninety] }]"))).toEqual(["WRONG_TYPE"]);
  });

  test("does not repeat the problems of a pattern for each drill over it", () => {
    const text = courseText({ drills: HOLD + HOLD.replace("hold", "other") }).replace("| G2", "| H2");
    expect(placesIn(text)).toEqual(["PITCH_NOT_READ 11:31"]);
  });

  test("suggests the nearest name for a misspelling", () => {
    const remedies = (text: string): readonly (string | undefined)[] =>
      problemsIn(read(text)).map((each) => each.remedy);
    expect(remedies(courseText().replace("student: lead", "student: led"))).toEqual(["write lead"]);
    expect(remedies(courseText().replace("    tempo: 90", "    tempoo: 90"))).toEqual(["write tempo"]);
    expect(remedies(courseText({ head: "players: [trumpt]\n" }))).toEqual(["write trumpet"]);
    expect(remedies(courseText().replace("D dorian", "D dorain"))).toEqual(["write D dorian"]);
  });

  test("tells errors and advice apart: advice does not stop a course", () => {
    const result = read(courseText().replace("steadiness: 40 ms", "steadiness: 5 ms"));
    expect(result).toMatchObject({ ok: true, advice: [{ code: "TOLERANCE_BELOW_HEARING", severity: "advice" }] });
  });

  test("a problem behind an alias is reported where the text stands, once", () => {
    const drills =
      HOLD.replace("{ steadiness: 40 ms }", "&near { steadiness: 40 nm }") +
      HOLD.replace("hold", "other").replace("{ steadiness: 40 ms }", "*near");
    expect(placesIn(courseText({ drills }))).toEqual(["TOLERANCE_NOT_READ 22:36"]);
  });

  test("aliases are the same as writing the thing again", () => {
    const written = HOLD + HOLD.replace("hold", "other");
    const drills =
      HOLD.replace("{ steadiness: 40 ms }", "&near { steadiness: 40 ms }") +
      HOLD.replace("hold", "other").replace("{ steadiness: 40 ms }", "*near");
    expect(courseFrom(courseText({ drills }))).toEqual(courseFrom(courseText({ drills: written })));
  });

  test("line ends of any system, and a byte order mark, change no place", () => {
    const text = courseText().replace("| G2", "| H2");
    expect(placesIn(text.replaceAll("\n", "\r\n"))).toEqual(placesIn(text));
    expect(placesIn(`\ufeff${text}`)).toEqual(placesIn(text));
  });

  test("a %YAML 1.1 directive does not make `no` mean false", () => {
    expect(courseFrom(`%YAML 1.1\n---\n${courseText({ head: "about: no\n" })}`).about).toBe("no");
  });

  test("instruments of the course come before those of the table", () => {
    const head =
      "instruments: { trumpet: { lowest: D4 }, quay horn: { sounds: perfect fifth lower, lowest: C3 } }\nplayers: [trumpet, quay horn]\n";
    const [drill] = courseFrom(courseText({ head })).drills;
    expect(drill!.players.map(({ instrument }) => [instrument.name, instrument.transposition.chromatic])).toEqual([
      ["trumpet", 0],
      ["quay horn", -7],
    ]);
  });

  test("a player of the course whose range a drill leaves is reported at the player, naming the drill", () => {
    const [problem] = problemsIn(read(courseText({ head: "players: [trumpet, { instrument: tuba, octave: 1 }]\n" })));
    expect(problem).toMatchObject({
      code: "WRITTEN_ABOVE_RANGE",
      where: { line: 4, column: 20, pointer: "/players/1" },
    });
    expect(problem!.message).toContain("hold");
  });

  test("former names lead to present ones, and only to one", () => {
    const course = courseFrom(courseText({ drills: `${HOLD}    formerly: [stay, keep]\n` }));
    expect(course.formerly).toEqual({ stay: "hold", keep: "hold" });
    const twice = `${HOLD}    formerly: keep\n${HOLD.replace("hold", "other")}    formerly: [keep, hold, other]\n`;
    expect(problemsIn(read(courseText({ drills: twice }))).map((each) => each.code)).toEqual([
      "FORMER_NAME_IN_USE",
      "FORMER_NAME_IN_USE",
      "FORMER_NAME_IN_USE",
    ]);
  });

  test("names that objects have of their own are names like others", () => {
    const drills =
      HOLD.replace("hold", "constructor") +
      `${HOLD.replace("hold", "toString")}    needs: [constructor]\n    formerly: valueOf\n`;
    const course = courseFrom(courseText({ drills }).replaceAll("riff", "hasOwnProperty"));
    expect(course.drills.map((drill) => drill.name)).toEqual(["constructor", "toString"]);
    expect(course.formerly).toEqual({ valueOf: "toString" });
    expect(
      problemsIn(read(courseText().replace("pattern: riff", "pattern: constructor"))).map((each) => each.code),
    ).toEqual(["PATTERN_UNKNOWN"]);
  });

  test("asks for each file of a part by the path as written", () => {
    const asked: string[] = [];
    const text = courseText().replace("{ notes: 1/1 D2 | G2 | D2 | A2 }", "{ file: riffs/bass.mid }");
    const result = readCurriculum(text, {
      file: "course.yaml",
      readFile: (path) => void asked.push(path) as undefined,
    });
    expect(asked).toEqual(["riffs/bass.mid"]);
    expect(problemsIn(result).map((each) => each.code)).toEqual(["FILE_NOT_FOUND"]);
  });

  test("something else than a text of keys is a problem, not an exception", () => {
    for (const text of [
      "",
      "null",
      "5",
      "- 1",
      "text",
      "{}",
      "[]",
      "''",
      "? a",
      "---",
      "...",
      "!!map",
      "&a",
      "*a",
      "a: *b",
      "\t",
      "%",
      "@",
    ]) {
      const result = read(text);
      expect([text, result.ok]).toEqual([text, false]);
    }
  });
});

test("the course of a saxophone teacher is valid without advice: alto and tenor, three densities, growing silences, an open bar, four mixes", () => {
  const text = readFileSync(new URL("saxophones.yaml", import.meta.url), "utf8");
  const course = readCurriculum(text, { file: "saxophones.yaml", readFile: () => undefined });
  expect(course).toMatchObject({ ok: true, advice: [] });
  const [drill] = course.ok ? course.value.drills : [];
  expect(drill!.players.map(({ instrument }) => instrument.name)).toEqual(["alto saxophone", "tenor saxophone"]);
  expect(drill!.open!.scale.steps).toEqual([0, 3, 5, 6, 7, 10]);
  expect(drill!.mixes.map(({ name }) => name)).toEqual(["play", "listen", "alone", "drums only"]);
});
