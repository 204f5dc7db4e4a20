import { describe, expect, test } from "vitest";
import { assess } from "../../lib/take/index.js";
import { landingAlone, landingLeftOut, landingMoved } from "../reference/players/habits/landings.js";
import { playsSome, reactsToReturn, restsInSilences, stopsHalfWay } from "../reference/players/habits/silences.js";
import { slip } from "../reference/players/habits/slips.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { materials } from "../reference/players/materials.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";

const { score } = materials().find(({ name }) => name === "moving, 1 bar")!;
const SILENCE = "After one bar of silence";
const REST = "too few to say whether you kept the time. Play on through the silence.";

/** A habit, what its player is told, and what the same take is told without its pitches where that differs. */
const ROWS: readonly (readonly [habit: Habit, told: string, blind?: string])[] = [
  [landingAlone("one", 200, 350), `${SILENCE} your landing came 228 ms late: it was this one note.`],
  [landingMoved("one", 250, 3), "You kept the tempo but missed the downbeat: 246 ms late after one bar of silence."],
  [
    landingLeftOut("one"),
    `${SILENCE} you left out the note on which the band returns, so that the landing cannot be judged: play it, even softly.`,
  ],
  [
    landingLeftOut("every"),
    `${SILENCE} you left out the note on which the band returns, so that the landing cannot be judged: play it, even softly.`,
    `${SILENCE} you either left out or added notes, or came in a beat late: in this riff the rhythm alone sounds almost the same, and with pitch it could be told.`,
  ],
  [
    slip({ way: "skips", size: "half a beat", place: "in the silence", end: 1, often: "one" }),
    `${SILENCE} you came in half a beat early, and found back later.`,
  ],
  [
    slip({ way: "waits", size: "half a beat", place: "at the landing", end: 2, often: "one" }),
    `${SILENCE} you came in half a beat late, and found back later.`,
  ],
  [
    slip({ way: "skips", size: "a beat", place: "in the silence", end: "kept", often: "one" }),
    `${SILENCE} you came in a beat early, and played on a beat ahead.`,
  ],
  [
    slip({ way: "waits", size: "a beat", place: "in the silence", end: 1, often: "one" }),
    `${SILENCE} you came in a beat late, and found back later.`,
  ],
  [
    slip({ way: "skips", size: "half a bar", place: "in the silence", end: 1, often: "one" }),
    `${SILENCE} you came in half a bar early, and found back later.`,
  ],
  [
    slip({ way: "waits", size: "half a bar", place: "at the landing", end: "kept", often: "one" }),
    `${SILENCE} you came in half a bar late, and played on half a bar behind.`,
  ],
  [
    slip({ way: "waits", size: "a bar", place: "in the silence", end: "kept", often: "one" }),
    `${SILENCE} you came in a bar late, and played on a bar behind.`,
  ],
  [
    slip({ way: "skips", size: "a beat", place: "at the landing", end: "kept", often: "every" }),
    `${SILENCE} you came in a beat early, and played on a beat ahead.`,
  ],
  [
    stopsHalfWay,
    `${SILENCE} you left out the note on which the band returns, so that the landing cannot be judged: play it, even softly.`,
  ],
  [restsInSilences, `You played 0 of 18 notes in 4 silences: ${REST}`],
  [reactsToReturn, `You played 0 of 18 notes in 4 silences: ${REST}`],
  [playsSome(1, 4), `You played 6 of 18 notes in 4 silences: ${REST}`],
  [playsSome(1, 2), "In time: at most 19 ms late after one bar of silence, about 0.7 % slow."],
];

describe("what a seasoned player with one habit is told", () => {
  test.each(ROWS.map(([habit, ...told]) => [habit.name, habit, ...told] as const))(
    "%s",
    (_name, habit, told, blind = told) => {
      const { take } = perform(score, { law: phaseCorrection, temper: "seasoned", habits: [habit] }, ["fixture", 3]);
      expect(assess(score, take).sentence).toBe(told);
      expect(assess(score, withoutPitch(take)).sentence).toBe(blind);
    },
  );
});
