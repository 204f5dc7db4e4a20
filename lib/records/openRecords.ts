import { resultOf } from "../base/index.js";
import { english, settingInEnglish, valueInEnglish, type Words, wordsOf } from "../words/index.js";
import { type Activities, activitiesUnder } from "./activities.js";
import { recordProblem } from "./codes.js";
import { type Identity, identityAt, type Naming, SHORTEST_KEY } from "./identity.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";

export interface RecordOptions {
  /** The school's home page, to which students' accounts belong: an absolute http or https address. */
  readonly home: string;
  /** Beginning of the addresses of activities; the home page when left out. No page has to be there. */
  readonly base?: string;
  readonly naming: Naming;
  /** The language in which rungs are named; English when left out. */
  readonly words?: Words<"setting">;
}

const ENGLISH: Words<"setting"> = /* @__PURE__ */ wordsOf(english, { ...settingInEnglish, ...valueInEnglish });

/** Settings for the records of a school, from `openRecords`. */
export interface Records {
  readonly home: string;
  readonly naming: Naming["kind"];
  readonly identity: Identity;
  readonly activities: Activities;
}

/**
 * Settings for learning records of a school, or all problems of the options.
 *
 * Problems: RECORD_ADDRESS_NOT_ABSOLUTE, RECORD_KEY_TOO_SHORT.
 * @example openRecords({ home: "https://quayside.example", naming: { kind: "pseudonyms", key } })
 */
export function openRecords({ home, base = home, naming, words = ENGLISH }: RecordOptions): Result<Records> {
  const problems: Problem[] = [];
  if (!isAddress(home)) problems.push(notAddress("home", home));
  if (base !== home && !isAddress(base)) problems.push(notAddress("base", base));
  if (naming.kind === "pseudonyms" && naming.key.length < SHORTEST_KEY) {
    const bytes = { least: SHORTEST_KEY, found: naming.key.length };
    const message = sayProblem("record-problem.record-key-too-short", bytes);
    const remedy = sayProblem("record-problem.record-key-too-short-remedy");
    problems.push(recordProblem("RECORD_KEY_TOO_SHORT", message, {}, remedy));
  }
  const under = base.replace(/\/+$/, "");
  return resultOf(
    {
      home,
      naming: naming.kind,
      identity: identityAt(home, under, naming),
      activities: activitiesUnder(under, words),
    },
    problems,
  );
}

/** Scheme, host and path of an IRI (RFC 3987), without characters that must be escaped. Query and fragment are refused: no path can follow them. */
function isAddress(text: string): boolean {
  return /^https?:\/\/[^\s/?#"<>\\^`{|}\p{C}]+(?:\/[^\s?#"<>\\^`{|}\p{C}]*)?$/u.test(text);
}

function notAddress(which: "home" | "base", found: string): Problem {
  const message = sayProblem("record-problem.record-address-not-absolute", { which, found: JSON.stringify(found) });
  const remedy = sayProblem("record-problem.record-address-not-absolute-remedy");
  return recordProblem("RECORD_ADDRESS_NOT_ABSOLUTE", message, {}, remedy);
}
