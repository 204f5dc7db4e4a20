import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import { random } from "../../../lib/base/index.js";
import { CALIBRATION_CLICKS } from "../../../lib/listen/index.js";
import { encodeWav, renderSound } from "../../../lib/render/sound/index.js";
import { checkFinding, checkTake, type Finding, type Score, type Take } from "../../../lib/schema/index.js";
import { clicksAs, hasFfmpeg, wavBytes } from "../../formats/sound/soundFiles.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
const RATE = 44_100;

const root = mkdtempSync(join(tmpdir(), "leeway-listen-"));
afterAll(() => rmSync(root, { force: true, recursive: true }));
let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(root, "x-"));
  process.env.XDG_DATA_HOME = join(folder, "data");
});

const run = (words: readonly string[], input: string | Uint8Array = ""): Promise<Said> => saidBy(words, { input });

/** Struck notes that ring, at these times in seconds. */
function struck(times: readonly number[], gain = 0.3): Float32Array {
  const samples = new Float32Array(Math.ceil(((times.at(-1) ?? 0) + 1.5) * RATE));
  for (const at of times) {
    const from = Math.round(at * RATE);
    for (let i = 0; i < 0.4 * RATE && from + i < samples.length; i++) {
      const tone = Math.sin((2 * Math.PI * 294 * i) / RATE) + 0.5 * Math.sin((2 * Math.PI * 1470 * i) / RATE);
      samples[from + i] = samples[from + i]! + gain * tone * Math.exp(-i / RATE / 0.09);
    }
  }
  return samples;
}

const file = (name: string, bytes: Uint8Array | string): string => {
  writeFileSync(join(folder, name), bytes);
  return join(folder, name);
};
const recording = (name: string, times: readonly number[]): string =>
  file(name, wavBytes({ samples: [struck(times)] }));

/** Times at which a rung expects notes, seconds from the start of its count-in. */
async function expected(drill: string, rung: string): Promise<readonly number[]> {
  const score = JSON.parse((await run(["score", COURSE, drill, rung, "--json"])).out) as Score;
  return score.expected.map(({ at }) => at + score.countIn);
}

/** An onset is found within the step of the spectra it is sought in, our hundredth of a second. */
const NEAR = 0.01;
const timesOf = (take: Take): number[] => take.onsets.map((onset) => (typeof onset === "number" ? onset : onset.at));

