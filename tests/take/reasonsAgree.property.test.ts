import fc from "fast-check";
import { expect, test } from "vitest";
import type { DropoutFinding, Finding, Reason } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { DRIFTER, GRADE_NAMES } from "../reference/players/grades.js";
import { adds, misses } from "../reference/players/habits/accidents.js";
import { landingAlone, landingLeftOut, landingMoved } from "../reference/players/habits/landings.js";
import { doubledNotes, fills, graceNotes } from "../reference/players/habits/ornaments.js";
import { playsSome, reactsToReturn, restsInSilences, stopsHalfWay } from "../reference/players/habits/silences.js";
import { slip } from "../reference/players/habits/slips.js";
import { randomPitches } from "../reference/players/habits/wrongNotes.js";
import * as laws from "../reference/players/laws/index.js";
import { materials } from "../reference/players/materials.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";
import { stageOf } from "../reference/players/stage.js";

const OFTEN = ["one", "every"] as const;
const HABITS: readonly Habit[] = [
  misses(3),
  misses(30),
  adds(5),
  graceNotes(25),
  doubledNotes(25),
  fills(30),
  randomPitches,
  restsInSilences,
  stopsHalfWay,
  reactsToReturn,
  playsSome(1, 4),
  playsSome(1, 2),
  ...OFTEN.flatMap((often) => [
    landingLeftOut(often),
    landingAlone(often, 250),
    landingAlone(often, -330),
    landingMoved(often, -330, 3),
    landingMoved(often, 250, 3),
    ...(["skips", "waits"] as const).flatMap((way) =>
      (["half a beat", "a beat", "half a bar", "a bar"] as const).flatMap((size) =>
        (["in the silence", "at the landing"] as const).flatMap((place) =>
          ([1, "kept"] as const).map((end) => slip({ way, size, place, end, often })),
        ),
      ),
    ),
  ]),
];
const LAWS = Object.values(laws).filter((law) => law !== laws.heldOut);

const MATERIALS = materials();
const named = <Named extends { readonly name: string }>(all: readonly Named[], name: string): Named =>
  all.find((each) => each.name === name)!;

// By their names, so that a counterexample can be read.
const player = fc.tuple(
  fc.constantFrom(...MATERIALS.map(({ name }) => name)),
  fc.array(fc.constantFrom(...HABITS.map(({ name }) => name)), { maxLength: 2 }),
);
const terms = {
  law: fc.constantFrom(...LAWS.map(({ name }) => name)),
  temper: fc.constantFrom(...GRADE_NAMES, DRIFTER),
  pitched: fc.boolean(),
  seed: fc.nat(1e6),
};

interface Told {
  readonly ms?: unknown;
  readonly side?: unknown;
  readonly around?: unknown;
  readonly played?: unknown;
  readonly notes?: unknown;
}

const sideOf = (value: number): string => (value < 0 ? "early" : "late");
const landedAt = ({ landing }: DropoutFinding): number | undefined =>
  landing !== null && "ms" in landing ? landing.ms : undefined;

/** What a reason says of a silence, against the figures of that silence: the contradictions, in words. */
const CONTRADICTIONS: Readonly<Record<string, (silence: DropoutFinding, told: Told) => boolean>> = {
  LANDING_LEFT_OUT: ({ landing, verdict }, { around }) =>
    landing === null ||
    !("leftOut" in landing) ||
    verdict === "beyond" ||
    (around === "in-time") !== (verdict === "within"),
  LANDED_OFF: (silence, { ms, side }) => {
    const landed = landedAt(silence) ?? 0;
    return silence.verdict !== "beyond" || Math.abs(Math.abs(landed) - Number(ms)) > 1 || sideOf(landed) !== side;
  },
  SLIPPED: ({ slip: found, verdict }, { side }) =>
    verdict === "within" || found === null || found === undefined || sideOf(found.beats) !== side,
  // Every rung of these has a limit for the landing.
  STILL_AWAY: (silence, { side }) => {
    const landed = landedAt(silence);
    return silence.verdict === "within" || (landed !== undefined && (Math.abs(landed) < 60 || sideOf(landed) !== side));
  },
  MAYBE_SLIPPED: ({ verdict }) => verdict !== "unclear",
  TOO_FEW_NOTES: ({ verdict, played }, told) =>
    verdict !== "unclear" || played!.notes !== told.played || played!.of !== told.notes,
  POORLY_EXPLAINED: ({ verdict }) => verdict !== "unclear",
  TWO_PAIRINGS: ({ verdict }) => verdict !== "unclear",
  NOTES_TOO_CLOSE: ({ verdict }) => verdict !== "unclear",
  DOUBLE_RATE: ({ verdict }) => verdict !== "unclear",
  HALF_RATE: ({ verdict }) => verdict !== "unclear",
};

function contradictionsIn({ reasons, dropouts, verdict }: Finding): readonly Reason[] {
  return reasons.filter(({ code, dropout, message }) => {
    if (dropout === undefined) return verdict !== "unclear" || dropouts.some((each) => each.verdict !== "unclear");
    return CONTRADICTIONS[code]!(dropouts[dropout]!, (message?.parameters ?? {}) as Told);
  });
}

/** A slip is in the drift: the two may not have different sides by more than the drift's own uncertainty. */
function slipsAgainstDrift({ dropouts }: Finding): readonly DropoutFinding[] {
  return dropouts.filter(({ slip: found, driftMs, standardErrorMs, landing }) => {
    if (found === null || found === undefined || typeof driftMs !== "number" || typeof standardErrorMs !== "number")
      return false;
    return landing !== null && "ms" in landing && found.beats * driftMs < 0 && Math.abs(driftMs) > 3 * standardErrorMs;
  });
}

interface Terms {
  readonly law: string;
  readonly temper: (typeof GRADE_NAMES)[number] | typeof DRIFTER;
  readonly pitched: boolean;
  readonly seed: number;
}

function playedBy(material: string, habits: readonly string[], { law, temper, pitched, seed }: Terms): Finding {
  const { score } = named(MATERIALS, material);
  const fitting = habits
    .map((name) => named(HABITS, name))
    .filter(({ fits }) => fits === undefined || fits(stageOf(score), score));
  const { take } = perform(score, { law: named(LAWS, law), temper, habits: fitting }, ["agree", seed]);
  return assess(score, pitched ? take : withoutPitch(take));
}

test("no reason of a finding contradicts the figures of its silence, and none is told twice, whatever the player does", () => {
  fc.assert(
    fc.property(player, fc.record(terms), ([material, habits], how) => {
      const finding = playedBy(material, habits, how);
      expect(contradictionsIn(finding)).toEqual([]);
      expect(slipsAgainstDrift(finding)).toEqual([]);
      const told = finding.reasons.map(({ code, dropout }) => `${code} ${dropout}`);
      expect(new Set(told).size).toBe(told.length);
    }),
    { numRuns: 200 },
  );
});

test("who rushes into a landing is told that, and not that the landing was left out", () => {
  const sentences = MATERIALS.flatMap(({ name, score }) =>
    [0, 1, 2].map((seed) => {
      const habits = [landingMoved("one", -330, 3)];
      const { take } = perform(score, { law: laws.phaseCorrection, temper: "seasoned", habits }, [
        "rushes",
        name,
        seed,
      ]);
      return assess(score, take);
    }),
  );
  const beyond = sentences.filter(({ verdict }) => verdict === "beyond");
  for (const { sentence } of beyond) expect(sentence).not.toContain("left out");
  expect(beyond.length).toBeGreaterThan(20);
});
