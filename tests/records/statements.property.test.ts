import { createHmac } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fold } from "../../lib/progress/index.js";
import { type Naming, openRecords, type Records, type Statement, statementsOf } from "../../lib/records/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { courseOf } from "../progress/course.js";
import { drills, steps, study } from "../progress/editions.js";
import { year } from "../progress/history.js";
import { markedWords, unmarked } from "../words/marked.js";
import { worded } from "../words/worded.js";
import { violations } from "./xapiRules.js";

const KEY = new TextEncoder().encode("a key only the school on the quay has");
const HOME = "https://quayside.example";
const PSEUDONYMS: Naming = { kind: "pseudonyms", key: KEY };

function opened(naming: Naming = PSEUDONYMS, home = HOME, base = `${home}/practice/`): Records {
  const records = openRecords({ home, base, naming });
  if (!records.ok) throw new Error(JSON.stringify(records.problems));
  return records.value;
}

const journal: fc.Arbitrary<readonly JournalEvent[]> = fc
  .tuple(drills, steps)
  .map(([sketches, done]) => study(courseOf(sketches), done).journal);

/** Names that would show wherever they were let through: quotes, slashes, blanks, letters of other scripts, halves of characters. */
const hostile: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    '","name":"gull',
    "../../students/gull",
    "gull%2Fgull",
    "gull@quayside.example",
    "mailto:gull@quayside.example",
    "https://quayside.example/gull?x=#y",
    "<gull>\u0000\u202e",
    "\ud800gull\udfff",
    "Möwe 🐦 カモメ",
    "__proto__",
    "gull\n{}",
  ),
  fc.string({ minLength: 1, maxLength: 200 }),
  fc.string({ minLength: 1, maxLength: 60, unit: "binary" }),
);

/** The journal of somebody else, whose takes carry their name as files do. */
function of(student: string, events: readonly JournalEvent[]): readonly JournalEvent[] {
  const take = (name: string): string => `${student.slice(0, 150)}-${name}`;
  return events.map((event): JournalEvent => {
    const own = { ...event, student };
    if (own.kind === "take assessed") return { ...own, take: take(own.take), id: `take:${take(own.take)}` };
    if (own.kind === "advanced" || own.kind === "drill completed")
      return { ...own, evidence: own.evidence.map(take), against: own.against.map(take) };
    return own.kind === "gone back" ? { ...own, evidence: own.evidence.map(take) } : own;
  });
}

const wellFormed = (text: string): string => text.replaceAll(/\p{Surrogate}/gu, "\ufffd");

