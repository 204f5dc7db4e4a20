import { describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { checkScore, type DrillDocument, type Score } from "../../../lib/schema/index.js";
import { drillOf, jetty } from "../material.js";

const first = (document: DrillDocument, mix?: string): Score => scoreOf(rungs(drillOf(document)).at(0), mix);
const notesOf = (score: Score, part: string): readonly (readonly [string, string])[] =>
  score.parts.find(({ name }) => name === part)!.notes.map(({ position, length }) => [position, length]);

describe("scoreOf()", () => {
  test("places half a bar of 4/4 at 92 beats per minute: 1304.348 ms (computed: 2 * 60000 / 92)", () => {
    const { dropouts, audible, duration, countIn, beat } = first(jetty());
    expect(dropouts.map(({ fromPosition, toPosition }) => [fromPosition, toPosition])).toEqual([
      ["7/2", "4"],
      ["15/2", "8"],
    ]);
    expect(dropouts[0]!.to - dropouts[0]!.from).toBeCloseTo(1.304348, 6);
    // 16 beats of 60/92 s to the first landing, 36 to the end, 4 of count-in.
    expect(dropouts[0]).toMatchObject({
      to: 10.434782609,
      landing: 10.434782609,
      bars: [4],
      parts: ["bass", "kit"],
      silent: true,
    });
    expect([beat, countIn, duration]).toEqual([0.652173913, 2.608695652, 23.47826087]);
    expect(audible).toEqual([
      { from: -2.608695652, to: 9.130434783 },
      { from: 10.434782609, to: 19.565217391 },
      { from: 20.869565217, to: 23.47826087 },
    ]);
  });

  test("counts dotted quarters in 6/8: a bar at 60 is 2000 ms, and dotted quarter 60 is quarter 90 (music21)", () => {
    const base = { ...jetty({ variant: undefined, dropout: undefined }), pattern: "swell", tempo: 60 };
    const dotted = first(base);
    expect(dotted).toMatchObject({ beat: 1, beatUnit: "3/8", phraseSeconds: 4, countIn: 2, duration: 10 });
    expect(dotted.bars.map(({ at }) => at)).toEqual([0, 2, 4, 6, 8]);
    const quarters = first({ ...base, beat: "1/4 note", tempo: 90 });
    expect(quarters.expected.map(({ at }) => at)).toEqual(dotted.expected.map(({ at }) => at));
  });

  test("says where every expected note is, in which bar, in concert pitch", () => {
    const { expected } = first(jetty({ phrases: 1 }));
    expect(expected.slice(0, 4)).toEqual([
      { position: "0", at: 0, pitch: "D4", part: "lead", bar: 1 },
      { position: "1/4", at: 0.652173913, pitch: "F4", part: "lead", bar: 1 },
      { position: "1/2", at: 1.304347826, pitch: "A4", part: "lead", bar: 1 },
      { position: "1", at: 2.608695652, pitch: "G4", part: "lead", bar: 2 },
    ]);
    // The outro: bar 1 again as bar 5.
    expect(expected.filter(({ bar }) => bar === 5).map(({ position, pitch }) => [position, pitch])).toEqual([
      ["4", "D4"],
      ["17/4", "F4"],
      ["9/2", "A4"],
    ]);
  });

  test("cuts a note that rings into a silence, and leaves out those that begin there", () => {
    const score = first(jetty({ phrases: 1, dropout: { length: "3/4 bar" } }));
    // The bass holds A2 from 3 to 7/2; the silence begins at 13/4. Its D2 at 7/2 falls into the silence.
    expect(notesOf(score, "bass")).toEqual([
      ["0", "1/2"],
      ["1/2", "1/2"],
      ["1", "1"],
      ["2", "1"],
      ["3", "1/4"],
      ["4", "1/2"],
      ["9/2", "1/2"],
    ]);
    expect(score.parts.find(({ name }) => name === "bass")!.notes[4]!.seconds).toBe(0.652173913);
  });

  test("lets a note ring into a silence where the author says so, to the end of the silence at most", () => {
    const rings = (length: string): Score => first(jetty({ phrases: 1, dropout: { length, "let-ring": ["bass"] } }));
    // A2 from 3 to 7/2 as written; of the silence from 13/4 on nothing else sounds, and the kit is cut as ever.
    const score = rings("3/4 bar");
    expect(checkScore(score)).toMatchObject({ ok: true });
    expect(score.parts.map(({ name, rings }) => [name, rings])).toEqual([
      ["kit", undefined],
      ["bass", true],
      ["lead", undefined],
    ]);
    expect(notesOf(score, "bass").slice(4)).toEqual([
      ["3", "1/2"],
      ["4", "1/2"],
      ["9/2", "1/2"],
    ]);
    expect(score.audible).toEqual(first(jetty({ phrases: 1, dropout: { length: "3/4 bar" } })).audible);
    // G2 from 2 to 3 with silences from 9/4 to 5/2: it ends with them, where the bass plays again.
    const short = first(
      jetty({ phrases: 1, dropout: { length: "1/4 bar", at: "random", seed: 1, "let-ring": ["bass"] } }),
    );
    const [silence] = short.dropouts;
    const across = short.parts[1]!.notes.filter(({ at }) => at < silence!.from).at(-1)!;
    expect(across.at + across.seconds).toBeLessThanOrEqual(silence!.to + 1e-9);
  });

  test("has the student's part off unless a mix says otherwise, and expects it in every mix", () => {
    const [play, listen] = [first(jetty()), first(jetty(), "listen")];
    expect(play.parts.map(({ name, does, student }) => [name, does, student])).toEqual([
      ["kit", "drops", false],
      ["bass", "drops", false],
      ["lead", "off", true],
    ]);
    expect(notesOf(play, "lead")).toEqual([]);
    expect(notesOf(listen, "lead").length).toBe(listen.expected.length);
    expect(listen.expected).toEqual(play.expected);
    expect(listen.dropouts.every(({ silent }) => !silent)).toBe(true);
    expect(listen.audible).toEqual([{ from: -2.608695652, to: 23.47826087 }]);
    expect(() => first(jetty(), "lissen")).toThrow(RangeError);
  });

  test("lets parts that are not among the dropping parts play on", () => {
    const score = first(jetty({ dropout: { length: "1/2 bar", parts: ["kit"] } }));
    expect(score.parts.map(({ does }) => does)).toEqual(["drops", "plays", "off"]);
    expect(score.dropouts[0]).toMatchObject({ parts: ["kit"], silent: false, landing: 10.434782609 });
  });

  test("hears nothing but the count-in where no part sounds", () => {
    const mixes = [{ name: "alone", parts: { kit: "off", bass: "off" } }] as const;
    const score = scoreOf(rungs({ ...drillOf(jetty()), mixes }).at(0));
    expect(score.audible).toEqual([{ from: -2.608695652, to: 0 }]);
    expect(score.dropouts[0]).toMatchObject({ parts: [], silent: true });
  });

  test("plays a pick-up before bar 1 and before every phrase, swung: the second eighth of 2:1 falls on two thirds of the beat", () => {
    const document = {
      ...jetty({ variant: undefined, dropout: undefined }),
      pattern: "shuffle",
      tempo: 60,
      phrases: 2,
    };
    const { expected, swing, bars } = first(document);
    expect(swing).toBe("2:1 1/8");
    expect(expected.slice(0, 5).map(({ position, at, bar }) => [position, at, bar])).toEqual([
      ["-1/4", -1, 0],
      ["-1/8", -0.333333333, 0],
      ["0", 0, 1],
      ["1/8", 0.666666667, 1],
      ["1/4", 1, 1],
    ]);
    expect(expected.filter(({ bar }) => bar === 2).map(({ position }) => position)).toEqual([
      "1",
      "5/4",
      "3/2",
      "7/4",
      "15/8",
    ]);
    expect(bars.map(({ bar, phrase }) => [bar, phrase])).toEqual([
      [1, 1],
      [2, 1],
      [3, 2],
      [4, 2],
      [5, 3],
    ]);
  });

  test("moves notes, chords and the scale of open bars to the rung's key", () => {
    const { expected, key, bars, open } = first(
      jetty({ key: "G dorian", open: { bars: [2], scale: "D minor pentatonic" } }),
    );
    expect(key).toBe("G dorian");
    expect(expected.slice(0, 3).map(({ pitch }) => pitch)).toEqual(["G4", "Bb4", "D5"]);
    expect(bars.slice(0, 4).map(({ chord }) => chord)).toEqual(["Gm7", "C7", "C7", "D7 Gm7"]);
    // G minor pentatonic: G Bb C D F.
    expect(open[0]).toMatchObject({
      scale: "G minor pentatonic",
      pitchClasses: [7, 10, 0, 2, 5],
      bars: [2],
      subdivision: 0.326086957,
    });
  });

  test("lists when each subdivision of open bars falls", () => {
    const straight = first(jetty({ open: { bars: [2], subdivision: "1/8 note" } }));
    const { open, beat } = straight;
    expect(open[0]!.grid).toHaveLength(8);
    open[0]!.grid!.forEach((at, k) => {
      expect(at).toBeCloseTo(open[0]!.from + (k * beat) / 2, 6);
    });
  });

  test("expects nothing in open bars, joins neighbouring ones, and never opens the outro", () => {
    const score = first(jetty({ open: { bars: [1, 4] }, tolerance: { drift: "9 %" } }));
    expect(score.open.map(({ bars }) => bars)).toEqual([[1], [4, 5], [8]]);
    const bars = new Set(score.expected.map(({ bar }) => bar));
    expect([...bars]).toEqual([2, 3, 6, 7, 9]);
    const listen = first(jetty({ open: { bars: [1, 4] }, tolerance: { drift: "9 %" } }), "listen");
    expect(listen.expected).toEqual(score.expected);
  });

  test("what is written in an open bar is heard when the student's part plays, and in no other mix", () => {
    const mixes = { play: {}, listen: { lead: "plays" }, guide: { lead: "drops" } } as const;
    const open = jetty({ open: { bars: [2] }, tolerance: { drift: "9 %" }, mixes });
    const inBars = (mix: string, document: DrillDocument): readonly string[] =>
      first(document, mix)
        .parts.find(({ student }) => student)!
        .notes.map(({ position, pitch }) => `${position} ${pitch}`);
    expect(inBars("listen", open)).toEqual(inBars("listen", jetty({ mixes })));
    expect(inBars("listen", open)).toEqual(expect.arrayContaining(["1 G4", "3/2 B4"]));
    expect(inBars("guide", open)).not.toEqual(expect.arrayContaining(["1 G4"]));
    expect(inBars("play", open)).toEqual([]);
  });

  test("resolves spans by the meter in force: a bar and a half before the end of 4/4 4/4 3/4", () => {
    const document = {
      ...jetty({ variant: undefined }),
      pattern: "tide",
      dropout: { length: "1 1/2 bars" },
      tempo: 60,
    };
    // The 3/4 bar (2 to 11/4) and half of the 4/4 bar before it.
    expect(first(document).dropouts[0]).toMatchObject({ fromPosition: "3/2", toPosition: "11/4", bars: [2, 3] });
  });

  test("ends without landing where no outro follows the last silence", () => {
    const { dropouts, duration } = first(jetty({ outro: "none" }));
    expect(dropouts.map(({ landing }) => landing)).toEqual([10.434782609, null]);
    expect(dropouts[1]!.to).toBe(duration);
  });

  test("is a score as the schema describes it, and the same after JSON", () => {
    const score = first(jetty({ open: { bars: [2] }, key: "G dorian" }));
    const read = checkScore(JSON.parse(JSON.stringify(score)));
    expect(read.ok).toBe(true);
    expect(JSON.stringify(first(jetty({ open: { bars: [2] }, key: "G dorian" })))).toBe(JSON.stringify(score));
  });
});
