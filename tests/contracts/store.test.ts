import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  beginJournal,
  changeEdition,
  compareEvents,
  decide,
  drillStanding,
  fold,
  journalText,
  standingText,
} from "../../lib/progress/index.js";
import type { JournalEvent } from "../../lib/schema/index.js";
import { exportJournals, importJournals, record, type Store } from "../../lib/store/index.js";
import { courseOf, findingOf, timeOf } from "../progress/course.js";
import { beginLessons, playRow } from "../progress/lessons.js";
import { all, COURSE, enrolIn, keyOf, submit, takesIn } from "../store/material.js";
import { kinds } from "./stores.js";

describe.each(kinds())("a store in $name", (kind) => {
  let isHere = false;
  beforeAll(async () => {
    isHere = await kind.begin();
  });
  afterAll(() => kind.end());

  /** A law of stores; without this kind of store on the machine it is skipped, and the reason was printed. */
  const law = (name: string, hold: (store: Store, another: () => Promise<Store>) => Promise<void>): void =>
    test(name, async (context) => {
      if (!isHere) return context.skip("this machine cannot have such a store");
      const { store, another } = await kind.fresh();
      await hold(store, another);
    });

  const sound = async (store: Store): Promise<void> => expect(await all(store.verify())).toEqual([]);
  const textOf = async (store: Store, student: string): Promise<string> =>
    standingText((await store.open(keyOf(student)))!.standing!);
  const lessons = (takes: string): readonly JournalEvent[] => {
    const held = beginLessons(COURSE);
    playRow(held, COURSE, { drill: "steady", takes });
    return held.journal;
  };

  law("is empty at first", async (store) => {
    expect(await all(store.journals())).toEqual([]);
    expect(await store.open(keyOf("tern"))).toBeUndefined();
    expect(await all(store.events(keyOf("tern")))).toEqual([]);
    expect(await store.erase("tern")).toMatchObject({ journals: 0, events: 0 });
    await sound(store);
  });

  law("keeps what was appended, and opens it with the standing it amounts to", async (store, another) => {
    const begun = beginJournal(COURSE, "tern", timeOf(0));
    expect(await store.append(keyOf("tern"), begun.events, 0)).toEqual({ outcome: "kept", revision: 1, added: 2 });
    await submit(store, "tern", { take: "t1" });
    await submit(store, "tern", { take: "t2" });
    const elsewhere = await another();
    const events = await all(elsewhere.events(keyOf("tern")));
    expect(events.map(({ kind: what }) => what)).toEqual([
      "enrolled",
      "drill opened",
      "take assessed",
      "take assessed",
      "advanced",
    ]);
    const open = (await elsewhere.open(keyOf("tern")))!;
    expect(open).toMatchObject({ ...keyOf("tern"), edition: "1.0.0", events: 5, revision: 3 });
    expect(standingText(open.standing!)).toBe(standingText(fold(events).standing!));
    expect(open.standing).toEqual(fold(events).standing);
    await sound(store);
  });

  law("refuses to append on a revision that has passed, and writes nothing then", async (store) => {
    await enrolIn(store, "tern");
    const { standing, revision } = (await store.open(keyOf("tern")))!;
    const rung = drillStanding(standing!, "steady")!.rung!;
    const first = decide(COURSE, standing!, findingOf("a", "steady", rung, "within"), timeOf(60));
    const second = decide(COURSE, standing!, findingOf("b", "steady", rung, "within"), timeOf(61));
    expect(await store.append(keyOf("tern"), first.events, revision)).toMatchObject({ outcome: "kept" });
    const before = await textOf(store, "tern");
    expect(await store.append(keyOf("tern"), second.events, revision)).toEqual({
      outcome: "overtaken",
      revision: revision + 1,
      added: 0,
    });
    expect(await store.append(keyOf("gull"), second.events.slice(0, 0), 5)).toMatchObject({ added: 0 });
    expect(await textOf(store, "tern")).toBe(before);
    expect(takesIn(await all(store.events(keyOf("tern"))))).toEqual(["a"]);
  });

  law("answers the same call again as the first time, so that a lost answer can be asked for again", async (store) => {
    const { events } = beginJournal(COURSE, "tern", timeOf(0));
    await store.append(keyOf("tern"), events, 0);
    for (const revision of [0, 1, 7]) {
      expect(await store.append(keyOf("tern"), events, revision)).toEqual({ outcome: "kept", revision: 1, added: 0 });
    }
    expect((await store.open(keyOf("tern")))!.events).toBe(2);
    await sound(store);
  });

  law("loses nothing and counts nothing twice when devices submit at once", async (store, another) => {
    await enrolIn(store, "tern");
    const devices = [store, await another(), await another()];
    const names = Array.from({ length: 30 }, (_, i) => `t${i}`);
    // Every take is submitted by two devices.
    const work = devices.map(async (device, d) => {
      for (const [i, take] of names.entries())
        if (i % 3 !== d) await submit(device, "tern", { take, verdict: i % 5 === 4 ? "beyond" : "within" });
    });
    await Promise.all(work);
    const events = await all(store.events(keyOf("tern")));
    expect([...takesIn(events)].sort()).toEqual([...names].sort());
    const { standing, problems } = fold(events);
    expect(problems).toEqual([]);
    expect(await textOf(store, "tern")).toBe(standingText(standing!));
    await sound(store);
  });

  law("lets one of many enrol a student, and the others find it done", async (store, another) => {
    const devices = [store, await another(), await another()];
    await Promise.all(
      devices.map((device, i) =>
        record(device, keyOf("tern"), (journal) =>
          journal === undefined ? beginJournal(COURSE, "tern", timeOf(i)) : { events: [], standing: journal.standing! },
        ),
      ),
    );
    expect((await store.open(keyOf("tern")))!.events).toBe(2);
  });

  law("amounts to the same whatever order events arrive in and however often", async (store) => {
    const events = lessons("wwbbwuwwwbwwbbww");
    const late = [...events].reverse();
    for (const event of late) await store.merge(keyOf("tern"), [event, event]);
    expect(await store.merge(keyOf("tern"), events)).toEqual({ added: 0, known: events.length, problems: [] });
    expect(await textOf(store, "tern")).toBe(standingText(fold(events).standing!));
    expect(await all(store.events(keyOf("tern")))).toEqual([...events].sort(compareEvents));
    await sound(store);
  });

  law("goes on from events that came out of order as from any other", async (store) => {
    const events = lessons("wwwbwuw");
    const [enrolled, ...others] = events;
    await store.merge(keyOf("tern"), others);
    expect((await store.open(keyOf("tern")))!.standing).toBeUndefined();
    expect(await all(store.journals())).toEqual([
      { ...keyOf("tern"), edition: undefined, events: others.length, revision: 1 },
    ]);
    await store.merge(keyOf("tern"), [enrolled]);
    await submit(store, "tern", { take: "later" });
    const kept = await all(store.events(keyOf("tern")));
    expect(await textOf(store, "tern")).toBe(standingText(fold(kept).standing!));
    await sound(store);
  });

  law("counts an id once, also when another event claims it", async (store) => {
    await enrolIn(store, "tern");
    await submit(store, "tern", { take: "t1", verdict: "within" });
    const [take] = (await all(store.events(keyOf("tern")))).slice(-1) as [JournalEvent];
    const claims = [
      { ...take, turn: take.turn + 3, verdict: "beyond" },
      { ...take, turn: take.turn + 1 },
      { ...take, at: timeOf(5000) },
    ];
    await store.merge(keyOf("tern"), claims);
    const open = (await store.open(keyOf("tern")))!;
    expect(drillStanding(open.standing!, "steady")!.rungs[0]).toMatchObject({ takes: ["t1"], outcomes: "w" });
    await sound(store);
  });

  law("keeps what is good among what is not, and names the rest", async (store) => {
    const events = lessons("wwb");
    const other = { ...events[0]!, student: "gull" };
    const merged = await store.merge(keyOf("tern"), [null, ...events, other, { ...events[0]!, mood: "bright" }]);
    expect(merged.added).toBe(events.length);
    expect(merged.problems.map(({ code, where }) => `${code} ${where.pointer}`)).toEqual([
      "EVENT_MALFORMED /0",
      `EVENT_FOREIGN /${events.length + 1}`,
      `EVENT_MALFORMED /${events.length + 2}`,
    ]);
    await expect(store.append(keyOf("gull"), events, 0)).rejects.toThrow(RangeError);
    expect(await store.open(keyOf("gull"))).toBeUndefined();
  });

  law("takes over a new edition, renamed drills and all", async (store) => {
    await enrolIn(store, "tern");
    for (const take of ["a", "b", "c"]) await submit(store, "tern", { take });
    const next = courseOf(
      [
        { name: "calm", tempi: [84, 4, 4] },
        { name: "one-bar", tempi: [60, 4, 3] },
      ],
      { edition: "2.0.0", formerly: { steady: "calm" } },
    );
    await record(store, keyOf("tern"), (journal) => changeEdition(next, journal!.standing!, { at: timeOf(900) }));
    const open = (await store.open(keyOf("tern")))!;
    expect(open.edition).toBe("2.0.0");
    expect(open.standing!.drills.map(({ drill }) => drill)).toContain("calm");
    await record(store, keyOf("tern"), ({ standing } = open) =>
      decide(next, standing!, findingOf("d", "calm", drillStanding(standing!, "calm")!.rung!, "within"), timeOf(960)),
    );
    await sound(store);
  });

  law("keeps names apart that look alike to a database, and gives them back as they were", async (store) => {
    const names = ["tern", "Tern", "te\u0000rn", "t'e\"r\\n", "têrn", "te\u0302rn", "\ud800", "\ud801", "🐦", "%", "_"];
    for (const name of names) await enrolIn(store, name);
    expect((await all(store.journals())).map(({ student }) => student).sort()).toEqual([...names].sort());
    for (const name of names) {
      expect((await store.open(keyOf(name)))!.standing!.student).toBe(name);
      expect(await all(store.journals({ student: name }))).toHaveLength(1);
    }
    await store.erase("te\u0000rn");
    expect(await all(store.journals())).toHaveLength(names.length - 1);
    await sound(store);
  });

  law("lists journals in one order, by pages and by student", async (store) => {
    const names = ["b", "a", "\uffff", "😀", "é", "aa"];
    for (const name of names) await enrolIn(store, name);
    await enrolIn(store, "a", { ...COURSE, name: "another" });
    const listed = (await all(store.journals())).map(
      ({ student, curriculum }) => `${student} ${curriculum.slice(0, 1)}`,
    );
    expect(listed).toEqual(["a a", "a q", "aa q", "b q", "é q", "\uffff q", "😀 q"]);
    expect(await all(store.journals({ student: "a" }))).toHaveLength(2);
    expect(await all(store.journals({ student: "nobody" }))).toEqual([]);
  });

  law("gives back after export and import what it had", async (store) => {
    for (const student of ["tern", "gull"]) {
      await enrolIn(store, student);
      for (let i = 0; i < 12; i++) await submit(store, student, { take: `${i}`, verdict: i % 4 ? "within" : "beyond" });
    }
    const text = (await all(exportJournals(store))).join("");
    expect(text).toBe(
      journalText([...(await all(store.events(keyOf("gull")))), ...(await all(store.events(keyOf("tern"))))]),
    );
    const lines = text
      .trimEnd()
      .split("\n")
      .map((line, i) => ({ value: JSON.parse(line) as unknown, line: i + 1 }));
    const { store: copy } = await kind.fresh();
    const mixed = [
      ...lines.filter(({ line }) => line % 2),
      { value: 7, line: 99 },
      ...lines.filter(({ line }) => line % 2 === 0),
    ];
    const imported = await importJournals(copy, mixed);
    expect(imported).toMatchObject({ added: lines.length, known: 0, journals: 2 });
    expect(imported.problems).toMatchObject([{ code: "EVENT_MALFORMED", where: { line: 99 } }]);
    expect((await all(exportJournals(copy))).join("")).toBe(text);
    expect(await textOf(copy, "tern")).toBe(await textOf(store, "tern"));
    expect(await importJournals(copy, lines)).toMatchObject({ added: 0, known: lines.length, problems: [] });
    expect((await all(exportJournals(copy, { student: "tern" }))).join("")).toBe(
      journalText(await all(store.events(keyOf("tern")))),
    );
    await sound(copy);
  });

  law("forgets a student entirely, and nobody else", async (store, another) => {
    for (const student of ["tern", "gull"]) {
      await enrolIn(store, student);
      await submit(store, student, { take: "t1" });
    }
    expect(await store.erase("tern")).toMatchObject({ journals: 1, events: 3 });
    const elsewhere = await another();
    expect(await elsewhere.open(keyOf("tern"))).toBeUndefined();
    expect(await all(elsewhere.events(keyOf("tern")))).toEqual([]);
    expect((await all(elsewhere.journals())).map(({ student }) => student)).toEqual(["gull"]);
    await enrolIn(store, "tern");
    expect((await store.open(keyOf("tern")))!.events).toBe(2);
    await sound(store);
  });

  law(
    "keeps what was learnt of a student in place of what was kept before, erases it with them, and keeps it for nobody who is not there; only memory keeps none",
    async (store, another) => {
      expect(store.learnt === undefined).toBe(kind.name === "memory");
      if (store.learnt === undefined) return;
      await enrolIn(store, "tern");
      await enrolIn(store, "gull");
      const [first, second] = [1, 2].map((takes) => ({ basis: `basis-${takes}`, takes, body: `${takes} ü 🐦` }));
      expect(await store.learnt.read(keyOf("tern"))).toBeUndefined();
      await store.learnt.keep(keyOf("tern"), first!);
      await store.learnt.keep(keyOf("tern"), second!);
      await store.learnt.keep(keyOf("gull"), first!);
      const elsewhere = (await another()).learnt!;
      expect(await elsewhere.read(keyOf("tern"))).toEqual(second);
      await store.erase("tern");
      expect(await elsewhere.read(keyOf("tern"))).toBeUndefined();
      expect(await elsewhere.read(keyOf("gull"))).toEqual(first);
      await expect(store.learnt.keep(keyOf("tern"), first!)).rejects.toThrow();
      await sound(store);
    },
  );

  law("keeps courses by edition, the text kept last first", async (store, another) => {
    const course = {
      curriculum: "quay",
      edition: "1.0.0",
      file: "quay.yaml",
      text: "curriculum: quay\n# \u0000 \ud800 ü 🐦",
      files: { "riffs/dockside.mid": Uint8Array.of(0, 77, 84, 255), "a.mid": new Uint8Array() },
    };
    expect(await store.course("quay", "1.0.0")).toBeUndefined();
    expect(await store.keepCourse(course)).toBe("kept");
    expect(await store.keepCourse(course)).toBe("known");
    expect(await (await another()).course("quay", "1.0.0")).toEqual(course);
    const other = { ...course, text: "curriculum: quay\n" };
    expect(await store.keepCourse(other)).toBe("replaced");
    expect(await store.course("quay", "1.0.0")).toEqual(other);
    const bytes = { ...other, files: { ...other.files, "a.mid": Uint8Array.of(1) } };
    expect(await store.keepCourse(bytes)).toBe("replaced");
    expect(await store.course("quay", "1.0.1")).toBeUndefined();
    expect(await store.courses("quay", "1.0.0")).toEqual([bytes, other, course]);
    expect(await store.courses("quay", "1.0.1")).toEqual([]);
  });

  law("does not let the caller's objects into the journal", async (store) => {
    const events = structuredClone(lessons("ww")) as unknown as { at: string }[];
    await store.merge(keyOf("tern"), events);
    events[0]!.at = "never";
    await sound(store);
    expect((await all(store.events(keyOf("tern"))))[0]!.at).not.toBe("never");
  });

  law("has nothing to repair when all is well", async (store) => {
    await enrolIn(store, "tern");
    const before = await textOf(store, "tern");
    expect(await store.repair(keyOf("tern"))).toBe(0);
    expect(await store.repair(keyOf("nobody"))).toBe(0);
    expect(await textOf(store, "tern")).toBe(before);
    expect(await store.open(keyOf("nobody"))).toBeUndefined();
  });
});
