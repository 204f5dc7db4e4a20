import { luckOf, PURPOSES } from "../students/luck.js";
import { slipChance } from "../students/player.js";
import type { Students } from "../students/population.js";
import { beginDay, newPractice, noiseShare, practise } from "../students/practice.js";
import { type Student, studentBy } from "../students/student.js";
import { count, LONG_STAY, type Tally } from "../summary/tally.js";
import type { RungChances } from "../table/chanceTable.js";
import { fixedPoint, noiseCoordinate } from "../table/coordinates.js";
import { OUTCOMES } from "../table/outcome.js";
import { COMPLETE, OPEN } from "./climb.js";
import type { Level, TakeAddress } from "./level.js";
import type { Policy, Sight } from "./policy.js";
import type { RehearsedCourse } from "./rehearsedCourse.js";

/** What a term is played under. */
export interface TermTerms {
  readonly course: RehearsedCourse;
  readonly table: readonly (readonly RungChances[])[];
  readonly level: Level;
  readonly students: Students;
  readonly policy: Policy;
  readonly seed: string;
  readonly days: number;
  /** Minutes of a session, pauses included; as many takes as the student's trait says when left out. */
  readonly minutes?: number | undefined;
  /** From which true chance of a clean take on a student should be let on, and below which not. */
  readonly able: number;
  readonly unready: number;
}

/** What a rung asks of one student. */
interface Asked {
  readonly slip: number;
  readonly staying: ReturnType<RungChances["staying"]>;
}

/** What one student's term came to. */
export interface TermEnd {
  readonly student: Student;
  readonly takes: number;
  /** Rungs left behind, of all drills. */
  readonly passed: number;
  /** Days since the term began until the course was finished; `undefined` when it was not. */
  readonly finished: number | undefined;
  readonly clean: number;
  /** Times the student was let on whose true chance of a clean take was below `unready`, and stays at whose gate an able student was held. */
  readonly unready: number;
  readonly held: number;
  /** Rungs left behind at the end of each week. */
  readonly weekly: readonly number[];
}

/** SD of the logarithm of a student's noise from day to day. Our choice, as in `lib/forecast`. */
const DAY_FORM = 0.1;
/** Pause between two takes, seconds. Our choice, as plans count it. */
const PAUSE = 20;

