import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Curriculum, readCurriculum } from "../../../lib/curriculum/index.js";
import {
  type Drill,
  findRung,
  isPreparation,
  preparationsOf,
  rungs,
  scoreOf,
  settingsText,
} from "../../../lib/drill/index.js";
import { beginJournal, decide, drillStanding, placeByTeacher } from "../../../lib/progress/index.js";
import { playTake } from "../../../lib/rehearsal/index.js";
import { assess } from "../../../lib/take/index.js";
import { saidBy } from "../../cli/said.js";
import { ROOT } from "../../sources.js";
import { must } from "../../time/shorthand.js";

const courses = ["first-course", "odd-meters", "wind-and-brass"].map(
  (name): Curriculum =>
    must(
      readCurriculum(readFileSync(join(ROOT, "curricula", `quayside-${name}.yaml`), "utf8"), {
        file: name,
        readFile: () => undefined,
      }),
    ),
);
const drills: readonly Drill[] = courses.flatMap((course) => course.drills);
const first = courses[0]!;
const busyFirst: Drill = {
  ...first.drills.find(({ name }) => name === "half-bar")!,
  fixed: { ...first.drills.find(({ name }) => name === "half-bar")!.fixed, variant: "busy" },
};

describe("preparationsOf()", () => {
  test("is found by its settings like a rung, is marked as none, and has a score", () => {
    for (const drill of drills) {
      const found = preparationsOf(drill);
      expect(found.length).toBeGreaterThan(0);
      for (const each of found) {
        const text = settingsText(each.settings);
        expect(must(findRung(drill, text))).toEqual(each);
        expect([isPreparation(each), rungs(drill).indexOf(each.settings)]).toEqual([true, undefined]);
        expect(scoreOf(each)).toMatchObject({ drill: drill.name, rung: text });
      }
    }
  });

  test("is slower, has shorter silences, or a plainer riff, and nothing that is harder", () => {
    const silent = (drill: Drill, settings: (typeof drill)["fixed"]): number =>
      scoreOf({ drill, index: -1, settings: settings as never }).dropouts.reduce(
        (sum, { from, to }) => sum + (to - from) * Number(settings.tempo),
        0,
      );
    for (const drill of [...drills, busyFirst]) {
      const { settings: bottom } = rungs(drill).at(0);
      for (const { settings } of preparationsOf(drill)) {
        expect(Number(settings.tempo)).toBeLessThanOrEqual(Number(bottom.tempo));
        expect(Number(settings.tempo)).toBeGreaterThanOrEqual(40);
        expect(silent(drill, settings)).toBeLessThanOrEqual(silent(drill, bottom) + 1e-6);
        expect(settingsText(settings)).not.toBe(settingsText(bottom));
      }
    }
    expect(preparationsOf(busyFirst).map(({ settings }) => settings.variant)).toContain("plain");
  });

  test("is asked for by all its settings, silences in any unit; a rung goes first, and a mistake stays one", () => {
    const drill = first.drills.find(({ name }) => name === "half-bar")!;
    const half = must(findRung(drill, "dropout=1 beat,parts=bass+kit,tempo=76,variant=plain"));
    expect(half).toMatchObject({ index: -1, settings: { dropout: "1/4 bar", tempo: "76", variant: "plain" } });
    expect(must(findRung(drill, "tempo=84")).index).toBe(1);
    expect(findRung(drill, "dropout=1 beat").ok).toBe(false);
    expect(findRung(drill, "tempo=20")).toMatchObject({ ok: false, problems: [{ code: "RUNG_NOT_FOUND" }] });
  });

  test("is no place for a student, and counts for nothing however often it is played clean", () => {
    const drill = first.drills[0]!;
    const preparation = preparationsOf(drill)[0]!;
    const rung = settingsText(preparation.settings);
    let { standing } = beginJournal(first, "tern", "2026-03-01T17:00:00Z");
    expect(placeByTeacher(first, standing, { drill: drill.name, rung, at: "2026-03-01T17:05:00Z" })).toMatchObject({
      ok: false,
      problems: [{ code: "RUNG_NOT_FOUND" }],
    });
    const score = scoreOf(preparation);
    const still = { clockMs: 1, motorMs: 2, biasPercent: 0, correction: 0.4, offsetMs: 0, missing: 0, adding: 0 };
    for (let i = 0; i < 8; i++) {
      const finding = { ...assess(score, playTake(score, still, `clean ${i}`).take), take: `t${i}` };
      const decision = decide(first, standing, finding, `2026-03-02T17:0${i}:00Z`);
      expect([finding.verdict, decision.what, decision.evidence]).toEqual(["within", "hold", []]);
      expect(decision.messages[0]!.key).toBe("progress.preparation");
      standing = decision.standing;
    }
    expect(drillStanding(standing, drill.name)).toMatchObject({
      state: "open",
      rung: settingsText(rungs(drill).at(0).settings),
    });
    // Nor when a later edition has a rung with just these settings: takes of a stay that never was open no gate.
    const later: Curriculum = {
      ...first,
      edition: "2.0.0",
      drills: first.drills.map((each) =>
        each === drill
          ? {
              ...each,
              ladders: each.ladders.map((ladder) =>
                ladder.parameter === "tempo" ? lowered(ladder, preparation.settings.tempo) : ladder,
              ),
            }
          : each,
      ),
    };
    const put = must(placeByTeacher(later, standing, { drill: drill.name, rung, at: "2026-03-03T17:00:00Z" }));
    const unclear = { ...assess(score, { onsets: [] }), take: "none" };
    expect(decide(later, put.standing, unclear, "2026-03-03T17:10:00Z").what).toBe("hold");
    const once = { ...assess(score, playTake(score, still, "once").take), take: "once" };
    expect(decide(later, put.standing, once, "2026-03-03T17:20:00Z").what).toBe("hold");
  });
});

describe("a preparation on the command line", () => {
  const file = join(ROOT, "curricula", "quayside-first-course.yaml");

  test("has a score, and files whose names say what it is", async () => {
    const rung = "dropout=1/4 bar,parts=bass+kit,tempo=61,variant=plain";
    const score = await saidBy([
      "score",
      file,
      "half-bar",
      "dropout=1 beat,parts=bass+kit,tempo=61,variant=plain",
      "--json",
    ]);
    expect(JSON.parse(score.out)).toMatchObject({ rung });
    const out = mkdtempSync(join(tmpdir(), "leeway-preparations-"));
    const said = await saidBy(["render", file, "half-bar", rung, "--as", "midi", "--mix", "play", "--out", out]);
    const files = readdirSync(join(out, "half-bar"));
    rmSync(out, { recursive: true });
    expect(said.status).toBe(0);
    expect(files).toEqual(["00-half-bar-0.25-bar-61-play.mid", "00-half-bar-0.25-bar-61-play_student.mid"]);
  });
});

function lowered(ladder: Drill["ladders"][number], tempo: string): Drill["ladders"][number] {
  return { ...ladder, count: 2, values: { kind: "list", texts: [tempo, "72"] } };
}
