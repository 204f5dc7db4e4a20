import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { saidBy } from "../cli/said.js";
import { drumRecording, recordedCourse } from "../recording/recordedCourse.js";

/** What `leeway check` says of a course with drums that were played at one tempo and are said to have another. */
async function checked(played: number, kit: (starts: number) => string, change = (wav: Uint8Array) => wav) {
  const drums = drumRecording(played);
  const course = recordedCourse(kit(drums.starts), { "kit.wav": change(drums.wav) });
  const said = await saidBy(["check", join(course.folder, "course.yaml"), "--json"]);
  course.remove();
  const { problems } = JSON.parse(said.out) as {
    problems: readonly { code: string; message: string; remedy?: string }[];
  };
  return { status: said.status, heard: problems.filter(({ code }) => /^RECORD/.test(code)) };
}

describe("leeway check listens to recordings", () => {
  test("and says nothing of one that is as the course says", async () => {
    const { status, heard } = await checked(
      96,
      (at) => `{ recording: kit.wav, tempo: 96, starts: ${at.toFixed(4)} s }`,
    );
    expect([status, heard]).toEqual([0, []]);
  });

  test("RECORDED_TEMPO_DIFFERS: it says the tempo that the drummer really has", async () => {
    const { heard } = await checked(95.4, (at) => `{ recording: kit.wav, tempo: 96, starts: ${at.toFixed(4)} s }`);
    expect(heard.map(({ code }) => code)).toEqual(["RECORDED_TEMPO_DIFFERS"]);
    expect(heard[0]!.message).toBe("kit.wav runs at 95.4; the course says 96");
    expect(heard[0]!.remedy).toContain("tempo: 95.4");
  });

  test("RECORDED_START_DIFFERS: it says where bar 1 is", async () => {
    const { heard } = await checked(
      96,
      (at) => `{ recording: kit.wav, tempo: 96, starts: ${(at - 0.05).toFixed(4)} s }`,
    );
    expect(heard.map(({ code }) => code)).toEqual(["RECORDED_START_DIFFERS"]);
    const said = Number(/begins (\d+) ms later/.exec(heard[0]!.message)?.[1]);
    expect(Math.abs(said - 50)).toBeLessThanOrEqual(2);
  });

  test("RECORDED_START_DIFFERS: of a file that begins after its bar 1 it says how much silence to put before, and no start that stands there already", async () => {
    const late = (by: number) =>
      checked(
        96,
        () => "{ recording: kit.wav, tempo: 96, starts: 0 s }",
        (wav) => later(wav, by),
      );
    const { heard } = await late(drumRecording(96).starts + 0.05);
    expect(heard.map(({ code }) => code)).toEqual(["RECORDED_START_DIFFERS"]);
    const [, starts] = /put 1 s of silence before it, and write starts: (0\.\d{3}) s/.exec(heard[0]!.remedy!)!;
    expect(Math.abs(Number(starts) - 0.95)).toBeLessThanOrEqual(0.003);
  });

  test("RECORDED_TEMPO_WAVERS: it names the bar in which a drummer drifts furthest", async () => {
    const wavering = (wav: Uint8Array) => warped(wav);
    const { heard } = await checked(
      96,
      (at) => `{ recording: kit.wav, tempo: 96, starts: ${at.toFixed(4)} s }`,
      wavering,
    );
    expect(heard.map(({ code }) => code)).toContain("RECORDED_TEMPO_WAVERS");
  });

  test("RECORDED_TEMPO_NOT_HEARD: it says when there is too little to hear", async () => {
    const silent = (wav: Uint8Array) => Uint8Array.from(wav, (value, i) => (i < 200 ? value : 0));
    const { heard } = await checked(
      96,
      (at) => `{ recording: kit.wav, tempo: 96, starts: ${at.toFixed(4)} s }`,
      silent,
    );
    expect(heard.map(({ code }) => code)).toContain("RECORDED_TEMPO_NOT_HEARD");
  });

  test("and a file that breaks off is an error of the course", async () => {
    const cut = (wav: Uint8Array) => {
      const bytes = wav.slice();
      bytes.set([0xff, 0xff], 20);
      return bytes;
    };
    const { status, heard } = await checked(
      96,
      (at) => `{ recording: kit.wav, tempo: 96, starts: ${at.toFixed(4)} s }`,
      cut,
    );
    expect(status).not.toBe(0);
    expect(heard[0]!.code).toMatch(/^RECORDING_/);
  });
});

/** The same drums by a drummer who is late by up to 80 ms in the middle of the four bars: samples are read at a time that runs behind and catches up. */
function warped(wav: Uint8Array): Uint8Array {
  const bytes = wav.slice();
  const head = bytes.length - 8 * Math.floor((bytes.length - 100) / 8);
  const frames = (bytes.length - head) / 8;
  const [from, to] = [new DataView(wav.buffer, wav.byteOffset), new DataView(bytes.buffer)];
  for (let i = 0; i < frames; i++) {
    const place = (i / 44100 - 2.75) / 10;
    const late = place > 0 && place < 1 ? 0.08 * Math.sin(Math.PI * place) ** 2 : 0;
    const source = Math.max(0, Math.round(i - late * 44100));
    for (const side of [0, 4])
      to.setFloat32(head + 8 * i + side, from.getFloat32(head + 8 * source + side, true), true);
  }
  return bytes;
}

/** The same drums in a file that begins so many seconds later, as long as before. */
function later(wav: Uint8Array, seconds: number): Uint8Array {
  const bytes = wav.slice();
  const head = bytes.length - 8 * Math.floor((bytes.length - 100) / 8);
  const from = head + 8 * Math.round(seconds * 44100);
  bytes.copyWithin(head, from);
  bytes.fill(0, bytes.length - (from - head));
  return bytes;
}
