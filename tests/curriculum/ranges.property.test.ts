import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { type Phrase, type Problem, problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { INSTRUMENTS } from "../../lib/pattern/index.js";

type Player = string | { instrument: string; octave?: number; range?: string };
interface DrillWritten {
  notes: string;
  keys: readonly string[];
  own?: readonly Player[];
}
interface Written {
  players: readonly Player[];
  drills: readonly DrillWritten[];
}

/** A course whose drills have each a riff of their own. */
function textOf({ players, drills }: Written): string {
  const patterns = drills.map(({ notes }, i) => [
    `riff-${i}`,
    { meter: "4/4", bars: 1, key: "C major", parts: { kit: { voices: { hat: "xxxx" } }, lead: { notes } } },
  ]);
  const named = drills.map(({ keys, own }, i) => [
    `drill-${i}`,
    {
      pattern: `riff-${i}`,
      student: "lead",
      tempo: 90,
      phrases: 8,
      ...(keys.length === 0 ? {} : { ladders: [{ key: keys }] }),
      ...(own === undefined ? {} : { players: own }),
      tolerance: { steadiness: "40 ms" },
    },
  ]);
  const course = { curriculum: "ranges", edition: "1.0.0", title: "Ranges", players };
  return stringify({ ...course, patterns: Object.fromEntries(patterns), drills: Object.fromEntries(named) });
}

/** What is said of ranges. Nothing else may be wrong with the course, so that a remedy that breaks it is noticed. */
function rangesIn(written: Written): readonly Problem[] {
  const found = problemsIn(readCurriculum(textOf(written), { file: "ranges.yaml", readFile: () => undefined }));
  expect(found.filter(({ severity }) => severity === "error")).toEqual([]);
  return found.filter(({ code }) => code.startsWith("WRITTEN_"));
}

/** The place of a problem: the drill it speaks of, the number of the player, and whether the player is the course's. */
function placeOf({ where, words }: Problem): { drill: number; player: number } {
  const [, drill, player] = /^(?:\/drills\/drill-(\d+))?\/players\/(\d+)$/.exec(where.pointer ?? "")!;
  return { drill: Number(drill ?? String(words!.message!.parameters.drill).slice(6)), player: Number(player) };
}

/** The course after somebody did what a remedy says. */
function mended(course: Written, found: Problem): Written {
  const { key, parameters } = found.words!.remedy!;
  const { drill, player } = placeOf(found);
  const isOwn = course.drills[drill]!.own !== undefined;
  const withDrill = (change: Partial<DrillWritten>): Written => ({
    ...course,
    drills: course.drills.map((each, i) => (i === drill ? { ...each, ...change } : each)),
  });
  const withPlayers = (change: (players: readonly Player[]) => readonly Player[]): Written =>
    isOwn ? withDrill({ own: change(course.drills[drill]!.own!) }) : { ...course, players: change(course.players) };
  switch (key) {
    case "drill-problem.range-remedy-octave":
      return withPlayers((players) =>
        players.map((each, i) =>
          i === player
            ? { ...(typeof each === "string" ? { instrument: each } : each), octave: parameters.octave as number }
            : each,
        ),
      );
    case "curriculum-problem.players-of-drill-remedy": {
      expect(parameters.drill).toBe(`drill-${drill}`);
      return withDrill({ own: (parse(parameters.text as string) as { players: Player[] }).players });
    }
    case "drill-problem.range-remedy-none":
      return withDrill({ own: (course.drills[drill]!.own ?? course.players).filter((_, i) => i !== player) });
    default: {
      const moves = new Map(
        ((parameters.moves ?? []) as readonly Phrase[]).map((move) => [move.parameters.from, move.parameters.to]),
      );
      const leftOut = (parameters.keys ?? []) as readonly string[];
      const { keys } = course.drills[drill]!;
      for (const named of [...moves.keys(), ...leftOut])
        expect(keys.length === 0 ? ["C major"] : keys).toContain(named);
      return withDrill({
        keys: (keys.length === 0 ? ["C major"] : keys)
          .filter((each) => !leftOut.includes(each))
          .map((each) => (moves.get(each) as string | undefined) ?? each),
      });
    }
  }
}

/** Asks that a remedy helps, and that the octave of the part is the remedy wherever one octave holds in every key. */
function gone(course: Written, found: Problem): void {
  const { drill, player } = placeOf(found);
  const leftIn = (changed: Written): readonly string[] =>
    rangesIn(changed)
      .filter((each) => placeOf(each).drill === drill && placeOf(each).player === player)
      .map(({ message }) => message);
  const { key } = found.words!.remedy!;
  if (!key.endsWith("-none")) expect(leftIn(mended(course, found)), found.remedy).toEqual([]);
  if (!key.startsWith("drill-problem.range-remedy-") || key.endsWith("-octave")) return;
  for (let octave = -4; octave <= 4; octave++) {
    const players = (course.drills[drill]!.own ?? course.players).map((each) =>
      typeof each === "string" ? { instrument: each, octave } : { ...each, octave },
    );
    const alone = { players, drills: [{ ...course.drills[drill]!, own: players }] };
    const left = rangesIn(alone).filter((each) => placeOf(each).player === player);
    expect(left, `octave ${octave}`).not.toEqual([]);
  }
}

const FLUTE_IN_TWO: DrillWritten = { notes: "1/4 C4 E4 G4 C5", keys: ["C major", "G major"] };

describe("what to do about a range", () => {
  test("where no octave of the part fits in every key, the key is named with what to write in its place", () => {
    const course: Written = {
      players: ["trumpet"],
      drills: [{ notes: "1/4 A3 E4 A4 C5", keys: ["C major", "D major", "Eb major octave higher"] }],
    };
    const found = rangesIn(course);
    expect(found.map(({ message, remedy }) => [message, remedy])).toMatchInlineSnapshot(`
      [
        [
          "in the drill drill-0: in Eb major octave higher, 1 note is too high for trumpet: its highest written note is D6, the part goes up to written F6",
          "no octave of the part fits in every key; under key of the drill, write Eb major in place of Eb major octave higher",
        ],
      ]
    `);
    for (const each of found) gone(course, each);
    const repeated = {
      ...course,
      drills: [{ ...course.drills[0]!, keys: ["C major", "Eb major", "Eb major octave higher"] }],
    };
    expect(rangesIn(repeated).map(({ remedy }) => remedy)).toMatchInlineSnapshot(`
      [
        "no octave of the part fits in every key; under key of the drill, leave out Eb major octave higher, or leave out trumpet under players",
      ]
    `);
    for (const each of rangesIn(repeated)) gone(repeated, each);
  });

  test("an octave of the part is said where it fits in every key", () => {
    const course: Written = { players: ["flute"], drills: [FLUTE_IN_TWO] };
    const found = rangesIn(course);
    expect(found.map(({ code, remedy }) => [code, remedy])).toEqual([
      ["WRITTEN_BELOW_RANGE", "shift the part up: octave 1"],
    ]);
    for (const each of found) gone(course, each);
  });

  test("the players of a course are moved where that suits every drill, else one drill has players of its own", () => {
    const low: DrillWritten = { notes: "1/4 C3 E3 G3 C4", keys: [] };
    const high: DrillWritten = { notes: "1/4 C5 E6 G6 B6", keys: [] };
    const both: Written = { players: ["trumpet", { instrument: "flute" }], drills: [low, high] };
    const found = rangesIn(both);
    expect(found.map(({ remedy }) => remedy)).toMatchInlineSnapshot(`
      [
        "no octave fits in every drill; give drill drill-0 players of its own: players: [{ instrument: trumpet, octave: 1 }, { instrument: flute, octave: 1 }]",
        "no octave fits in every drill; give drill drill-1 players of its own: players: [{ instrument: trumpet, octave: -1 }, flute]",
        "no octave fits in every drill; give drill drill-0 players of its own: players: [{ instrument: trumpet, octave: 1 }, { instrument: flute, octave: 1 }]",
      ]
    `);
    for (const each of found) gone(both, each);
  });

  test("whatever the instruments, keys and riffs, the problem is gone when its remedy is done", () => {
    const named = Object.keys(INSTRUMENTS).filter((name) => !/drum|percussion|kit/i.test(name));
    const player = fc.record(
      {
        instrument: fc.constantFrom(...named),
        octave: fc.integer({ min: -1, max: 1 }),
        range: fc.constantFrom("beginners", "full"),
      },
      { requiredKeys: ["instrument"] },
    );
    const pitch = fc.tuple(fc.constantFrom(..."CDEFGAB"), fc.integer({ min: 2, max: 6 })).map(([a, b]) => `${a}${b}`);
    const tonic = fc.constantFrom("C", "D", "Eb", "F", "G", "A", "Bb");
    const key = fc
      .tuple(tonic, fc.constantFrom("", " octave higher", " octave lower"))
      .map(([name, octave]) => `${name} major${octave}`);
    const drill = fc.record({
      notes: fc.array(pitch, { minLength: 4, maxLength: 4 }).map((notes) => `1/4 ${notes.join(" ")}`),
      keys: fc.uniqueArray(key, { maxLength: 4 }),
    });
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(
        fc.record({
          players: fc.array(player, { minLength: 1, maxLength: 3 }),
          drills: fc.array(drill, { minLength: 1, maxLength: 3 }),
        }),
        (course) => {
          for (const each of rangesIn(course)) {
            const key = each.words!.remedy!.key;
            seen.set(key, (seen.get(key) ?? 0) + 1);
            gone(course, each);
          }
        },
      ),
      { numRuns: 30 },
    );
    expect([...seen.keys()].sort(), JSON.stringify([...seen])).toHaveLength(6);
  });
});
