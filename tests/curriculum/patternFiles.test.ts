import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { compileCourse, openCourse, readCurriculum } from "../../lib/curriculum/index.js";
import { scoreOf, rungs } from "../../lib/drill/index.js";
import { midiOf } from "../../lib/render/index.js";
import { must } from "../time/shorthand.js";

const COURSE = `curriculum: quay
edition: 1.0.0
title: Quay
patterns: { file: riffs/dorian.yaml }
drills:
  hold:
    title: Hold
    pattern: dockside
    student: lead
    tempo: 88
    dropout: { length: 1/2 bar }
    tolerance: { drift: 8 % }
`;

const RIFFS = `author: Marta Quay
tuning: 442 Hz
instruments:
  quay horn: { sounds: perfect fifth lower, lowest: C3, highest: C6 }
patterns:
  dockside:
    meter: 4/4
    bars: 2
    key: D dorian
    parts:
      kit: { voices: { hat: "x-x-x-x- | ..." } }
      lead: { instrument: quay horn, notes: "1/4 D4 F4 A4 F4 | G4 F4 E4 D4" }
`;

/** What there is in the folder of the course. */
function read(files: Readonly<Record<string, string | Uint8Array>>, course = COURSE) {
  const asked: string[] = [];
  const readFile = (path: string): Uint8Array | undefined => {
    asked.push(path);
    const content = files[path];
    return typeof content === "string" ? new TextEncoder().encode(content) : content;
  };
  const result = readCurriculum(course, { file: "course.yaml", readFile });
  const said = problemsIn(result).map(
    ({ code, where }) => `${code} ${where.file}:${where.line}:${where.column} ${where.pointer}`,
  );
  return { result, said, asked };
}

