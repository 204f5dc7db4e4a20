import { describe, expect, test } from "vitest";
import {
  apply,
  beginJournal,
  compareKeys,
  fold,
  foldJournal,
  journalText,
  readJournal,
} from "../../../lib/progress/index.js";
import type { JournalEvent } from "../../../lib/schema/index.js";
import { expectWorded } from "../../words/problemWords.js";
import { at, courseOf, timeOf } from "../course.js";
import { beginLessons, play, playRow } from "../lessons.js";

const course = courseOf([{ name: "steady", tempi: [80, 4, 3], gate: { kind: "in a row", count: 2 } }]);

function lessonsOf(takes: string): ReturnType<typeof beginLessons> {
  const lessons = beginLessons(course);
  playRow(lessons, course, { drill: "steady", takes });
  return lessons;
}

describe("readJournal()", () => {
  test("reads back what journalText() writes", () => {
    const { journal } = lessonsOf("wwb");
    expect(readJournal(journalText(journal))).toEqual({
      events: journal,
      lines: journal.map((_, i) => i + 1),
      problems: [],
    });
  });

  test("names the lines that are no JSON and keeps the others", () => {
    const { journal, standing } = lessonsOf("ww");
    const lines = journalText(journal).split("\n");
    const text = `\r\n${lines[0]}\n{"torn": \n${lines.slice(1).join("\r\n")}`;
    const { lines: numbers, problems } = readJournal(text);
    expect(numbers).toEqual([2, 4, 5, 6, 7].slice(0, journal.length));
    expect(problems).toMatchObject([{ code: "JOURNAL_LINE_NOT_JSON", where: { line: 3 } }]);
    expectWorded(problems[0]!);
    const folding = foldJournal(text, { file: "tern.jsonl" });
    expect(folding.standing).toEqual(standing);
    expect(folding.problems).toMatchObject([{ code: "JOURNAL_LINE_NOT_JSON", where: { file: "tern.jsonl", line: 3 } }]);
  });

  test("reads the empty text as an empty journal, in which nobody is enrolled", () => {
    expect(readJournal("")).toEqual({ events: [], lines: [], problems: [] });
    expect(foldJournal("\n\n")).toEqual({ standing: undefined, problems: [] });
    expect(fold([])).toEqual({ standing: undefined, problems: [] });
  });
});

describe("fold()", () => {
  test("names lost events by the gap they leave", () => {
    const { journal } = lessonsOf("wb");
    const { problems } = fold(journal.filter((event) => event.id !== "take:t1"));
    expect(problems).toMatchObject([{ code: "JOURNAL_GAP", severity: "advice", where: { pointer: "/2" } }]);
  });

  test("does not let a student on whose evidence is lost", () => {
    const { journal } = lessonsOf("ww");
    const { standing, problems } = fold(
      journal.filter((event) => event.id !== "take:t1"),
      { lines: [4, 5, 6, 7] },
    );
    expect(standing!.drills[0]!.rung).toBe(at(80));
    expect(problems).toMatchObject([
      { code: "JOURNAL_GAP", where: { line: 6 } },
      { code: "EVIDENCE_UNKNOWN", where: { line: 7 } },
    ]);
  });

  test.each<[string, (event: JournalEvent) => object]>([
    ["GATE_NOT_MET", () => ({ gate: { kind: "in a row", count: 3 } })],
    ["GATE_NOT_MET", () => ({ evidence: ["t1"] })],
    ["EVIDENCE_CONTRADICTED", () => ({ evidence: ["t2", "t1"] })],
    ["EVIDENCE_CONTRADICTED", () => ({ evidence: ["t1", "t1"] })],
    ["EVIDENCE_CONTRADICTED", () => ({ against: ["t1"] })],
    ["EVIDENCE_UNKNOWN", () => ({ from: at(84) })],
    ["EVIDENCE_UNKNOWN", () => ({ drill: "stedy" })],
  ])("refuses an advance that was tampered with: %s", (code, change) => {
    const { journal } = lessonsOf("ww");
    const tampered = journal.map((event) =>
      event.kind === "advanced" ? { ...event, ...change(event) } : event,
    ) as JournalEvent[];
    const { standing, problems } = fold(tampered);
    expect(problems).toMatchObject([{ code, where: { pointer: `/${journal.length - 1}` } }]);
    expect(standing!.drills[0]!.rung).toBe(at(80));
  });

  test("refuses to open a drill whose needs are not met, and events before an enrolment", () => {
    const { events } = beginJournal(course, "tern", timeOf(0));
    const opened = { ...events[1]!, id: "x", turn: 3, drill: "next", needs: ["steady"] } as JournalEvent;
    expect(fold([...events, opened]).problems).toMatchObject([{ code: "NEEDS_NOT_MET" }]);
    expect(fold(events.slice(1))).toMatchObject({ standing: undefined, problems: [{ code: "NOT_ENROLLED" }] });
  });

  test("counts the first of two events that have one id and say different things, and names the other", () => {
    const { journal, standing } = lessonsOf("w");
    const take = journal.at(-1)!;
    const other = { ...take, turn: take.turn + 1, verdict: "beyond" } as JournalEvent;
    expect(fold([other, ...journal])).toMatchObject({
      standing,
      problems: [{ code: "EVENT_ID_REUSED", where: { pointer: "/0" } }],
    });
    expect(apply(standing, other)).toMatchObject({ standing, problems: [{ code: "EVENT_ID_REUSED" }] });
    expect(fold([...journal, { ...take, turn: take.turn + 1 }])).toEqual({ standing, problems: [] });
  });

  test("lets one of two decisions made at the same time count, and keeps the takes of both", () => {
    const common = lessonsOf("w");
    const here = { ...common, journal: [...common.journal] };
    const there = { ...common, journal: [...common.journal] };
    play(here, course, { drill: "steady", verdict: "within", name: "here" });
    play(there, course, { drill: "steady", verdict: "within", name: "there" });
    const { standing, problems } = fold([...here.journal, ...there.journal]);
    expect(problems).toMatchObject([{ code: "DECISION_OVERTAKEN", severity: "advice" }]);
    expect(standing!.drills[0]).toMatchObject({
      rung: at(84),
      rungs: [{ takes: ["t1", "here", "there"], outcomes: "www" }, {}],
    });
  });

  test("keeps to the journal's order when the clock goes backwards", () => {
    const lessons = lessonsOf("w");
    lessons.takes = -1000;
    expect(playRow(lessons, course, { drill: "steady", takes: "w" }).what).toBe("advance");
    expect(fold([...lessons.journal].reverse())).toEqual({ standing: lessons.standing, problems: [] });
    expect([...lessons.journal].sort(compareKeys)).toEqual(lessons.journal);
  });
});

describe("apply()", () => {
  test("says that an event belongs before the latest, and passes over one it knows", () => {
    const { journal, standing } = lessonsOf("wb");
    expect(apply(standing, journal.at(-1)!)).toEqual({ standing, problems: [] });
    expect(apply(standing, journal[2]!)).toMatchObject({
      standing,
      problems: [{ code: "EVENT_BEHIND", severity: "advice" }],
    });
  });

  test("never changes the standing it is given", () => {
    const { standing } = lessonsOf("w");
    const before = structuredClone(standing);
    const lessons = { standing, journal: [], takes: 10 };
    playRow(lessons, course, { drill: "steady", takes: "wbw" });
    expect(standing).toEqual(before);
  });
});
