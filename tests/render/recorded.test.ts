import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { midiOf } from "../../lib/render/index.js";
import { renderSound } from "../../lib/render/sound/index.js";
import { drumRecording, type RecordedCourse, recordedCourse } from "../recording/recordedCourse.js";

const drums = drumRecording();
const kit = (beside = ""): string => `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s${beside} }`;
let alone: RecordedCourse;
let withNotes: RecordedCourse;
beforeAll(() => {
  alone = recordedCourse(kit(), { "kit.wav": drums.wav });
  withNotes = recordedCourse(kit(", voices: { snare: --X---X- | ... }"), { "kit.wav": drums.wav });
});
afterAll(() => {
  alone.remove();
  withNotes.remove();
});

const scoreIn = ({ course }: RecordedCourse) => scoreOf(rungs(course.drills[0]!).at(2));

describe("what renders a score with a recording and has no sound of it", () => {
  test("RECORDED_PART_NOT_GIVEN: a rendering that was not given the sound makes nothing", () => {
    expect(renderSound(scoreIn(alone))).toMatchObject({ ok: false, problems: [{ code: "RECORDED_PART_NOT_GIVEN" }] });
  });

  test("MIDI_WITHOUT_RECORDING: a MIDI file has the notes beside it, or nothing", () => {
    const said = [alone, withNotes].map((each) => midiOf(scoreIn(each)));
    expect(said).toMatchObject([
      { ok: true, advice: [{ code: "MIDI_WITHOUT_RECORDING", message: expect.stringContaining("silent in it") }] },
      {
        ok: true,
        advice: [{ code: "MIDI_WITHOUT_RECORDING", message: expect.stringContaining("the notes beside it") }],
      },
    ]);
  });
});
