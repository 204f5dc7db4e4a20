import { readFileSync } from "node:fs";
import type { Problem, Result } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { readMidiFile, readMusicXml } from "../../lib/formats/index.js";
import { compilePattern } from "../../lib/pattern/index.js";
import { foldJournal, readJournal } from "../../lib/progress/index.js";
import { clicks, hear, wavBytes } from "../formats/sound/soundFiles.js";
import type { Material } from "./mutate.js";

/** A reader of what people give, with good inputs for it. */
export interface Reader extends Material {
  /** Reads an input; an error where the answer is not one that a reader may give. */
  read(bytes: Uint8Array): void | Promise<void>;
}

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const piecesOf = (...texts: readonly string[]): readonly Uint8Array[] => texts.map(bytesOf);

/** An answer is a value, or problems among which is an error; each has a code, words, and a place that is one. */
function hold({ ok, problems }: { readonly ok: boolean; readonly problems: readonly Problem[] }): void {
  if (!ok && !problems.some(({ severity }) => severity === "error")) throw new Error("refused without an error");
  for (const { code, message, where } of problems) {
    if (!/^[A-Z][A-Z_]+$/.test(code) || message.trim() === "")
      throw new Error(`a problem without code or words: ${code}`);
    for (const number of [where.line, where.column])
      if (number !== undefined && !(Number.isInteger(number) && number >= 1)) throw new Error(`${code} at ${number}`);
  }
}

function answer<T>(result: Result<T>): T | undefined {
  hold({ ok: result.ok, problems: result.ok ? result.advice : result.problems });
  return result.ok ? result.value : undefined;
}

/** Finite numbers only, however deep. */
function finite(value: unknown): void {
  if (typeof value === "number" && !Number.isFinite(value)) throw new Error(`${value} in what was read`);
  if (typeof value === "object" && value !== null) for (const each of Object.values(value)) finite(each);
}

