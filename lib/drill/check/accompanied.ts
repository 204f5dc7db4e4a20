import { toNumber } from "../../base/index.js";
import { parseSpan } from "../../time/index.js";
import { settingPhrases } from "../../words/index.js";
import { doesIn } from "../mix.js";
import type { Drill, Settings } from "../model.js";
import { settingsText } from "../rung/settings.js";
import { say } from "../say.js";
import { placeSilences, silencesToDraw } from "../score/silences.js";
import { type CheckContext, partsInForce, SAME, valuesInForce } from "./context.js";
import { openAt, studentOnsets } from "./silences.js";

/** Fewest accompanied notes that a steadiness is given for, and the beats after a return that count as neither accompanied nor alone: as lib/take/metrics/steadiness.ts has them. */
const FEWEST_NOTES = 6;
const CATCHING_UP_BEATS = 2;

/** Checks that on each rung enough notes are expected while the accompaniment plays to judge steadiness by. */
export function checkAccompanied({ drill, found }: CheckContext, lengths: readonly string[]): void {
  if (drill.tolerance.steadiness === undefined) return;
  for (const variant of valuesInForce(drill, "variant")) {
    const onsets = studentOnsets(drill, variant);
    for (const open of valuesInForce(drill, "open")) {
      const isOpen = openAt(drill, open);
      const expected = onsets.filter((at) => !isOpen(at));
      for (const dropout of lengths.length === 0 ? [undefined] : lengths) {
        const notes = dropout === undefined ? expected.length : accompaniedNotes(drill, expected, dropout);
        if (notes >= FEWEST_NOTES) continue;
        const settings = {
          ...(dropout === undefined ? {} : { dropout }),
          ...(open === undefined ? {} : { open }),
          ...(variant === undefined ? {} : { variant }),
        };
        const counts = { fewest: FEWEST_NOTES, beats: CATCHING_UP_BEATS, notes };
        const message =
          settingsText(settings) === ""
            ? say("drill-problem.steadiness-without-enough-notes", counts)
            : say("drill-problem.steadiness-without-enough-notes-with", {
                ...counts,
                settings: settingPhrases(settingsText(settings)),
              });
        const remedy = say("drill-problem.steadiness-without-enough-notes-remedy");
        found.add("STEADINESS_WITHOUT_ENOUGH_NOTES", message, "/tolerance/steadiness", remedy);
        return;
      }
    }
  }
}

/** Expected notes of a take while something sounds; of random places the worst. */
function accompaniedNotes(drill: Drill, expected: readonly number[], dropout: string): number {
  if (isAlwaysGuided(drill, dropout)) return expected.length;
  const catching = CATCHING_UP_BEATS * toNumber(drill.beat);
  const span = parseSpan(dropout);
  if (drill.dropout?.place.at !== "random" || !span.ok) {
    const silences = placeSilences(drill, { tempo: "60", dropout }).map(inNumbers);
    return expected.filter(outside(silences, catching)).length;
  }
  const choices = silencesToDraw(drill.pattern, span.value).map(inNumbers);
  const length = toNumber(drill.pattern.length);
  // A silence at the end of a phrase reaches into the next one, or into the outro, by the time of catching up.
  let notes = expected.filter((at) => at >= drill.phrases * length + catching - SAME).length;
  for (let phrase = 0; phrase < drill.phrases; phrase++) {
    const first = phrase === 0 ? -SAME : catching - SAME;
    const inPhrase = expected.map((at) => at - phrase * length).filter((at) => at >= first && at < length - SAME);
    notes += Math.min(...choices.map((one) => inPhrase.filter(outside([one], catching)).length));
  }
  return notes;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

const inNumbers = ({ from, to }: ReturnType<typeof placeSilences>[number]): Stretch => ({
  from: toNumber(from),
  to: toNumber(to),
});

/** Whether a note lies outside the silences and the time of catching up after them. */
function outside(silences: readonly Stretch[], catching: number): (at: number) => boolean {
  return (at) => silences.every(({ from, to }) => at < from - SAME || at > to + catching - SAME);
}

/** Whether in every mix that takes are measured in a part plays on through the silences. */
function isAlwaysGuided(drill: Drill, dropout: string): boolean {
  const mixes = valuesInForce(drill, "mix").map(
    (name) => drill.mixes.find((mix) => mix.name === name) ?? drill.mixes[0]!,
  );
  return partsInForce(drill).every((parts) => {
    const settings: Settings = { tempo: "60", dropout, ...(parts === undefined ? {} : { parts }) };
    return mixes.every((mix) => [...doesIn(drill, mix, settings).values()].includes("plays"));
  });
}
