import { rungCalled } from "../../drill/index.js";
import { beginJournal, decide, drillStanding } from "../../progress/index.js";
import type { Finding } from "../../schema/index.js";
import { assess } from "../../take/index.js";
import { playTake } from "../player.js";
import { type Luck, PURPOSES, type Purpose } from "../students/luck.js";
import { omissionChances, playerOf } from "../students/player.js";
import type { Student } from "../students/student.js";
import type { RungChances } from "../table/chanceTable.js";
import { OUTCOMES, outcomeOf } from "../table/outcome.js";
import { CLOSED, type Climb, COMPLETE, countedClimb, type LeftOutIn, type Move, OPEN } from "./climb.js";
import type { RehearsedCourse } from "./rehearsedCourse.js";

/** How takes are judged and what becomes of them: drawn from chances, or played and assessed. */
export interface Level {
  readonly climb: Climb;
  /** A student begins; `seed` and number are the address of their luck. */
  begin(student: Student, address: { readonly seed: string; readonly number: number }): void;
  /** The outcome of take `nth` of a drill, on a rung, with noise at `share` of what it was before practice, and what the rules make of it. */
  take(at: TakeAddress): { readonly outcome: number; readonly move: Move };
}
export interface TakeAddress {
  readonly drill: number;
  readonly rung: number;
  readonly nth: number;
  readonly share: number;
  readonly luck: Luck;
  /** Cumulated chances of the outcomes of a take without a slip, and chance of a slip. */
  readonly chances: Float64Array;
  readonly slip: number;
  readonly student: Student;
  /** Whether it is a take of the present rung, which the rules count. */
  readonly counts: boolean;
}

/** Verdicts drawn from the table, and the rules as counters. */
export function drawnLevel(course: RehearsedCourse, table: readonly (readonly RungChances[])[]): Level {
  const climb = countedClimb(course);
  const said = { outcome: 0, move: "hold" as Move };
  let at: TakeAddress | undefined;
  const leftOut: LeftOutIn = (nth, clean) => {
    const { drill, rung, luck, student } = at!;
    const { landings, notes } = course.drills[drill]!.rungs[rung]!.lay;
    const times = table[drill]![rung]!.leftOut[clean ? "clean" : "beyond"];
    const { landing, note } = omissionChances(student);
    const drawn = (asked: number, chance: number, purpose: Purpose): number =>
      landings === 0 ? 0 : binomial(asked, Math.min(1, chance), luck.uniform(nth, purpose));
    return {
      landings: { out: drawn(landings, landing * times.landings, PURPOSES.landings), asked: landings },
      notes: { out: drawn(notes, note * times.notes, PURPOSES.omissions), asked: landings === 0 ? 0 : notes },
    };
  };
  return {
    climb,
    begin: () => climb.begin(),
    take: (address) => {
      const { drill, rung, nth, luck, chances, slip, counts } = address;
      at = address;
      const slipped = slip > 0 && luck.uniform(nth, PURPOSES.slip) < slip;
      const drawn = luck.uniform(nth, PURPOSES.verdict);
      const cumulated = slipped ? table[drill]![rung]!.slipped : chances;
      let outcome = 0;
      while (drawn >= cumulated[outcome]!) outcome++;
      said.outcome = outcome;
      said.move = counts ? climb.take(drill, { nth, outcome }, leftOut) : "hold";
      return said;
    },
  };
}

/** How many of `n` there are at a place `u` of the distribution, each with chance `p`. */
function binomial(n: number, p: number, u: number): number {
  if (p >= 1) return n;
  let share = (1 - p) ** n;
  let below = share;
  let k = 0;
  for (; u >= below && k < n; k++) {
    share *= ((n - k) * p) / ((k + 1) * (1 - p));
    below += share;
  }
  return k;
}

const AT = "2026-03-02T17:00:00Z";

/** Every take a list of onsets, through `assess` and `decide` as they are. */
export function playedLevel(course: RehearsedCourse): Level {
  const { drills } = course;
  const only = {
    ...course.course,
    drills: drills.map(({ drill }) => ({ ...drill, needs: knownNeeds(drill.needs, course) })),
  };
  const places = { rung: new Int32Array(drills.length), state: new Uint8Array(drills.length) };
  let standing = beginJournal(only, "student", AT).standing;
  let who: { student: Student; seed: string; number: number } | undefined;
  const look = (): void => {
    drills.forEach(({ drill, count }, d) => {
      const held = drillStanding(standing, drill.name);
      places.state[d] =
        held === undefined || held.state === "closed" ? CLOSED : held.state === "complete" ? COMPLETE : OPEN;
      places.rung[d] = places.state[d] === COMPLETE ? count : (rungCalled(drill, held?.rung)?.index ?? 0);
    });
  };
  const counted = (finding: Finding): Move => {
    const decision = decide(only, standing, finding, AT);
    standing = decision.standing;
    look();
    return decision.what === "not counted" ? "hold" : decision.what;
  };
  const begin = (): void => {
    standing = beginJournal(only, "student", AT).standing;
    look();
  };
  return {
    climb: { places, begin, take: () => "hold" },
    begin: (student, address) => {
      who = { student, ...address };
      begin();
    },
    take: ({ drill, rung, nth, share, counts }) => {
      const { score, lay } = drills[drill]!.rungs[rung]!;
      const { student, seed, number } = who!;
      const { take } = playTake(
        score,
        playerOf(student, lay, share),
        `${seed}/${number}/${drills[drill]!.drill.name}/${nth}`,
      );
      const id = `${drills[drill]!.drill.name}/${nth}`;
      const finding = assess(score, { ...take, id });
      return { outcome: OUTCOMES.indexOf(outcomeOf(finding, score)), move: counts ? counted(finding) : "hold" };
    },
  };
}

function knownNeeds(needs: readonly string[], { drills }: RehearsedCourse): readonly string[] {
  return needs.filter((need) => drills.some(({ drill }) => drill.name === need));
}
