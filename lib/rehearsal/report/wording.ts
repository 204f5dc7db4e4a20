import type { Worded } from "../../base/index.js";
import type { RehearsalFinding, RehearsalKindName } from "../../schema/index.js";
import { english, rehearsalInEnglish, type Speaker, speakerOf } from "../../words/index.js";
import { LONG_STAY } from "../summary/tally.js";

/** Words findings in English, with the message beside each. */
const say: Speaker<"rehearsal"> = /* @__PURE__ */ speakerOf(english, rehearsalInEnglish);

/** A finding as a sentence, and what may be done about it. */
export function findingSaid(finding: RehearsalFinding): { readonly sentence: Worded; readonly remedy: Worded } {
  const { what, drill, takes = 0, share = 0, on = "unclear" } = finding;
  const percent = `${Math.round(100 * share)}`;
  const rung = { key: "rehearsal.rung-in-words", parameters: { number: `${finding.number ?? 0}` } } as const;
  switch (what) {
    case "wall": {
      const long = `${2 * LONG_STAY}`;
      return {
        sentence: say("rehearsal.wall", { drill, rung, percent, on, takes: long }),
        remedy: say("rehearsal.wall-remedy"),
      };
    }
    case "nobody can fail":
      return {
        sentence: say("rehearsal.nobody-can-fail", { drill, rung, percent }),
        remedy: say("rehearsal.nobody-can-fail-remedy"),
      };
    case "nobody passes":
      return {
        sentence: say("rehearsal.nobody-passes", { drill, rung }),
        remedy: say("rehearsal.nobody-passes-remedy"),
      };
    case "longer than a term":
      return {
        sentence: say("rehearsal.longer-than-a-term", { drill, takes: `${Math.round(takes)}` }),
        remedy: say("rehearsal.longer-than-a-term-remedy"),
      };
  }
}

/** The name of a kind as the catalogue has it. */
export function kindKey(kind: RehearsalKindName): "all" | "steadiest" | "second" | "third" | "least-steady" {
  return KEYS[kind];
}

const KEYS = {
  all: "all",
  "steadiest quarter": "steadiest",
  "second quarter": "second",
  "third quarter": "third",
  "least steady quarter": "least-steady",
} as const;