describe("leeway listen", () => {
  const NOTES = [0.4, 0.9, 1.4, 2.1, 2.6];

  test("--as json gives a take that the schema allows, with the noise of its times and a name of its own", async () => {
    const said = await run(["listen", recording("take.wav", NOTES), "--family", "percussive", "--as", "json"]);
    expect(said).toMatchObject({ status: 0, err: "" });
    const take = JSON.parse(said.out) as Take;
    expect(checkTake(take).ok).toBe(true);
    expect(timesOf(take).length).toBe(NOTES.length);
    timesOf(take).forEach((at, i) => {
      expect(Math.abs(at - NOTES[i]!)).toBeLessThan(NEAR);
    });
    expect(take.motorFloorMs).toBeGreaterThan(0);
    expect(take.id).toMatch(/^take\.wav#[0-9a-f]{12}$/);
  });

  test("answers as text, as CSV and as a picture", async () => {
    const path = recording("take.wav", NOTES);
    const text = await run(["listen", path]);
    expect(text.out).toMatch(/5 notes in 4\.1 s, listened to as plucked/);
    expect(text.err).toContain("FAMILY_ASSUMED");
    const csv = (await run(["listen", path, "--family", "percussive", "--as", "csv"])).out.split("\r\n");
    expect(csv[0]).toBe("seconds,pitch,velocity,strength,noise_ms");
    expect(csv.length).toBe(NOTES.length + 2);
    const svg = (await run(["listen", path, "--family", "percussive", "--as", "svg", "--width", "360"])).out;
    expect(svg).toMatch(/^<svg [^>]*width="360"[^>]*><title>5\snotes heard in 4\.1 s\./);
  });

  test("takes a recording from standard input", async () => {
    const said = await run(["listen", "-", "--family", "percussive", "--json"], wavBytes({ samples: [struck(NOTES)] }));
    expect(timesOf(JSON.parse(said.out)).length).toBe(NOTES.length);
  });

  test("says advice beside the answer, and refuses what is no recording", async () => {
    const cut = file("cut.wav", wavBytes({ samples: [struck(NOTES)] }).subarray(0, 200_000));
    expect(await run(["listen", cut, "--family", "percussive"])).toMatchObject({
      status: 0,
      err: expect.stringContaining("RECORDING_CUT_SHORT"),
    });
    const silent = file("mute.wav", wavBytes({ samples: [new Float32Array(RATE)] }));
    const mute = await run(["listen", silent, "--family", "blown"]);
    expect(mute).toMatchObject({
      status: 0,
      out: expect.stringContaining("0 notes"),
      err: expect.stringContaining("RECORDING_SILENT"),
    });
    for (const [path, code] of [
      [file("empty.wav", ""), "RECORDING_EMPTY"],
      [file("words.wav", "hello"), "RECORDING_FORMAT_UNKNOWN"],
      [file("words.txt", "hello"), "RECORDING_FORMAT_UNKNOWN"],
      [join(folder, "nowhere.wav"), "INPUT_NOT_FOUND"],
      [folder, "INPUT_IS_FOLDER"],
    ] as const) {
      const said = await run(["listen", path, "--json"]);
      expect(said.status).toBe(1);
      expect(JSON.parse(said.out)).toMatchObject({ problems: [{ code }] });
    }
    expect((await run(["listen", cut, "--family", "sung"])).status).toBe(2);
  });
});

describe("leeway assess of recordings", () => {
  test("finds in a recording what it finds in its onsets", async () => {
    const times = (await expected("half-bar", "1")).map((at, i) => at + 0.004 * Math.sin(i));
    const words = ["assess", COURSE, "half-bar", "1"];
    const heard = JSON.parse(
      (await run([...words, recording("take.wav", times), "--family", "percussive", "--json"])).out,
    ) as Finding;
    const told = JSON.parse((await run([...words, file("take.json", JSON.stringify(times)), "--json"])).out) as Finding;
    expect(heard.verdict).toBe(told.verdict);
    expect(heard.pairs.length).toBe(times.length);
    heard.dropouts.forEach(({ driftMs }, i) => {
      // A drift is a difference of two phases: twice what an onset may be off.
      expect(Math.abs((driftMs as number) - (told.dropouts[i]!.driftMs as number))).toBeLessThan(2 * 1000 * NEAR);
    });
  });

  test("finds where the backing played aloud begins, takes it out, and asks for a start where there is none", async () => {
    const score = JSON.parse((await run(["score", COURSE, "half-bar", "1", "--mix", "alone", "--json"])).out) as Score;
    const played = renderSound(score);
    if (!played.ok) throw new Error(JSON.stringify(played.problems));
    const [backing] = played.value.channels;
    const played16 = file("backing.wav", encodeWav(played.value, { samples: 16 }));
    // The file begins a moment before its count-in.
    const zero = played.value.downbeat / RATE - score.countIn;
    // Nobody plays exactly on the drums: 15 ms about them, the same in every run.
    const chance = random("player");
    const times = (await expected("half-bar", "1")).map((at) => at + 0.015 * chance.normal());
    const [lead, mine] = [Math.round(2.37 * RATE), struck(times.map((at) => at + zero))];
    const room = new Float32Array(lead + Math.max(backing.length, mine.length));
    for (let i = 0; i < room.length - lead; i++) room[lead + i] = 0.25 * (backing[i] ?? 0) + (mine[i] ?? 0);
    const words = [
      "assess",
      COURSE,
      "half-bar",
      "1",
      file("room.wav", wavBytes({ samples: [room] })),
      "--family",
      "percussive",
    ];
    const said = await run([...words, "--mix", "alone", "--backing", played16, "--json"]);
    const finding = JSON.parse(said.out) as Finding;
    expect(finding.pairs.length).toBeGreaterThanOrEqual(times.length - 1);
    expect(finding.added.length).toBeLessThanOrEqual(2);
    expect(Math.abs(finding.offsetMs as number)).toBeLessThan(1000 * NEAR);
    expect((await run(words)).err).toContain("RECORDING_START_ASSUMED");
    expect((await run([...words, "--start", "2.37"])).err).not.toContain("RECORDING_START_ASSUMED");
    const missing = await run([...words, "--mix", "alone", "--backing", join(folder, "nowhere.wav"), "--json"]);
    expect(JSON.parse(missing.out).problems).toMatchObject([{ code: "RECORDING_READ_FAILED" }]);
  });

  test.skipIf(!hasFfmpeg)("takes what phones make, and the same recording by the same name", async () => {
    const times = await expected("steady", "1");
    const { path } = clicksAs(folder, "phone.m4a", ["-c:a", "aac", "-b:a", "128k"], struck(times));
    const words = ["assess", COURSE, "steady", "1", path, "--family", "percussive", "--json"];
    const first = JSON.parse((await run(words)).out) as Finding;
    expect(first.pairs.length).toBe(times.length);
    expect(first.take).toMatch(/^phone\.m4a#/);
    expect(JSON.parse((await run(words)).out).take).toBe(first.take);
  });

  test("tells by the score how notes begin, and says so when it cannot", async () => {
    const path = recording("take.wav", await expected("steady", "1"));
    expect((await run(["assess", COURSE, "steady", "1", path])).err).toContain("FAMILY_ASSUMED");
    const named = file(
      "horn.yaml",
      readFileSync(COURSE, "utf8").replace("patterns:", "players: [trumpet, trombone]\npatterns:"),
    );
    expect((await run(["assess", named, "steady", "1", path])).err).not.toContain("FAMILY_ASSUMED");
    const mixed = file(
      "mixed.yaml",
      readFileSync(COURSE, "utf8").replace("patterns:", "players: [trumpet, cello]\npatterns:"),
    );
    expect((await run(["assess", mixed, "steady", "1", path])).err).toContain("FAMILY_ASSUMED");
  });
});

describe("advice about a recording", () => {
  /** What is said of a take that is too loud for its device, as its samples are cut off at 0.2. */
  const clippedTake = async (): Promise<string> =>
    file(
      "loud.wav",
      wavBytes({ samples: [struck(await expected("steady", "1")).map((x) => Math.max(-0.2, Math.min(0.2, x)))] }),
    );
  const CLIPPED = { code: "RECORDING_CLIPPED", severity: "advice", remedy: expect.stringContaining("microphone") };

  test("is in the JSON of listen, assess, submit and place, and beside their text", async () => {
    const path = await clippedTake();
    const store = join(folder, "journals.sqlite");
    await run(["enrol", COURSE, "tern", "--store", store]);
    await run(["enrol", COURSE, "knot", "--store", store]);
    const words: Readonly<Record<string, readonly string[]>> = {
      listen: ["listen", path],
      assess: ["assess", COURSE, "steady", "1", path],
      submit: ["submit", "tern", path, "--drill", "steady", "--store", store],
      place: ["place", "knot", path, "--drill", "steady", "--store", store],
    };
    for (const [name, each] of Object.entries(words)) {
      const json = await run([...each, "--family", "percussive", "--json"]);
      const answer = JSON.parse(json.out) as { advice?: unknown; finding?: { advice?: unknown } };
      const advice = answer.finding?.advice ?? answer.advice;
      expect(advice, name).toContainEqual({ ...CLIPPED, message: expect.any(String), where: { file: path } });
      expect((await run([...each, "--family", "percussive"])).err, name).toContain("RECORDING_CLIPPED");
    }
  });

  test("goes from a take that was listened to into its finding, which is counted as ever", async () => {
    const heard = (await run(["listen", await clippedTake(), "--family", "percussive", "--json"])).out;
    expect(checkTake(JSON.parse(heard)).ok).toBe(true);
    const told = await run(["assess", COURSE, "steady", "1", "-", "--json"], heard);
    expect(checkFinding(JSON.parse(told.out))).toMatchObject({ ok: true, value: { advice: [CLIPPED] } });
    const journal = join(folder, "new.jsonl");
    const findings = file("findings.jsonl", told.out);
    const decided = await run(["decide", COURSE, "--journal", journal, "--student", "tern", "--findings", findings]);
    expect(decided.status).toBe(0);
    expect(decided.out).toContain('"kind":"take assessed"');
  });

  test("is left out where there is none", async () => {
    const path = recording("fine.wav", await expected("steady", "1"));
    const words = ["assess", COURSE, "steady", "1", path, "--family", "percussive", "--start", "0", "--json"];
    expect(JSON.parse((await run(words)).out)).not.toHaveProperty("advice");
  });
});

describe("leeway submit of recordings", () => {
  test("counts a recording once, and keeps nothing of its sound", async () => {
    const store = join(folder, "journals.sqlite");
    await run(["enrol", COURSE, "tern", "--store", store]);
    const times = await expected("steady", "1");
    const path = recording("take.wav", times);
    const before = readdirSync(folder).sort();
    const words = ["submit", "tern", path, "--drill", "steady", "--family", "percussive", "--store", store, "--json"];
    const first = await run(words);
    expect(first.status).toBe(0);
    const { finding, events } = JSON.parse(first.out) as { finding: Finding; events: readonly unknown[] };
    expect(finding.pairs.length).toBeGreaterThan(20);
    const journal = async (): Promise<string> => (await run(["journal", "export", "tern", "--store", store])).out;
    const kept = await journal();
    expect(JSON.parse((await run(words)).out)).toMatchObject({ known: true, events });
    expect(await journal()).toBe(kept);
    // No new file but those of the store; and none with a run of its bytes.
    const sound = readFileSync(path);
    const note = 44 + 2 * Math.round(times[0]! * RATE) + 200;
    const run64 = sound.subarray(note, note + 64);
    for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
      const place = join(folder, name);
      if (name === "take.wav" || statSync(place).isDirectory()) continue;
      expect(readFileSync(place).includes(run64), name).toBe(false);
    }
    expect(
      readdirSync(folder)
        .sort()
        .filter((name) => !before.includes(name) && !name.startsWith("journals.sqlite")),
    ).toEqual([]);
  });
});

describe("leeway calibrate", () => {
  const { first, apart, count } = CALIBRATION_CLICKS;
  const late = (by: number): string =>
    recording(
      `loop${by}.wav`,
      Array.from({ length: count }, (_, i) => first + i * apart + by),
    );

  test("writes clicks it hears itself, at no delay, and a word on loudness", async () => {
    const clicks = join(folder, "clicks.wav");
    expect(await run(["calibrate", "--clicks", clicks])).toMatchObject({
      status: 0,
      err: expect.stringContaining("volume down"),
    });
    const said = JSON.parse((await run(["calibrate", clicks, "--device", "none", "--json"])).out);
    expect(said.onsets).toBe(count);
    expect(Math.abs(said.latencyMs)).toBeLessThan(5);
  });

  test("keeps latency and its error by the name of the device, for --device", async () => {
    const said = await run(["calibrate", late(0.08), late(0.09), "--device", "the phone"]);
    expect(said.out).toMatch(
      /^the phone: records 8[0-9]\.\d ms late, ± \d+\.\d ms from take to take, found from 96 onsets\n$/,
    );
    const kept = JSON.parse(readFileSync(join(folder, "data", "leeway", "devices.json"), "utf8"));
    expect(kept["the phone"]).toMatchObject({ by: "loop", measured: "2026-03-02T17:30:00Z" });
    const times = await expected("steady", "1");
    const take = recording(
      "take.wav",
      times.map((at) => at + 0.085),
    );
    const words = ["assess", COURSE, "steady", "1", take, "--family", "percussive", "--json"];
    const [plain, known] = [
      JSON.parse((await run(words)).out),
      JSON.parse((await run([...words, "--device", "the phone"])).out),
    ] as [Finding, Finding];
    expect((plain.offsetMs as number) - (known.offsetMs as number)).toBeCloseTo(kept["the phone"].latencyMs, 0);
  });

  test("DEVICE_UNKNOWN, DEVICES_UNREADABLE, CALIBRATION_UNCLEAR, LATENCY_UNCLEAR: says what is wrong and what to do", async () => {
    const take = recording("take.wav", [0.5, 1, 1.6]);
    const codes = async (words: readonly string[]): Promise<readonly string[]> => {
      const said = await run([...words, "--json"]);
      expect(said.status).toBe(1);
      return (JSON.parse(said.out).problems as { code: string }[]).map(({ code }) => code);
    };
    expect(await codes(["assess", COURSE, "steady", "1", take, "--family", "blown", "--device", "x"])).toEqual([
      "DEVICE_UNKNOWN",
    ]);
    expect(await codes(["calibrate", take, "--device", "x"])).toEqual(["LATENCY_UNCLEAR"]);
    expect(await codes(["calibrate", take])).toEqual(["CALIBRATION_UNCLEAR"]);
    expect(await codes(["calibrate", join(folder, "no.wav"), "--device", "x"])).toEqual(["INPUT_NOT_FOUND"]);
    mkdirSync(join(folder, "data", "leeway"), { recursive: true });
    for (const text of ["{", "[1]", '{"x": {"latencyMs": "late"}}']) {
      writeFileSync(join(folder, "data", "leeway", "devices.json"), text);
      expect(await codes(["calibrate", late(0), "--device", "x"])).toEqual(["DEVICES_UNREADABLE"]);
    }
  });
});
