// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { Topic } from "../catalogueOf.js";
import type { Compiled } from "../wording.js";

/** What those only read who write courses and run commands. */
export const FURTHER_TOPICS: readonly Topic[] = ["cli-problem","cli","code","compiled-problem","curriculum-problem","drill-problem","edition-problem","formats-problem","journal-problem","key-problem","listen-problem","meter-problem","node-problem","pattern-problem","pitch-problem","plan-problem","practice-problem","progress-problem","reason","record-problem","recording-problem","rehearsal","render-problem","rung-problem","schema-problem","server-problem","setting-problem","sheet-problem","sound-problem","store-problem","time-problem","words-problem"];

/** The messages of these topics, by language tag: loaded when they are asked for. */
export const FURTHER: { readonly [tag: string]: () => Promise<{ readonly messages: Compiled }> } = {
  "de": () => import("./de-further.js"),
  "es": () => import("./es-further.js"),
  "fr": () => import("./fr-further.js"),
  "it": () => import("./it-further.js"),
  "ja": () => import("./ja-further.js"),
  "pt": () => import("./pt-further.js"),
};
