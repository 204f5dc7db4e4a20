import { describe, expect, test } from "vitest";
import { assess, type Finding, type Score, type Take } from "../../lib/index.js";
import { misses } from "../reference/players/habits/accidents.js";
import { landingLeftOut } from "../reference/players/habits/landings.js";
import { graceNotes } from "../reference/players/habits/ornaments.js";
import { restsInSilences } from "../reference/players/habits/silences.js";
import { randomPitches } from "../reference/players/habits/wrongNotes.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { luckOf } from "../reference/players/luck.js";
import { type Material, materials } from "../reference/players/materials.js";
import { anotherTune, atAnotherTempo, randomOnsets, sameRhythm, speech } from "../reference/players/notTheRiff.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";
import { sample } from "../samples.js";
import { plainScore, scatteredBy, takeOf as warped } from "./scores.js";

const ROUNDS = sample({ suite: 1, proof: 46 });
const RUNGS = materials();
const able = { law: phaseCorrection, temper: "able" } as const;
const plays = (score: Score, address: readonly (string | number)[], habits: readonly Habit[] = []): Take =>
  perform(score, { ...able, habits }, address).take;

/** Takes of every material in turn; none where the material has none of the kind. */
function takesOf(
  name: string,
  play: (material: Material, address: readonly (string | number)[]) => Take | undefined,
): { readonly material: Material; readonly take: Take }[] {
  return Array.from({ length: ROUNDS }, (_, round) => round).flatMap((round) =>
    RUNGS.flatMap((material) => {
      const take = play(material, ["not the riff", name, material.name, round]);
      return take === undefined ? [] : [{ material, take }];
    }),
  );
}

const codesOf = ({ reasons }: Finding): string[] => [...new Set(reasons.map(({ code }) => code))];
const counts = ({ verdict, dropouts }: Finding): boolean =>
  verdict !== "unclear" || dropouts.some((each) => each.verdict !== "unclear");

describe("What is not the riff", () => {
  test.each([
    ["random onsets", ["NOT_THIS_RIFF"], ({ score }: Material, address) => randomOnsets(score, luckOf(...address))],
    // Speech may come near the riff at some tempo: it is not counted either way.
    ["speech", ["NOT_THIS_RIFF", "ANOTHER_TEMPO"], ({ score }: Material, address) => speech(score, luckOf(...address))],
    [
      "the riff at 84 for 76",
      ["ANOTHER_TEMPO"],
      ({ score }: Material, address) => plays(atAnotherTempo(score, 76 / 84), address),
    ],
    [
      "the riff at 76 for 84",
      ["ANOTHER_TEMPO"],
      ({ score }: Material, address) => plays(atAnotherTempo(score, 84 / 76), address),
    ],
    [
      "the riff 4 % slower",
      ["ANOTHER_TEMPO"],
      ({ score }: Material, address) => plays(atAnotherTempo(score, 1.04), address),
    ],
    [
      "the other variant",
      ["OTHER_NOTES"],
      ({ otherVariant }: Material, address) => otherVariant && plays(otherVariant, address),
    ],
  ] as [string, string[], (material: Material, address: readonly (string | number)[]) => Take | undefined][])(
    "%s is named %s, and nothing of it is counted, with pitches and without",
    (name, codes, play) => {
      for (const { material, take } of takesOf(name, play))
        for (const heard of [take, withoutPitch(take)]) {
          const finding = assess(material.score, heard);
          expect(counts(finding), `${material.name} ${finding.sentence}`).toBe(false);
          expect(
            codes.some((code) => codesOf(finding).includes(code)),
            `${material.name} ${finding.sentence}`,
          ).toBe(true);
        }
    },
  );

  test("another tune is not counted when its pitches are heard, though its rhythm be the same", () => {
    for (const { material, take } of takesOf("another tune", ({ score }, address) =>
      plays(anotherTune(score, luckOf(...address)), address),
    )) {
      const finding = assess(material.score, take);
      expect(counts(finding), `${material.name} ${finding.sentence}`).toBe(false);
    }
  });

  test("the riff's rhythm with other pitches is not counted, whether all of them are heard or one in three", () => {
    for (const { material, take } of takesOf("other pitches", ({ score }, address) =>
      plays(sameRhythm(score, luckOf(...address)), address),
    )) {
      const every = assess(material.score, take);
      expect(codesOf(every), `${material.name} ${every.sentence}`).toContain("OTHER_NOTES");
      expect(counts(every), `${material.name} ${every.sentence}`).toBe(false);
    }
    const third = takesOf("other pitches", ({ score }, address) =>
      plays(sameRhythm(score, luckOf(...address)), address),
    ).map(({ material, take }) => {
      const onsets = take.onsets.map((onset, k) => (k % 3 > 0 && typeof onset === "object" ? onset.at : onset));
      return assess(material.score, { ...take, onsets });
    });
    expect(third.filter(counts).length, third.map(({ sentence }) => sentence).join("\n")).toBeLessThanOrEqual(
      Math.ceil(0.1 * third.length),
    );
  });

  test("another variant is told by its settings when its score is given", () => {
    const { score, otherVariant } = RUNGS.find(({ name }) => name === "even eighths, 1 bar")!;
    const take = plays(otherVariant!, ["not the riff", "told"]);
    expect(assess(score, take, { others: [otherVariant!] }).sentence).toBe(
      "What was played is not this riff (riff busy) but another one (riff plain).",
    );
    // The riff itself stays the riff, whatever else it might have been.
    expect(codesOf(assess(score, plays(score, ["not the riff", "itself"]), { others: [otherVariant!] }))).toEqual([]);
  });

  test("another tempo is told in beats a minute, near ones with a decimal", () => {
    const { score } = RUNGS.find(({ name }) => name === "quarters, 1/2 bar")!;
    const at = (factor: number): string =>
      assess(score, plays(atAnotherTempo(score, factor), ["not the riff", "tempo"])).sentence;
    expect(at(84 / 76)).toBe(
      "Your take runs at 76 beats a minute throughout, and this rung at 84: did you play along with the right band?",
    );
    expect(at(84 / 100)).toMatch(/^Your take runs at 100 beats a minute throughout, and this rung at 84:/);
  });
});

