import midiFile from "midi-file";
import { beforeAll, describe, expect, test } from "vitest";
import { rungs } from "../../../../lib/drill/index.js";
import { midiNumber, parsePitch } from "../../../../lib/pattern/index.js";
import { musicXmlOf, takePage, writtenScore } from "../../../../lib/render/index.js";
import { exactly } from "../../../../lib/render/scoreTime.js";
import { must } from "../../../time/shorthand.js";
import { drills } from "../../courses.js";

/** What is used of Verovio: it reads MusicXML with code of its own, and writes what it understood as MIDI. */
interface Toolkit {
  loadData(data: string): unknown;
  renderToMIDI(): string;
  setOptions(options: Record<string, unknown>): void;
}

let toolkit: Toolkit;
beforeAll(async () => {
  const { default: createModule } = await import("verovio/wasm");
  const { VerovioToolkit } = await import("verovio/esm");
  toolkit = new VerovioToolkit(await createModule()) as unknown as Toolkit;
  toolkit.setOptions({ inputFrom: "xml" });
});

/** "onset in quarters, MIDI key" of every note Verovio plays, in order. */
function played(xml: string): readonly string[] {
  expect(toolkit.loadData(xml)).toBeTruthy();
  const { header, tracks } = midiFile.parseMidi(Buffer.from(toolkit.renderToMIDI(), "base64"));
  return tracks
    .flatMap((track) => {
      let ticks = 0;
      return track.flatMap((event) => {
        ticks += event.deltaTime;
        return event.type === "noteOn" && event.velocity > 0
          ? [`${(ticks / header.ticksPerBeat!).toFixed(3)} ${event.noteNumber}`]
          : [];
      });
    })
    .sort();
}

describe("Verovio, reading our MusicXML", () => {
  test.each(drills)("%s: plays the student's notes at their places and heights, for every player", (_name, drill) => {
    const rung = rungs(drill).at(0);
    const own = writtenScore(rung).parts.find(({ student }) => student)!;
    for (const player of [undefined, ...drill.players]) {
      const xml = must(musicXmlOf(takePage(rung, { staves: "student", player })));
      const expected = own.notes.map((note) => {
        const { n, d } = exactly(note.position);
        const key = midiNumber(must(parsePitch(note.pitch!))) + 12 * (player?.octave ?? 0);
        return `${((4 * n) / d).toFixed(3)} ${key}`;
      });
      expect(played(xml), player?.instrument.name).toEqual(expected.sort());
    }
  });
});
