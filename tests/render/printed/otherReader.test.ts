import fc from "fast-check";
import { getAllNotes, type NoteEntry, parse, validate } from "musicxml-io";
import { describe, expect, test } from "vitest";
import { toNumber } from "../../../lib/base/index.js";
import { rungs } from "../../../lib/drill/index.js";
import { keyText, type Note, parsePitch } from "../../../lib/pattern/index.js";
import { musicXmlOf, takePage, writtenScore } from "../../../lib/render/index.js";
import { exactly } from "../../../lib/render/scoreTime.js";
import { parseMeter } from "../../../lib/time/index.js";
import { must } from "../../time/shorthand.js";
import { pageOf } from "../riffs.js";
import { HARD, SHIPPED } from "../sheet/material.js";
import { formOf, readerOf } from "./formsBy.js";
import { type ReadBy, readAs, type Sounded } from "./pagesTable.js";
import { drillOf, fifthsOf, printings } from "./randomRiffs.js";

/*
 * musicxml-io (npm, MIT) reads MusicXML with code of its own. What it understands is compared with the written pitches worked out on the line
 * of fifths; and the accidentals it finds, with what they have to say of those pitches.
 */

interface Read {
  readonly name: string;
  /** In whole notes from the first bar of the document. */
  readonly at: number;
}

const place = ({ name, at }: Read): string => `${at.toFixed(5)} ${name}`;

/** "F#4" of every note that is not tied on, with where it begins; notes on a line that says something else than they do are told apart. */
function readByOthers(xml: string): {
  readonly notes: readonly string[];
  readonly fifths: number | undefined;
  readonly misread: readonly string[];
} {
  const score = parse(xml);
  const { measures } = score.parts[0]!;
  // It takes the beats of an additive meter (2+2+3) for the first number.
  const isAdditive = measures.some(({ attributes }) => attributes?.time?.beats.includes("+"));
  const errors = validate(score).errors.filter(({ code }) => !(isAdditive && code === "MEASURE_DURATION_OVERFLOW"));
  expect(errors).toEqual([]);
  const divisions = Number(measures[0]!.attributes!.divisions);
  const fifths = measures[0]!.attributes!.key!.fifths;
  const starts: number[] = [];
  let at = 0;
  for (const { entries } of measures) {
    starts.push(at);
    const [voice] = [1];
    for (const entry of entries)
      if (entry.type === "note" && !entry.chord && Number(entry.voice ?? 1) === voice)
        at += entry.duration / divisions / 4;
  }
  const heads = getAllNotes(score)
    .filter(({ note }) => note.pitch !== undefined)
    .map(({ note, measure, position }) => {
      const bar = measures.indexOf(measure);
      return { note, bar, at: starts[bar]! + position / divisions / 4 };
    })
    .sort((a, b) => a.at - b.at);
  return {
    fifths,
    notes: heads
      .filter(({ note }) => !isTiedOn(note))
      .map(({ note, at }) => place({ name: nameOf(note), at }))
      .sort(),
    misread: misreadIn(heads, fifths ?? 0),
  };
}

function isTiedOn({ tie, ties }: NoteEntry): boolean {
  return [...(ties ?? []), ...(tie ? [tie] : [])].some(({ type }) => type === "stop");
}

function nameOf({ pitch }: NoteEntry): string {
  return `${pitch!.step}${"#".repeat(Math.max(0, pitch!.alter ?? 0))}${"b".repeat(Math.max(0, -(pitch!.alter ?? 0)))}${pitch!.octave}`;
}

const SIGNS: Readonly<Record<string, number>> = { "flat-flat": -2, flat: -1, natural: 0, sharp: 1, "double-sharp": 2 };

/** Notes whose accidental, or the one that holds on their line, or else the signature, is not what their pitch says. */
function misreadIn(
  heads: readonly { readonly note: NoteEntry; readonly bar: number; readonly at: number }[],
  fifths: number,
): readonly string[] {
  const misread: string[] = [];
  const holds = new Map<string, number>();
  let last = -1;
  for (const { note, bar, at } of heads) {
    if (bar !== last) holds.clear();
    last = bar;
    if (isTiedOn(note)) continue;
    const { step, octave, alter = 0 } = note.pitch!;
    const line = `${step}${octave}`;
    if (note.accidental !== undefined) holds.set(line, SIGNS[note.accidental.value]!);
    const index = "FCGDAEB".indexOf(step);
    const signature = fifths > 0 && index < fifths ? 1 : fifths < 0 && 6 - index < -fifths ? -1 : 0;
    if ((holds.get(line) ?? signature) !== alter) misread.push(place({ name: nameOf(note), at }));
  }
  return misread;
}