describe("patterns that are taken from another file", () => {
  test("are the patterns of the course, with the instruments and the tuning of their file", () => {
    const { result, said } = read({ "riffs/dorian.yaml": RIFFS });
    expect(said).toEqual([]);
    const course = must(result);
    expect(Object.keys(course.patterns)).toEqual(["dockside"]);
    expect(course.patterns.dockside!.tuning).toBe(442);
    expect(course.instruments["quay horn"]!.clef).toBe("treble");
    expect(scoreOf(rungs(course.drills[0]!).at(0)).expected[0]!.pitch).toBe("D4");
  });

  test("are inside the compiled course, which needs no file any more", () => {
    const course = must(read({ "riffs/dorian.yaml": RIFFS }).result);
    const opened = must(openCourse(compileCourse(course)));
    expect(scoreOf(rungs(opened.drills[0]!).at(0))).toEqual(scoreOf(rungs(course.drills[0]!).at(0)));
  });

  test("may be those of a whole course, whose drills are not taken, and of several files", () => {
    const whole = `${COURSE.replace("patterns: { file: riffs/dorian.yaml }\n", "")}${RIFFS.replaceAll("dockside", "quayside").replace(/^author.*\n/m, "")}`;
    const both = COURSE.replace("{ file: riffs/dorian.yaml }", "{ file: [riffs/dorian.yaml, other.yaml] }");
    const { result, said } = read({ "riffs/dorian.yaml": RIFFS, "other.yaml": whole }, both);
    expect(said).toEqual([]);
    expect(Object.keys(must(result).patterns).sort()).toEqual(["dockside", "quayside"]);
    expect(must(result).drills).toHaveLength(1);
  });

  test("are checked as the rest: a problem names their file and its line", () => {
    const broken = RIFFS.replace("G4 F4 E4 D4", "G4 F4 E4 H4").replace("perfect fifth lower", "a bit lower");
    expect(read({ "riffs/dorian.yaml": broken }).said).toEqual([
      "INTERVAL_NOT_READ riffs/dorian.yaml:4:24 /instruments/quay horn/sounds",
      "PITCH_NOT_READ riffs/dorian.yaml:12:73 /patterns/dockside/parts/lead/notes",
    ]);
    const noYaml = RIFFS.replace("parts:", "parts");
    expect(read({ "riffs/dorian.yaml": noYaml }).said[0]).toMatch(/^YAML_SYNTAX riffs\/dorian\.yaml:/);
    const unknown = RIFFS.replace("bars: 2", "measures: 2");
    expect(read({ "riffs/dorian.yaml": unknown }).said.join()).toContain("riffs/dorian.yaml:8:5");
    // What the drill says of a pattern is told where the drill is.
    expect(read({ "riffs/dorian.yaml": RIFFS }, COURSE.replace("1/2 bar", "5 bars")).said).toEqual([
      "DROPOUT_LONGER_THAN_PHRASE course.yaml:11:24 /drills/hold/dropout/length",
    ]);
  });

  test("name files of their parts from their own folder", () => {
    const midi = must(midiOf(scoreOf(rungs(must(read({ "riffs/dorian.yaml": RIFFS }).result).drills[0]!).at(0), "play")));
    const filed = RIFFS.replace('notes: "1/4 D4 F4 A4 F4 | G4 F4 E4 D4"', "file: takes/lead.mid, bars: 1-2, track: 4");
    const { asked } = read({ "riffs/dorian.yaml": filed, "riffs/takes/lead.mid": midi });
    expect(asked).toEqual(["riffs/dorian.yaml", "riffs/takes/lead.mid"]);
    const climbing = RIFFS.replace('notes: "1/4 D4 F4 A4 F4 | G4 F4 E4 D4"', "file: ../lead.mid");
    const { asked: tried, said } = read({ "riffs/dorian.yaml": climbing });
    expect(tried).toEqual(["riffs/dorian.yaml"]);
    expect(said.join()).toContain("PATH_LEAVES_FOLDER riffs/dorian.yaml:12:");
  });

  test("may be taken further, from the folder of the file that names them, and never in a circle", () => {
    const leads = "patterns: { file: more/blues.yaml }\n";
    const { result, asked } = read({ "riffs/dorian.yaml": leads, "riffs/more/blues.yaml": RIFFS });
    expect(result.ok).toBe(true);
    expect(asked).toEqual(["riffs/dorian.yaml", "riffs/more/blues.yaml"]);
    expect(read({ "riffs/dorian.yaml": "patterns: { file: dorian.yaml }\n" }).said).toEqual([
      "PATTERNS_IN_A_CIRCLE riffs/dorian.yaml:1:19 /patterns/file",
    ]);
    const [there, back] = ["patterns: { file: b.yaml }\n", "patterns:\n  file: dorian.yaml\n"];
    const circle = read({ "riffs/dorian.yaml": there, "riffs/b.yaml": back });
    expect(circle.said).toEqual(["PATTERNS_IN_A_CIRCLE riffs/b.yaml:2:9 /patterns/file"]);
  });

  test("are missed by name, once, and nothing is said of the drills that only follows from it", () => {
    const { said, result } = read({});
    expect(said).toEqual(["PATTERNS_NOT_FOUND course.yaml:4:19 /patterns/file"]);
    expect(problemsIn(result)[0]!.message).toContain('"riffs/dorian.yaml"');
    expect(problemsIn(result)[0]!.remedy).toContain("browser");
    expect(read({ "riffs/dorian.yaml": RIFFS }, COURSE.replace("dockside", "docksid")).said).toEqual([
      "PATTERN_UNKNOWN course.yaml:8:14 /drills/hold/pattern",
    ]);
  });

  test.each([
    ["../riffs.yaml", "PATH_LEAVES_FOLDER"],
    ["/etc/riffs.yaml", "PATH_LEAVES_FOLDER"],
    ["~/riffs.yaml", "PATH_LEAVES_FOLDER"],
    ["https://quayside.example/riffs.yaml", "PATH_LEAVES_FOLDER"],
  ])("%s is never opened", (path, code) => {
    const { said, asked } = read({}, COURSE.replace("riffs/dorian.yaml", `"${path}"`));
    expect(said).toEqual([`${code} course.yaml:4:19 /patterns/file`]);
    expect(asked).toEqual([]);
  });

  test("are not written in the course too, nor twice in two files, and a file has some", () => {
    const both = COURSE.replace(
      "patterns: { file: riffs/dorian.yaml }",
      "patterns:\n  file: riffs/dorian.yaml\n  mine: { meter: 4/4, bars: 1, parts: {} }",
    );
    expect(read({ "riffs/dorian.yaml": RIFFS }, both).said).toEqual(["PATTERNS_FORM course.yaml:5:9 /patterns/file"]);
    const twice = COURSE.replace("riffs/dorian.yaml", "[riffs/dorian.yaml, b.yaml]");
    expect(read({ "riffs/dorian.yaml": RIFFS, "b.yaml": RIFFS }, twice).said).toEqual([
      "PATTERN_TWICE b.yaml:6:3 /patterns/dockside",
    ]);
    expect(read({ "riffs/dorian.yaml": "title: nothing here\n" }).said).toEqual([
      "PATTERNS_FORM riffs/dorian.yaml:1:1 ",
    ]);
    expect(read({ "riffs/dorian.yaml": "" }).said).toEqual(["EMPTY_FILE riffs/dorian.yaml:1:1 "]);
    expect(read({ "riffs/dorian.yaml": new Uint8Array(2 ** 20 + 1) }).said).toEqual([
      "FILE_TOO_LARGE course.yaml:4:19 /patterns/file",
    ]);
  });
});