/** What is told, with everything that stands for the student or an id replaced by the order in which it first comes. */
function bare(statements: readonly Statement[]): string {
  const seen = new Map<string, number>();
  return JSON.stringify(statements).replaceAll(
    /[0-9a-f]{64}|[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g,
    (id) => `#${seen.get(id) ?? seen.set(id, seen.size).get(id)}`,
  );
}

describe("statementsOf()", () => {
  test("writes valid statements with ids of their own, whatever the journal and whatever students are called", () => {
    fc.assert(
      fc.property(journal, hostile, fc.boolean(), (events, student, isNamed) => {
        const records = opened(isNamed ? { kind: "names" } : PSEUDONYMS);
        const { statements, problems } = statementsOf(records, of(student, events), { durationOf: () => 51.428 });
        expect(problems).toEqual([]);
        for (const statement of statements) expect(violations(statement), JSON.stringify(statement)).toEqual([]);
        expect(new Set(statements.map(({ id }) => id)).size).toBe(statements.length);
        expect(JSON.parse(JSON.stringify(statements))).toEqual(statements);
      }),
      { numRuns: 200 },
    );
  });

  test("writes one for each take that counts, one for each advance, two for each completion, in the order of the journal", () => {
    fc.assert(
      fc.property(journal, (events) => {
        const expected = events.flatMap(({ kind }) =>
          kind === "take assessed"
            ? ["attempted"]
            : kind === "advanced"
              ? ["passed"]
              : kind === "drill completed"
                ? ["passed", "completed"]
                : [],
        );
        const { statements } = statementsOf(opened(), events);
        expect(statements.map(({ verb }) => verb.display.en)).toEqual(expected);
      }),
      { numRuns: 100 },
    );
  });

  test("says success only of takes that are clear, and never a score", () => {
    fc.assert(
      fc.property(journal, (events) => {
        const takes = events.filter((event) => event.kind === "take assessed");
        const attempted = statementsOf(opened(), events).statements.filter(({ verb }) =>
          verb.id.endsWith("/attempted"),
        );
        expect(attempted.map(({ result }) => result.success)).toEqual(
          takes.map(({ verdict }) => (verdict === "unclear" ? undefined : verdict === "within")),
        );
        expect(JSON.stringify(attempted)).not.toContain("score");
      }),
      { numRuns: 100 },
    );
  });

  test("writes the same again, whenever, twice delivered or out of order; decisions that were overtaken are no record", () => {
    fc.assert(
      fc.property(year, fc.infiniteStream(fc.nat()), ({ journal: events }, chance) => {
        const { statements } = statementsOf(opened(), events);
        const shuffled = [...events, ...events.slice(0, 50)]
          .map((event) => ({ event, key: chance.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ event }) => event);
        expect(statementsOf(opened(), shuffled).statements).toEqual(statements);
        for (const statement of statements) expect(violations(statement)).toEqual([]);
        const completed = statements.filter(({ verb }) => verb.id.endsWith("/completed"));
        const overtaken = fold(events).problems.filter(({ code }) => code === "DECISION_OVERTAKEN").length;
        const decided = events.filter(({ kind }) => kind === "drill completed").length;
        expect(completed.length).toBeGreaterThanOrEqual(decided - overtaken);
        expect(completed.length).toBeLessThanOrEqual(decided);
        const ids = new Set(statements.map(({ id }) => id));
        for (const { result } of statements)
          for (const [key, list] of Object.entries(result.extensions))
            if (key.endsWith("/evidence")) for (const id of list as string[]) expect(ids).toContain(id);
      }),
      { numRuns: 5 },
    );
  });
});

describe("pseudonyms", () => {
  test("let nothing of a student's name through: with another name all is the same but the pseudonym and the ids", () => {
    fc.assert(
      fc.property(journal, hostile, hostile, (events, one, other) => {
        const told = (student: string): readonly Statement[] =>
          statementsOf(opened(), of(student, events), { durationOf: () => 20 }).statements;
        expect(bare(told(one))).toBe(bare(told(other)));
        const text = JSON.stringify(told(one));
        const neutral = JSON.stringify(told("x"));
        for (const form of [
          one,
          JSON.stringify(one).slice(1, -1),
          encodeURIComponent(wellFormed(one)),
          btoa(encodeURIComponent(wellFormed(one))),
        ])
          if (form.length >= 6 && !neutral.includes(form)) expect(text).not.toContain(form);
      }),
      { numRuns: 300 },
    );
  });

  test("are HMAC-SHA-256 of home page and name, as another implementation makes it", () => {
    fc.assert(
      fc.property(hostile, (student) => {
        const expected = createHmac("sha256", KEY)
          .update(JSON.stringify(["student", HOME, student]))
          .digest("hex");
        expect(opened().identity.nameOf(student)).toBe(expected);
      }),
    );
    // The implementations agree with RFC 4231, section 4.3: key "Jefe".
    expect(createHmac("sha256", "Jefe").update("what do ya want for nothing?").digest("hex")).toBe(
      "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
    );
  });

  test("are others with another key, another home page, another name, and so are all ids", () => {
    const key = new TextEncoder().encode("another key for the same quay");
    const all = [
      opened(),
      opened({ kind: "pseudonyms", key }),
      opened(PSEUDONYMS, "https://harbour.example"),
      opened({ kind: "names" }),
    ];
    const names = all.flatMap(({ identity }) => [identity.nameOf("tern"), identity.nameOf("gull")]);
    expect(new Set(names).size).toBe(names.length);
    const ids = [...all, opened(PSEUDONYMS, HOME, `${HOME}/other`)].map(({ identity }) =>
      identity.idOf("tern", "quay", ["attempted", "take:1"]),
    );
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("are not made with a key that can be guessed", () => {
    const short = openRecords({ home: HOME, naming: { kind: "pseudonyms", key: new Uint8Array(15) } });
    expect(short).toMatchObject({ ok: false, problems: [{ code: "RECORD_KEY_TOO_SHORT" }] });
    worded(short);
  });
});

describe("openRecords()", () => {
  test.each([
    "quayside.example",
    "ftp://quayside.example",
    "https://",
    "https://quay side.example",
    "https://quayside.example?x",
    "https://quayside.example/#a",
    "",
    "https://quayside.example/<a>",
  ])("refuses the address %j", (home) => {
    const refused = openRecords({ home, naming: { kind: "names" } });
    worded(refused);
    expect(refused).toMatchObject({
      ok: false,
      problems: [{ code: "RECORD_ADDRESS_NOT_ABSOLUTE" }],
    });
    expect(openRecords({ home: HOME, base: home, naming: { kind: "names" } })).toMatchObject({
      ok: false,
      problems: [{ code: "RECORD_ADDRESS_NOT_ABSOLUTE" }],
    });
  });

  test("names rungs in the language of the words, and courses and drills as they are called", () => {
    const records = openRecords({ home: HOME, naming: { kind: "names" }, words: { ...markedWords(), language: "nl" } });
    if (!records.ok) throw new Error("not opened");
    const { activities } = records.value;
    const { nl = "", ...others } = activities.rung("quay", "half-bar", "dropout=1/2 bar,tempo=80").definition.name;
    expect(others).toEqual({});
    expect(unmarked(nl).outside).toBe("");
    expect(unmarked(nl).names).toEqual(expect.arrayContaining(["1/2", "80"]));
    expect(activities.rung("quay", "once", "").definition.name).toEqual({ nl: "⟦the only rung⟧" });
    expect(activities.drill("quay", "half-bar").definition.name).toEqual({ und: "half-bar" });
  });

  test("tells activities apart that differ in anything, and resolves to none other", () => {
    const { activities } = opened();
    const names = ["a", "A", "a/b", "a%2Fb", ".", "..", "a b", "a+b", "ä", "a?b", "a#b", "rungs", "courses"];
    const ids = names.flatMap((drill) => [
      activities.drill("quay", drill).id,
      activities.rung("quay", drill, "tempo=80").id,
    ]);
    expect(new Set(ids.map((id) => new URL(id).href)).size).toBe(ids.length);
    expect(activities.rung("quay", "half-bar", "dropout=1/2 bar,tempo=80")).toEqual({
      objectType: "Activity",
      id: "https://quayside.example/practice/courses/quay/drills/half-bar/rungs/dropout%3D1%2F2%20bar%2Ctempo%3D80",
      definition: { name: { en: "silence 1/2 bar, tempo 80" }, type: "https://leeway.example/xapi/activities/rung" },
    });
  });

  test("leaves out an event of a day that no calendar has, and writes unknown offsets as UTC", () => {
    const events = study(courseOf([{ name: "steady", tempi: [80, 4, 2] }]), [
      { what: "take", verdict: "within", pick: 0, level: 0 },
      { what: "take", verdict: "within", pick: 0, level: 0 },
    ]).journal;
    const [last, first] = [events.at(-1)!, events.at(-2)!];
    const changed = [
      ...events.slice(0, -2),
      { ...first, at: "2026-02-30T12:00:00Z" },
      { ...last, at: "2028-02-29T12:00:00.5-00:00" },
    ];
    const { statements, problems } = statementsOf(opened(), changed);
    expect(problems).toMatchObject([{ code: "RECORD_TIME_IMPOSSIBLE", severity: "advice" }]);
    expect(statements.map(({ timestamp }) => timestamp)).toEqual(["2028-02-29T12:00:00.5Z"]);
  });
});
