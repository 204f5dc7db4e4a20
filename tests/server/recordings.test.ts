import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { encodeWav } from "../../lib/formats/sound/index.js";
import { scoreFor } from "../../lib/practice/index.js";
import { bytesHeld, holdSound } from "../../lib/server/hearing/heldSound.js";
import { eventsOf } from "../../lib/store/index.js";
import { strikes } from "../listen/strikes.js";
import { quay } from "../practice/quay.js";
import { type HearingThreads, hearingThreads } from "./hearingThreads.js";
import { judgedFetch, type Served, servedSchool } from "./served.js";

const RATE = 44100;
/** Seconds of the recordings before their count-in. */
const START = 0.5;
const course = quay();
const rung = rungs(course.drills[0]!).at(0);
const score = scoreFor(course, rung);

/** A recording of the first rung, each note at its time. */
const recorded: Buffer = (() => {
  const at = score.expected.map(({ at }) => START + score.countIn + at);
  const samples = strikes(at, { rate: RATE, seconds: at.at(-1)! + 2, noise: 1e-4 });
  return Buffer.from(encodeWav({ rate: RATE, channels: [samples, samples] }, { samples: 16 }));
})();

let threads: HearingThreads;
let folder: string;
let school: Served;
const tokens = new Map<string, string>();

beforeAll(async () => {
  threads = await hearingThreads();
  folder = mkdtempSync(join(tmpdir(), "leeway-sound-test-"));
  const hearing = threads.open({ threads: 1, waiting: 2, folder, memory: 100_000 });
  school = await servedSchool({ hearing, limits: { perMinute: 1e6 } });
  await school.bring("avocet", { role: "teacher", className: "monday" });
  for (const name of ["tern", "knot", "ruff", "dunlin"])
    tokens.set(name, await school.bring(name, { role: "student", className: "monday" }));
});
afterAll(async () => {
  await school.close();
  threads.remove();
  rmSync(folder, { recursive: true, force: true });
});

interface Sent {
  readonly who?: string;
  readonly body?: BodyInit;
  readonly type?: string;
  readonly says?: Readonly<Record<string, string>>;
}

function send(id: string, { who = "tern", body = recorded as BodyInit, type = "audio/wav", says = {} }: Sent = {}) {
  const query = new URLSearchParams({ drill: "steady", rung: settingsText(rung.settings), start: `${START}`, ...says });
  const place = `/api/students/${who}/courses/quay/takes/${encodeURIComponent(id)}?${query}`;
  const headers = { authorization: `Bearer ${tokens.get(who)}`, "content-type": type };
  const init = { method: "PUT", headers, body, duplex: "half" } as RequestInit;
  return judgedFetch(new Request(`${school.address}${place}`, init));
}

/** A body of which some comes, and the rest when it is let go. */
function halted(): { readonly body: ReadableStream<Uint8Array>; readonly letGo: () => void } {
  let letGo = (): void => undefined;
  const body = new ReadableStream<Uint8Array>({
    start: (controller) => {
      controller.enqueue(recorded.subarray(0, 200_000));
      letGo = () => {
        controller.enqueue(recorded.subarray(200_000));
        controller.close();
      };
    },
  });
  return { body, letGo: () => letGo() };
}

async function until(is: () => boolean): Promise<void> {
  while (!is()) await new Promise((resolve) => setTimeout(resolve, 20));
}

