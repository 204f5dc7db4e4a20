import { describe, expect, test } from "vitest";
import { openMicrophone, openMidiInput } from "../../lib/browser/index.js";

/** Neither looks at the clock or the context before it knows whether there is anything to listen to. */
const NONE = undefined as never;

describe("where there is no browser", () => {
  test("inputs say that they are not here, and throw nothing", async () => {
    const midi = await openMidiInput(NONE);
    expect(midi.ok ? "" : midi.problems[0]!.code).toBe("MIDI_NOT_HERE");
    const microphone = await openMicrophone(NONE);
    expect(microphone.ok ? "" : microphone.problems[0]!.code).toBe("MICROPHONE_NOT_HERE");
  });
});