/** A way to play terms: `of(number)` plays student `number` of the population and counts it into the tally of their quarter. */
export function termPlayer(terms: TermTerms): (number: number, tallies: readonly Tally[]) => TermEnd {
  const { course, table, level, students, policy, seed, able, unready } = terms;
  const { drills } = course;
  const { places } = level.climb;
  const cumulated = new Float64Array(OUTCOMES.length);
  // One take after another is written into the same address: there are a million a second.
  const at: { -readonly [K in keyof TakeAddress]: TakeAddress[K] } = {
    ...{ drill: 0, rung: 0, nth: 0, share: 1, slip: 0, counts: true },
    ...{ chances: cumulated, luck: luckOf(seed, 0, "none"), student: studentBy(students, luckOf(seed, 0, "none")) },
  };
  const looks = drills.map(({ drill: { gate } }) =>
    gate.kind === "clean of last" ? gate.of : gate.kind === "in a row" ? gate.count : 20,
  );
  return (number, tallies) => {
    const traits = luckOf(seed, number, "traits");
    const student = studentBy(students, traits);
    const tally = tallies[student.quarter]!;
    const dayLuck = luckOf(seed, number, "days");
    const lucks = drills.map(({ drill }) => luckOf(seed, number, drill.name));
    const asked = drills.map(({ count: rungs }) => new Array<Asked | undefined>(rungs));
    const askedOf = (drill: number, rung: number): Asked => {
      const known = asked[drill]![rung];
      if (known !== undefined) return known;
      const { lay } = drills[drill]!.rungs[rung]!;
      const fresh = { slip: slipChance(student, lay), staying: table[drill]![rung]!.staying(fixedPoint(student, lay)) };
      asked[drill]![rung] = fresh;
      return fresh;
    };
    const played = new Int32Array(drills.length);
    const lastPlayed = new Int32Array(drills.length).fill(-1);
    const onRung = drills.map(({ count: rungs }) => new Int32Array(rungs));
    const reached = drills.map(() => -1);
    const stay = drills.map(() => ({ clear: 0, arrived: false }));
    const practice = newPractice();
    const keeps = Math.exp(-student.rate);
    level.begin(student, { seed, number });
    at.student = student;
    let form = 1;
    const chanceAt = (drill: number, rung: number): number => {
      const { slip, staying } = askedOf(drill, rung);
      at.share = noiseShare(student, practice.kept) * form;
      at.slip = slip;
      staying(noiseCoordinate(student.motor * at.share), cumulated);
      return cumulated[0]! * (1 - slip);
    };
    const sight: { -readonly [K in keyof Sight]: Sight[K] } = {
      places,
      takes: 0,
      lastPlayed,
      luck: dayLuck,
      chance: (drill) => chanceAt(drill, places.rung[drill]!),
    };
    let [clean, passed, seconds, lastDay, unreadyLetOn, held] = [0, 0, 0, -1, 0, 0];
    const weekly = new Array<number>(Math.ceil(terms.days / 7)).fill(0);
    let finished: number | undefined;
    for (let day = 0; day < terms.days && finished === undefined; day++) {
      if (dayLuck.uniform(day, PURPOSES.practises) * 7 >= student.daysAWeek) continue;
      beginDay(practice, student, day - lastDay - 1);
      lastDay = day;
      form = Math.exp(DAY_FORM * dayLuck.normal(day, PURPOSES.form));
      const dawn = seconds;
      const isOver = (n: number): boolean =>
        terms.minutes === undefined ? n >= student.takesASession : seconds - dawn >= 60 * terms.minutes;
      for (let n = 0; !isOver(n) && finished === undefined; n++) {
        const drill = policy.drill(sight);
        if (drill < 0) break;
        const present = places.rung[drill]!;
        const rung = policy.rung?.(present) ?? present;
        const counts = rung === present && places.state[drill] === OPEN;
        const chance = chanceAt(drill, rung);
        const drillTally = tally.drills[drill]!;
        const rungTally = drillTally.rungs[rung]!;
        const here = stay[drill]!;
        if (played[drill] === 0) drillTally.begun++;
        if (counts && !here.arrived) {
          here.arrived = true;
          here.clear = 0;
          rungTally.stays++;
          rungTally.arrivalChances += Math.round(1000 * chance);
          if (rung > reached[drill]!) {
            reached[drill] = rung;
            rungTally.reached++;
          }
        }
        at.drill = drill;
        at.rung = rung;
        at.nth = played[drill]!;
        at.luck = lucks[drill]!;
        at.counts = counts;
        const { outcome, move } = level.take(at);
        played[drill]!++;
        lastPlayed[drill] = sight.takes;
        sight.takes++;
        onRung[drill]![rung]!++;
        seconds += drills[drill]!.rungs[rung]!.seconds + PAUSE;
        rungTally.outcomes[outcome]!++;
        if (outcome === 0) clean++;
        practise(practice, keeps);
        if (counts) {
          if (outcome !== 1) here.clear++;
          const up = move === "advance" || move === "complete";
          if (here.clear === looks[drill] && outcome !== 1 && chance >= able) {
            rungTally.ableStays++;
            if (!up) {
              rungTally.ableHeld++;
              held++;
            }
          } else if (up && here.clear < looks[drill]! && chance >= able) rungTally.ableStays++;
          if (up) {
            rungTally.letOn++;
            if (chance < unready) {
              rungTally.letOnUnready++;
              unreadyLetOn++;
            }
            if (rung === reached[drill]) {
              count(rungTally.passTakes, onRung[drill]![rung]!);
              passed++;
              weekly[Math.floor(day / 7)]!++;
            }
          } else if (move === "go back") rungTally.wentBack++;
          if (move !== "hold") here.arrived = false;
          if (move === "complete") {
            count(drillTally.completeTakes, played[drill]!);
            count(drillTally.completeDays, day + 1);
            if (places.state.every((state) => state === COMPLETE)) finished = day + 1;
          }
        }
      }
    }
    tally.students++;
    tally.takes += sight.takes;
    tally.minutes += Math.round(seconds / 60);
    if (finished !== undefined) {
      count(tally.finishTakes, sight.takes);
      count(tally.finishDays, finished);
    }
    places.state.forEach((state, drill) => {
      if (state !== OPEN || played[drill] === 0) return;
      const rung = places.rung[drill]!;
      tally.drills[drill]!.rungs[rung]!.stayed++;
      if (onRung[drill]![rung]! >= LONG_STAY) tally.drills[drill]!.rungs[rung]!.stuck++;
    });
    for (let week = 1; week < weekly.length; week++) weekly[week]! += weekly[week - 1]!;
    return { student, takes: sight.takes, passed, finished, clean, unready: unreadyLetOn, held, weekly };
  };
}