describe("a recording over HTTP", () => {
  test("is heard, counted once, and answered the same again; a student plays it in time", async () => {
    const first = await (await send("heard-1", { says: { family: "percussive" } })).json();
    expect(first).toMatchObject({
      take: "heard-1",
      finding: { verdict: "within" },
      decision: { what: "hold" },
      heard: { family: "percussive", notes: score.expected.length, advice: [] },
    });
    expect(first.heard.seconds).toBeCloseTo((recorded.length - 44) / 4 / RATE, 2);
    // Any name of a kind of sound will do: the content decides.
    const again = await send("heard-1", { says: { family: "percussive" }, type: "audio/x-unheard-of" });
    expect(await again.json()).toEqual(first);
    const events = await eventsOf(school.store, { student: "tern", curriculum: "quay" });
    expect(events.filter(({ kind }) => kind === "take assessed")).toHaveLength(1);
  });

  test("without its start is taken from its first sample, and the answer says so", async () => {
    const query = new URLSearchParams({ drill: "steady", rung: settingsText(rung.settings) });
    const answer = await judgedFetch(
      new Request(`${school.address}/api/students/tern/courses/quay/takes/no-start?${query}`, {
        method: "PUT",
        headers: { authorization: `Bearer ${tokens.get("tern")}`, "content-type": "audio/wav" },
        body: recorded as BodyInit,
      }),
    );
    const { heard, finding } = await answer.json();
    expect(heard.advice.length).toBeGreaterThan(0);
    expect(finding.verdict).not.toBe("within");
  });

  test("that is none, or of no rung, or too large, is refused with its code", async () => {
    const codes: unknown[] = [];
    for (const sent of [
      { body: "no sound at all" },
      { body: recorded.subarray(0, 20) as BodyInit },
      { says: { drill: "gone" } },
      { says: { rung: "tempo=1" } },
      { says: { family: "hummed" } },
      { type: "video/mp4" },
    ]) {
      const answer = await send("refused", sent);
      codes.push([answer.status, (await answer.json()).code]);
    }
    expect(codes).toEqual([
      [422, "RECORDING_FORMAT_UNKNOWN"],
      [422, "RECORDING_HEADER_BROKEN"],
      [422, "DRILL_UNKNOWN"],
      [422, "RUNG_NOT_FOUND"],
      [422, "NOT_ONE_OF"],
      [415, "MEDIA_TYPE_UNKNOWN"],
    ]);
    expect(school.school.hearing.held).toBe(0);
  });

  test("finds no place when all are taken, or when its student has one: 429, and when to come again; then it is taken", async () => {
    const waiting = ["tern", "knot", "ruff"].map((who) => ({ who, ...halted() }));
    const sent = waiting.map(({ who, body }) => send("queue", { who, body }));
    await until(() => school.school.hearing.held === 3);
    for (const who of ["dunlin", "tern"]) {
      const refused = await send("too-many", { who });
      expect([refused.status, refused.headers.get("retry-after"), (await refused.json()).code]).toEqual([
        429,
        "10",
        "HEARING_BUSY",
      ]);
    }
    // What goes beside it is not held up.
    expect((await school.client(tokens.get("dunlin")).GET("/api/me")).response.status).toBe(200);
    for (const { letGo } of waiting) letGo();
    for (const answer of await Promise.all(sent)) expect(answer.status).toBe(200);
    expect((await send("too-many", { who: "dunlin" })).status).toBe(200);
    expect(school.school.hearing.held).toBe(0);
  });

  test("that breaks its thread is refused, and those beside it are heard", async () => {
    const poisons = ["throws", "stops", "fills the memory"];
    const answers = await Promise.all([
      send("throws", { who: "tern" }),
      send("beside", { who: "knot" }),
      send("stops", { who: "ruff" }),
    ]);
    expect(answers.map(({ status }) => status)).toEqual([422, 200, 422]);
    expect((await answers[0]!.json()).code).toBe("RECORDING_NOT_HEARD");
    expect((await (await send(poisons[2]!, { who: "dunlin" })).json()).code).toBe("RECORDING_NOT_HEARD");
    expect((await send("after", { who: "tern" })).status).toBe(200);
    const kept = await eventsOf(school.store, { student: "ruff", curriculum: "quay" });
    expect(kept.filter((event) => event.kind === "take assessed").map(({ take }) => take)).toEqual(["queue"]);
  }, 120_000);

  test("that is never through is ended, and its place is free again", async () => {
    const impatient = threads.open({ threads: 1, waiting: 0, patience: 300 });
    const terms = { score, family: "plucked", most: 1e8, id: "never ends" } as const;
    async function* pieces() {
      yield recorded;
    }
    const ended = await impatient.hear("tern", pieces(), terms);
    expect(ended.ok ? "" : ended.problems[0]!.code).toBe("RECORDING_NOT_HEARD");
    expect(impatient.held).toBe(0);
    const next = await impatient.hear("tern", pieces(), { ...terms, id: "throws" });
    expect(next.ok ? "" : next.problems[0]!.code).toBe("RECORDING_NOT_HEARD");
  });

  test("leaves nothing in the folder of temporary files, when it was heard and when it was broken off", async () => {
    const { body } = halted();
    const gone = new AbortController();
    const query = new URLSearchParams({ drill: "steady", rung: settingsText(rung.settings) });
    const asked = fetch(`${school.address}/api/students/tern/courses/quay/takes/cut?${query}`, {
      ...({ method: "PUT", body, duplex: "half", signal: gone.signal } as RequestInit),
      headers: { authorization: `Bearer ${tokens.get("tern")}`, "content-type": "audio/wav" },
    }).catch(() => undefined);
    await until(() => school.school.hearing.held === 1);
    gone.abort();
    await asked;
    await until(() => school.school.hearing.held === 0);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("what is held of a recording", () => {
  async function* inPieces(bytes: Uint8Array) {
    for (let at = 0; at < bytes.length; at += 70_001) yield bytes.subarray(at, at + 70_001);
  }

  async function read(sound: Parameters<typeof bytesHeld>[0]): Promise<Buffer> {
    const pieces: Uint8Array[] = [];
    for await (const piece of bytesHeld(sound)) pieces.push(piece);
    return Buffer.concat(pieces);
  }

  test("reads again as it came, as often as wanted, and is nowhere to be found on the disk", async () => {
    const place = join(folder, "held");
    mkdirSync(place);
    for (const memory of [recorded.length, recorded.length - 1, 0]) {
      const holding = (await holdSound(inPieces(recorded), { most: recorded.length, memory, folder: place }))!;
      expect(holding.sound.kind).toBe(memory >= recorded.length ? "memory" : "file");
      for (let i = 0; i < 2; i++) expect((await read(holding.sound)).equals(recorded)).toBe(true);
      if (holding.sound.kind === "file") {
        // The file has no name any more; what the disk has is read by way of its descriptor, and is not the sound.
        expect(readdirSync(place)).toEqual([]);
        const sealed = readFileSync(`/proc/self/fd/${holding.sound.descriptor}`);
        expect(statSync(`/proc/self/fd/${holding.sound.descriptor}`).size).toBe(recorded.length);
        const piece = recorded.subarray(100_000, 100_032);
        expect([recorded.includes(piece), sealed.includes(piece)]).toEqual([true, false]);
        expect(sealed.subarray(0, 4).toString()).not.toBe("RIFF");
      }
      await holding.drop();
    }
  });

  test("is nothing when there is more than is taken, or when it breaks off", async () => {
    expect(await holdSound(inPieces(recorded), { most: recorded.length - 1, memory: 0, folder })).toBeUndefined();
    async function* broken() {
      yield recorded;
      throw new Error("gone");
    }
    await expect(holdSound(broken(), { most: 1e9, memory: 0, folder })).rejects.toThrow("gone");
    expect(readdirSync(folder).filter((name) => name !== "held")).toEqual([]);
  });
});
