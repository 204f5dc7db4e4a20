import type { RehearsalArrival, RehearsalDrill, RehearsalRung } from "../../schema/index.js";
import { quantilesOf } from "../summary/quantiles.js";
import { LONG_STAY, type RungTally, type Tally } from "../summary/tally.js";
import { UNCLEAR, WITHIN } from "../table/outcome.js";
import { KINDS, type ReportFrame } from "./frame.js";

/** Share of takes, those unclear left aside, that have to be beyond tolerance for a rung to teach anything: our choice. */
const CAN_FAIL = 0.005;
/** Odds are of chances no nearer to 0 and 1 than this: the true chances are counted in thousandths. */
const NEAREST = 0.0005;

/** What the rungs of drill number `d` asked; the first of the kinds is all students. */
export function drillReport(
  { drill, title, rungs }: ReportFrame["drills"][number],
  { kinds, d }: { readonly kinds: readonly Tally[]; readonly d: number },
): RehearsalDrill {
  let before: number | undefined;
  return {
    drill,
    ...(title === undefined ? {} : { title }),
    rungs: rungs.map((rung, r) => {
      const tallies = kinds.map((kind) => kind.drills[d]!.rungs[r]!);
      const said = rungReport(tallies, { rung, number: r + 1, before });
      const [all] = said.arrival;
      before = all!.reached === 0 ? undefined : oddsOf(all!.clean);
      return said;
    }),
  };
}

function rungReport(
  tallies: readonly RungTally[],
  { rung, number, before }: { readonly rung: string; readonly number: number; readonly before: number | undefined },
): RehearsalRung {
  const all = tallies[0]!;
  const [within, unclear, drift, landing, steadiness, notes] = all.outcomes as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const arrival = tallies.map(arrivalOf);
  const harder =
    before === undefined || all.stays === 0 ? {} : { harder: rounded(before - oddsOf(arrival[0]!.clean), 2) };
  const long = [...all.passTakes].reduce((sum, [takes, times]) => sum + (takes > 2 * LONG_STAY ? times : 0), 0);
  return {
    number,
    rung,
    reached: all.reached,
    arrival,
    ...harder,
    takes: quantilesOf(all.passTakes, all.reached),
    outcomes: { within, unclear, drift, landing, steadiness, notes },
    wentBack: all.wentBack,
    stayed: all.stayed,
    stuck: all.stuck,
    long: Math.min(all.reached, long + all.stuck),
    letOn: { times: all.letOnUnready, of: all.letOn },
    held: { times: all.ableHeld, of: all.ableStays },
    teaches: tallies.some(
      ({ outcomes }) =>
        beyondIn(outcomes) > CAN_FAIL * (outcomes[WITHIN]! + beyondIn(outcomes)) || isUnplayed(outcomes),
    ),
  };
}

function arrivalOf({ reached, stays, arrivalChances }: RungTally, kind: number): RehearsalArrival {
  return { kind: KINDS[kind]!, reached, clean: stays === 0 ? 0 : rounded(arrivalChances / stays / 1000, 3) };
}

function beyondIn(outcomes: readonly number[]): number {
  return outcomes.reduce((sum, count, i) => sum + (i === WITHIN || i === UNCLEAR ? 0 : count), 0);
}

function isUnplayed(outcomes: readonly number[]): boolean {
  return outcomes.every((count) => count === 0);
}

function oddsOf(chance: number): number {
  const inside = Math.min(1 - NEAREST, Math.max(NEAREST, chance));
  return Math.log(inside / (1 - inside));
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}