describe("What is the riff, though not as written", () => {
  test.each([
    ["1 in 10 left out", [misses(10)]],
    ["3 in 10 left out", [misses(30)]],
    ["grace notes on a quarter of the notes", [graceNotes(25)]],
    ["every landing left out", [landingLeftOut("every")]],
    ["a player who rests in the silences", [restsInSilences]],
    ["pitches at random", [randomPitches]],
  ] as [string, Habit[]][])("%s is no other tune, variant or tempo", (name, habits) => {
    const other = new Set(["NOT_THIS_RIFF", "ANOTHER_TEMPO", "OTHER_NOTES"]);
    const takes = takesOf(name, ({ score }, address) => plays(score, address, habits));
    const wrong = takes.filter(({ material, take }) =>
      [take, withoutPitch(take)].some((heard) =>
        codesOf(assess(material.score, heard)).some((code) => other.has(code)),
      ),
    );
    // Three notes of ten left out by chance look like a habit in one take of fifty or so.
    expect(wrong.length, wrong.map(({ material }) => material.name).join()).toBeLessThanOrEqual(takes.length * 0.03);
  });

  test("a take a third of a second late throughout is the riff, pitches or not", () => {
    for (const { material, take } of takesOf(
      "late",
      ({ score }, address) => perform(score, { ...able, recording: { delay: 0.3 } }, address).take,
    ))
      expect(codesOf(assess(material.score, take)), material.name).not.toContain("OTHER_NOTES");
  });
});

/** Takes that were counted, or had a wrong name, when slips and habits were allowed to explain anything: found among a thousand of each kind. */
describe("what came near the riff by chance", () => {
  test.each([
    ["another tune", "swung, 1 1/2 bars", 18],
    ["another tune", "even eighths, 1 bar", 24],
    ["another tune", "even eighths, 1 bar", 36],
    ["a", "compound, 1 bar", 25],
    ["a", "sevens, 3/8", 24],
    ["b", "moving, 1 bar", 0],
  ] as const)("another tune, %s, on %s, take %i is no slip", (from, name, take) => {
    const { score } = RUNGS.find((each) => each.name === name)!;
    const address = [...(from === "another tune" ? [] : [from]), "not the riff", "another tune", name, take];
    const finding = assess(score, plays(anotherTune(score, luckOf(...address)), address));
    expect(counts(finding), finding.sentence).toBe(false);
    expect(
      codesOf(finding).some((code) => ["OTHER_NOTES", "NOT_THIS_RIFF"].includes(code)),
      finding.sentence,
    ).toBe(true);
  });

  test.each([
    ["swung busy, 2 bars", ["not the riff", "speech", "swung busy, 2 bars", 35]],
    ["swung busy, 2 bars", ["not the riff", "speech", "swung busy, 2 bars", 42]],
    ["swung busy, 2 bars", ["a", "not the riff", "speech", "swung busy, 2 bars", 38]],
    ["swung busy, 2 bars", ["b", "not the riff", "speech", "swung busy, 2 bars", 31]],
    ["compound, 1 bar", ["not the riff", "speech", "compound, 1 bar", 5]],
  ] as const)("speech on %s, %j, fits no better than chance", (name, address) => {
    const { score } = RUNGS.find((each) => each.name === name)!;
    const take = speech(score, luckOf(...address));
    for (const heard of [take, withoutPitch(take)]) {
      const finding = assess(score, heard);
      expect(counts(finding), finding.sentence).toBe(false);
      expect(codesOf(finding)).toContain("NOT_THIS_RIFF");
    }
  });
});

test("a dense line at a tempo of one's own is not taken for a line with slips", () => {
  const { score } = RUNGS.find(({ name }) => name === "moving sixteenths, 2 bars")!;
  for (const take of [2, 3]) {
    const finding = assess(score, plays(atAnotherTempo(score, 1.04), ["quay", "the riff 4 % slower", "dense", take]));
    expect(codesOf(finding)).toEqual(["ANOTHER_TEMPO"]);
  }
});

describe("a take with few notes of accompaniment", () => {
  test("who takes up the beat over the first notes and then drifts alone is at no other tempo", () => {
    const short = plainScore({ beat: 0.6, accompanied: 8, silent: 16, phrases: 1, outro: 0 });
    const { from } = short.dropouts[0]!;
    // A quarter of a second late at first, half of it taken back on each beat; then 6 % fast.
    const take = warped(short, (at) => at + 0.25 * 0.5 ** (at / short.beat) - 0.06 * Math.max(0, at - from));
    const finding = assess(short, scatteredBy(take, 10, "takes up the beat"));
    expect(finding.reasons.map(({ code }) => code)).not.toContain("ANOTHER_TEMPO");
    expect(finding.dropouts[0]!.verdict).toBe("beyond");
  });
});