function expected(
  notes: readonly Sounded[],
  { key, reader, start }: { key: string; reader: ReadBy; start: number },
): { readonly fifths: number; readonly notes: readonly string[]; readonly misread: readonly string[] } {
  const { fifths, written } = readAs(fifthsOf(key), reader);
  const names = notes.map((note) => {
    const { letter, alter, octave } = written(note);
    const name = `${letter}${(alter < 0 ? "b" : "#").repeat(Math.abs(alter))}${octave}`;
    return place({ name, at: note.from - start });
  });
  return { fifths, notes: names.sort(), misread: [] };
}

describe("another reader of MusicXML", () => {
  test("reads every written pitch and the accidental that says it: random riffs over all keys and players", () => {
    fc.assert(
      fc.property(printings, (printing) => {
        const { riff, key, player } = printing;
        const options = player && { reader: { ...player, pitch: "transposed" as const } };
        const xml = must(musicXmlOf(pageOf(riff, options, drillOf(printing).pattern.key)));
        const wanted = expected(formOf(printing).notes, { key, reader: readerOf(player), start: 0 });
        expect(readByOthers(xml)).toEqual(wanted);
      }),
      { numRuns: 200, endOnFailure: true },
    );
  });

  const drills = [...SHIPPED, HARD].flatMap((course) => course.drills.map((drill) => [drill.name, drill] as const));
  test.each(drills)("reads the take of every rung that is written otherwise: %s", (_, drill) => {
    const all = rungs(drill);
    const met = new Set<string>();
    for (let i = 0; i < all.count; i++) {
      const rung = all.at(i);
      const part = writtenScore(rung).parts.find(({ student }) => student)!;
      if (part.notes.some(({ pitch }) => pitch === undefined)) return;
      const key = rung.settings.key ?? keyText(drill.pattern.key);
      const shape = JSON.stringify([key, part.notes.map(({ position, length, pitch }) => [position, length, pitch])]);
      if (met.has(shape)) continue;
      met.add(shape);
      const notes = part.notes.map(({ position, length, pitch }): Sounded => {
        const from = toNumber(exactly(position));
        return { ...must(parsePitch(pitch!)), from, to: from + toNumber(exactly(length)) };
      });
      for (const player of [undefined, ...drill.players]) {
        const xml = must(musicXmlOf(takePage(rung, { staves: "student", player })));
        const start = -toNumber(drill.pattern.pickup);
        expect(readByOthers(xml)).toEqual(expected(notes, { key, reader: readerOf(player), start }));
      }
    }
    expect(met.size).toBeGreaterThan(0);
  });
});

describe("loudness and ghost notes", () => {
  test("are found by another reader where they were written", () => {
    const place = (n: number) => ({ position: { n, d: 4 }, length: { n: 1, d: 4 }, accent: false });
    const pitch = must(parsePitch("D4"));
    const notes: readonly Note[] = [
      { ...place(0), pitch, loudness: "pp" },
      { ...place(1), pitch, loudness: "pp", ghost: true },
      { ...place(2), pitch, loudness: "f" },
      { ...place(3), pitch },
    ];
    const meter = must(parseMeter("4/4"));
    const bars = [{ position: { n: 0, d: 1 }, length: { n: 1, d: 1 }, meter, number: "1", isPickup: false }];
    const { parts } = parse(must(musicXmlOf(pageOf({ meter, bars, notes }))));
    const said = parts[0]!.measures[0]!.entries.flatMap((entry) => {
      if (entry.type === "note") return [entry.notehead?.parentheses ? "(note)" : "note"];
      if (entry.type !== "direction") return [];
      return entry.directionTypes.flatMap((type) => (type.kind === "dynamics" ? [type.value] : []));
    });
    expect(said).toEqual(["pp", "note", "(note)", "f", "note", "mf", "note"]);
  });
});
