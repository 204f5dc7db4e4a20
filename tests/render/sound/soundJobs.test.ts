import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { soundJobs } from "../../../lib/render/sound/index.js";
import { english, settingInEnglish, wordSettings, wordsOf } from "../../../lib/words/index.js";
import { drillOf, jetty } from "../../drill/material.js";
import { made } from "./material.js";

const drill = drillOf(jetty({ tempo: undefined, ladders: [{ tempo: { from: 84, to: 96, by: 4 } }] }));

describe("soundJobs()", () => {
  test("has every mix of every rung, each with the score that scoreOf() gives", () => {
    const jobs = made(soundJobs(drill, { curriculum: "quayside", edition: "1.0.0" }));
    expect(jobs.count).toBe(8);
    const ladder = rungs(drill);
    for (let i = 0; i < jobs.count; i++) {
      const { file, score } = jobs.at(i);
      const mix = drill.mixes[i % 2]!.name;
      expect(score).toEqual({ curriculum: "quayside", edition: "1.0.0", ...scoreOf(ladder.at(i >> 1), mix) });
      expect(file).toBe(jobs.fileAt(i));
      expect(file).toBe(`drill/0${(i >> 1) + 1}-drill-${84 + 4 * (i >> 1)}-${mix}`);
      expect(jobs.rungAt(i)).toBe(`0${(i >> 1) + 1}-${84 + 4 * (i >> 1)}`);
    }
  });

  test("gives every file a name of its own, also where capitals are not told apart, and the same name whatever is chosen", () => {
    const mixes = { "a.b": {}, "A b": {}, "a-b": { lead: "plays" as const }, "a--b": {} };
    const odd = drillOf(jetty({ mixes }));
    const jobs = made(soundJobs(odd));
    const names = Array.from({ length: jobs.count }, (_, i) => jobs.fileAt(i).toLowerCase());
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z\d-]+\/[a-z\d-]+$/);
    expect(made(soundJobs(odd, { mixes: ["a--b"], rungs: [0] })).fileAt(0)).toBe(jobs.fileAt(3));
  });

  test("leaves the underscore to what stands after a file's name: a mix called 'play_student' never takes the name of the student's file of 'play'", () => {
    const odd = drillOf(jetty({ mixes: { play: {}, "play - student": {}, play_student: {} } }));
    const jobs = made(soundJobs(odd));
    const names = Array.from({ length: jobs.count }, (_, i) => jobs.fileAt(i));
    expect(names).toEqual(["drill/01-drill-play", "drill/01-drill-play-student", "drill/01-drill-play-student-2"]);
    const marked = names.flatMap((name) => [name, `${name}_student`]);
    expect(new Set(marked).size).toBe(2 * names.length);
  });

  test("tells lengths and keys without slashes and signs", () => {
    const told = (ladder: object): string => made(soundJobs(drillOf(jetty(ladder)))).rungAt(0);
    expect(told({ dropout: undefined, ladders: [{ dropout: ["1 1/2 bars"] }] })).toBe("01-1.5-bars");
    expect(told({ dropout: undefined, ladders: [{ dropout: ["3/8 note"] }] })).toBe("01-3-8-note");
    expect(told({ ladders: [{ key: ["F# dorian"] }] })).toBe("01-f-sharp-dorian");
    expect(told({ ladders: [{ key: ["Bb dorian"] }] })).toBe("01-b-flat-dorian");
  });

  test("refuses more files than are made at once: TOO_MANY_SOUND_FILES", () => {
    const many = drillOf(jetty({ tempo: undefined, ladders: [{ tempo: { from: 40, to: 240, by: 0.01 } }] }));
    const result = soundJobs(many);
    expect(result.ok ? [] : result.problems.map(({ code }) => code)).toEqual(["TOO_MANY_SOUND_FILES"]);
    expect(made(soundJobs(many, { rungs: [0, 19999] })).count).toBe(4);
  });

  test("throws for files, mixes and rungs that are not there", () => {
    const jobs = made(soundJobs(drill));
    expect(() => jobs.at(8)).toThrow(RangeError);
    expect(() => soundJobs(drill, { mixes: ["none"] })).toThrow(RangeError);
    expect(() => made(soundJobs(drill, { rungs: [99] })).at(0)).toThrow(RangeError);
  });
});

test("silences that grow inside a take are told from where to where, in file names and in words", () => {
  const text = readFileSync(new URL("../../../curricula/quayside-first-course.yaml", import.meta.url), "utf8");
  const course = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  const growing = course.ok ? course.value.drills.find(({ name }) => name === "growing") : undefined;
  const jobs = soundJobs(growing!);
  expect(jobs.ok && jobs.value.fileAt(0)).toBe("growing/01-growing-0.5-to-1-bar-76-play");
  const words = wordsOf(english, settingInEnglish);
  expect(wordSettings("dropout=1/2 bar to 2 bars by 1/2 bar each 2 phrases,tempo=76,variant=one by one", words)).toBe(
    "silence 1/2 bar to 2 bars, tempo 76, riff one by one",
  );
});
