import { compare } from "../../base/index.js";
import { parseSpan } from "../../time/index.js";
import type { Drill } from "../model.js";
import { say } from "../say.js";
import { placeSilences, silencesInPhrase, silencesToDraw } from "../score/silences.js";
import { takeLength } from "../score/take.js";
import type { CheckContext } from "./context.js";

/** Phrases checked: two show each pair of neighbouring silences of a take. */
const PHRASES_CHECKED = 2;

/**
 * Checks the places of silences: each fits into its phrase, the accompaniment returns between two silences, and something is heard before
 * the first. Returns the lengths that pass.
 */
export function checkPlacement(context: CheckContext, lengths: readonly string[]): readonly string[] {
  const { drill } = context;
  if (drill.dropout === undefined) return [];
  const fitting = lengths.filter((text) => fits(drill, text));
  const tooLong = lengths.find((text) => !fitting.includes(text));
  if (tooLong !== undefined) reportTooLong(context, tooLong);
  return fitting.length > 0 && checkNeighbours(context, fitting) ? fitting : [];
}

function fits({ pattern, dropout }: Drill, text: string): boolean {
  const span = parseSpan(text);
  if (!span.ok) return false;
  const place = dropout!.place;
  if (place.at === "random") return silencesToDraw(pattern, span.value).length > 0;
  const silences = silencesInPhrase(pattern, span.value, place);
  return silences.every(({ from, to }) => from.n >= 0 && compare(to, pattern.length) <= 0);
}

/** Where in the pattern a silence has room, by where it is placed. */
const ROOM = { end: "within", start: "within", bars: "between", random: "after" } as const;

function reportTooLong({ drill, found, pointerOf }: CheckContext, tooLong: string): void {
  const { pattern, dropout } = drill;
  const message = say("drill-problem.dropout-longer-than-phrase", {
    place: ROOM[dropout!.place.at],
    bars: pattern.bars.length,
    pattern: pattern.name,
    length: tooLong,
  });
  const remedy = say("drill-problem.dropout-longer-than-phrase-remedy");
  found.add("DROPOUT_LONGER_THAN_PHRASE", message, pointerOf("dropout"), remedy);
}

function checkNeighbours({ drill, found, pointerOf }: CheckContext, lengths: readonly string[]): boolean {
  const sample = { ...drill, phrases: Math.min(PHRASES_CHECKED, drill.phrases) };
  const placed = lengths.map((text) => ({ text, silences: placeSilences(sample, { tempo: "60", dropout: text }) }));
  const pointer = pointerOf("dropout");
  if (drill.countIn.n === 0 && placed.some(({ silences }) => silences[0]!.from.n === 0)) {
    const message = say("drill-problem.nothing-before-first-silence");
    found.add(
      "NOTHING_BEFORE_FIRST_SILENCE",
      message,
      pointer,
      say("drill-problem.write", { text: "count-in: 1 bar" }),
    );
  }
  if (placed.some(({ silences }) => compare(silences.at(-1)!.to, takeLength(sample)) >= 0)) {
    const message = say("drill-problem.last-silence-without-landing");
    found.add("LAST_SILENCE_WITHOUT_LANDING", message, pointer, say("drill-problem.write", { text: "outro: 1 bar" }));
  }
  const meeting = placed.find(({ silences }) =>
    silences.some(({ from }, i) => i > 0 && compare(from, silences[i - 1]!.to) <= 0),
  );
  if (meeting === undefined) return true;
  const message = say("drill-problem.dropout-never-returns", { length: meeting.text });
  found.add("DROPOUT_NEVER_RETURNS", message, pointer, say("drill-problem.dropout-never-returns-remedy"));
  return false;
}