/** The readers by name. `folder` is that of the project. */
export function readersIn(folder: string): Readonly<Record<string, Reader>> {
  const file = (path: string): Uint8Array => readFileSync(`${folder}/${path}`);
  const courses = ["first-course", "odd-meters", "wind-and-brass"].map((name) =>
    file(`curricula/quayside-${name}.yaml`),
  );
  return {
    course: {
      seeds: courses,
      pieces: piecesOf(
        "\n",
        "\r",
        "  ",
        ": ",
        "- ",
        "|",
        ">",
        "{",
        "}",
        "[",
        "]",
        "#",
        "&a",
        "*a",
        "<<",
        "!!",
        '"',
        "'",
        "\\",
        "...",
        "---",
        "1/4",
        "1e99",
        "~",
      ),
      read: (bytes) => {
        const course = answer(readCurriculum(textOf(bytes), { file: "course.yaml", readFile: () => undefined }));
        // What is let in is played: no rung of it throws.
        for (const drill of course?.drills ?? []) {
          const all = rungs(drill);
          for (const at of new Set([0, all.count - 1])) scoreOf(all.at(at));
        }
      },
    },
    "note line": {
      seeds: piecesOf(
        "1/4 D4 E4 F4 G4 | ...",
        "1/8 D4 D4 1/4 E4 F#4 Bb4 | - | 1/2 D4~ D4 | open",
        "3:2 [1/8 D4 E4 F4] 1/4. A4 1/8 r | 1/16 (c) D4 ' E4 | ...",
      ),
      pieces: piecesOf(
        "|",
        "...",
        "1/4",
        "1/0",
        "0/4",
        "1/99999999",
        "999999999999999999999",
        "~",
        "[",
        "]",
        "(",
        ")",
        "{",
        "}",
        "%",
        "x",
        ".",
        "D4",
        "C#-1",
        "B##9",
        "\u0000",
        "\u{1d11e}",
        " ",
      ),
      read: (bytes) => {
        const document = { meter: "4/4", bars: 4, parts: { lead: { notes: textOf(bytes) } } };
        const pattern = answer(compilePattern("riff", document, { instruments: {}, files: () => undefined }));
        if (pattern !== undefined) finite(pattern.parts);
      },
    },
    journal: {
      seeds: [file("tests/store/version1/journals.jsonl")],
      pieces: piecesOf(
        "\n",
        "\r\n",
        "{",
        "}",
        "[",
        "]",
        '"',
        ",",
        ":",
        "null",
        "1e999",
        "-0",
        '"__proto__":',
        '"turn":9007199254740993',
        "\ufeff",
        "\u2028",
      ),
      read: (bytes) => {
        const text = textOf(bytes);
        hold({ ok: true, problems: readJournal(text).problems });
        const { standing, problems } = foldJournal(text);
        hold({ ok: true, problems });
        finite(standing);
      },
    },
    MIDI: {
      seeds: [file("curricula/takes/half-bar.mid"), file("curricula/takes/one-bar-hurried.mid")],
      pieces: [
        ...piecesOf("MThd", "MTrk"),
        ...[[0xff, 0x51, 3], [0xff, 0x58, 4], [0xff, 0x2f, 0], [0xf0], [0xf7], [0x90], [0xff, 0xff, 0xff, 0x7f]].map(
          (each) => Uint8Array.from(each),
        ),
      ],
      read: (bytes) => finite(answer(readMidiFile(bytes))),
    },
    WAV: {
      seeds: [
        wavBytes({ samples: [clicks(2000)], coding: "s24", extensible: true }),
        wavBytes({ samples: [clicks(500), clicks(500)], coding: "f32", long: true }),
      ],
      pieces: piecesOf("RIFF", "RF64", "WAVE", "fmt ", "data", "ds64", "LIST", "fact", "id3 "),
      read: async (bytes) => {
        const { channels, problems } = await hear(bytes);
        hold({ ok: channels.length > 0, problems });
        for (const channel of channels) if (!channel.every(Number.isFinite)) throw new Error("a sample is no number");
      },
    },
    MusicXML: {
      seeds: piecesOf(MUSIC),
      pieces: piecesOf(
        "<",
        ">",
        "</",
        "/>",
        "&amp;",
        "&#0;",
        "&#x110000;",
        "<!--",
        "-->",
        "<![CDATA[",
        "]]>",
        "<?x?>",
        '="',
        "<note>",
        "</note>",
        "<chord/>",
        "<grace/>",
        '<repeat direction="backward"/>',
        "1e9",
        "-1",
        "0",
      ),
      read: (bytes) => finite(answer(readMusicXml(bytes))),
    },
  };
}

/** A score with what a reader has to follow: repeats, endings, tuplets, ties, grace notes, chords, a second voice. */
const MUSIC = `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list><part id="P1">
<measure number="1"><attributes><divisions>12</divisions><key><fifths>-1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>
<barline location="left"><repeat direction="forward"/></barline>
<note><grace/><pitch><step>D</step><octave>4</octave></pitch></note><note><pitch><step>E</step><alter>-1</alter><octave>4</octave></pitch><duration>12</duration><tie type="start"/></note>
<note><pitch><step>E</step><alter>-1</alter><octave>4</octave></pitch><duration>12</duration><tie type="stop"/></note><note><chord/><pitch><step>G</step><octave>4</octave></pitch><duration>12</duration></note>
<note><rest/><duration>24</duration></note><backup><duration>48</duration></backup><note><pitch><step>C</step><octave>3</octave></pitch><duration>48</duration><voice>2</voice></note></measure>
<measure number="2"><barline><ending number="1" type="start"/></barline><note><pitch><step>F</step><octave>4</octave></pitch><duration>8</duration><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>
<forward><duration>40</duration></forward><barline><ending number="1" type="stop"/><repeat direction="backward"/></barline></measure>
<measure number="3"><note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>48</duration></note></measure></part></score-partwise>`;
