import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import {
  type Belief,
  type Demand,
  demandOf,
  forecast,
  observationOf,
  priorBelief,
  updateBelief,
} from "../../lib/plan/index.js";
import { type Asks, asksOf, newStudent, playAs } from "../bench/policies/student.js";

/** A drill with a rung for each length of silence, 2, 4, 8 and 16 beats. */
const COURSE = `
curriculum: quayside-lengths
edition: 1.0.0
title: Quayside lengths
patterns:
  dockside:
    meter: 4/4
    bars: 8
    parts:
      kit: { voices: { hat: "x-x-x-x- | ...", kick: "x---x--- | ..." } }
      lead: { notes: "1/4 D4 D4 F4 A4 | ..." }
drills:
  lengths:
    title: Lengths
    pattern: dockside
    student: lead
    dropout: { at: end, parts: [kit] }
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, landing: 150 ms, steadiness: 40 ms }
    gate: { clean: 3, of: 4 }
    ladders:
      - dropout: [1/2 bar, 1 bar, 2 bars, 4 bars]
    tempo: 96
`;

const read = readCurriculum(COURSE, { file: "lengths", readFile: () => undefined });
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const all = rungs(read.value.drills[0]!);
const asked = Array.from({ length: all.count }, (_, i): { readonly demand: Demand; readonly asks: Asks } => {
  const score = scoreOf(all.at(i));
  return { demand: demandOf(score), asks: asksOf(score) };
});

/** In what way somebody fails in the longest silence: lost by half a beat or more, a little beyond what is tolerated, or only with the note after it. */
export type Failing = "lost" | "hesitates" | "lands wrong";

/** Forecasts of one who can do all lengths but the longest: of each length, before each take of it. */
export interface Followed {
  /** Chance of a clean take of the longest silence, before the first take of it and after each. */
  readonly longest: readonly number[];
  /** Mean squared error of the forecasts of all shorter ones. */
  readonly brierShorter: number;
  readonly belief: Belief;
}

/** The demand of the longest silence. */
export const LONGEST: Demand = asked.at(-1)!.demand;

/** Follows a player written apart from the library, who plays each length in turn; the longest from their tenth take on, and fails in it `fails` times, then is clean `cleans` times. */
export function follow(seed: string, failing: Failing, { fails, cleans }: { fails: number; cleans: number }): Followed {
  const student = {
    ...newStudent(seed, "equal"),
    floor: 6,
    clock: 7,
    tempo: 0,
    slips: 0.02,
    excess: { steady: 0.1, short: 0.1, long: 0.1 },
  };
  const chance = random(`${seed} plays`);
  let belief = priorBelief();
  const longest: number[] = [];
  let [squares, shorter] = [0, 0];
  for (let n = 0; longest.length < fails + cleans; n++) {
    const which = n < 9 ? n % 3 : n % 4;
    const { asks, demand } = asked[which]!;
    const isLongest = which === 3;
    const shown =
      isLongest && longest.length < fails
        ? failed(failing, asks, chance.uniform())
        : isLongest
          ? cleanly()
          : playAs(student, asks, chance);
    const said = forecast(belief, demand).clean;
    if (isLongest) longest.push(said);
    else {
      squares += (said - (shown.verdict === "within" ? 1 : 0)) ** 2;
      shorter++;
    }
    belief = updateBelief(belief, observationOf(demand, shown));
  }
  return { longest: [...longest, forecast(belief, LONGEST).clean], brierShorter: squares / shorter, belief };
}

function cleanly(): Parameters<typeof observationOf>[1] {
  return { verdict: "within", measured: { driftMs: 20, standardErrorMs: 4, accompaniedMs: 7 } };
}

function failed(failing: Failing, { silences }: Asks, lot: number): Parameters<typeof observationOf>[1] {
  const { ms, beats, limit } = silences[0]!;
  const size = { lost: (ms / beats) * (0.5 + lot), hesitates: 1.3 * limit, "lands wrong": 20 }[failing];
  return { verdict: "beyond", measured: { driftMs: lot < 0.5 ? size : -size, standardErrorMs: 4, accompaniedMs: 7 } };
}
