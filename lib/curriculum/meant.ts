import { PERCUSSION } from "../pattern/index.js";
import { pathOf } from "../schema/index.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import { valueAt } from "./valueAt.js";
import { isKeyed } from "./wellFormed.js";

/**
 * The problem with a value of another form than is asked for, with what was meant by it: `gate: 3 of 4` is `{ clean: 3, of: 4 }`, `open: bar 4` is
 * `{ bars: [4] }`. Other problems, and values that may mean several things, as they are. `course` is the data that was judged.
 */
export function formMeant(found: Problem, course: unknown): Problem {
  if (found.code !== "WRONG_TYPE" && found.code !== "SPAN_NOT_READ") return found;
  const path = pathOf(found.where.pointer ?? "");
  const written = valueAt(course, path);
  const text = meantBy(path, written);
  const ladder = path.at(-1) === "ladders" && isKeyed(written) ? Object.keys(written)[0] : undefined;
  if (text === undefined && ladder === undefined) return found;
  const { says, message } =
    text === undefined
      ? say("curriculum-problem.ladders-hyphen-remedy", { ladder: ladder! })
      : say("curriculum-problem.write", { text });
  return { ...found, remedy: says, words: { ...found.words, remedy: message } };
}

/** What was meant by a value: text that stands in its place. */
type Meant = (written: unknown) => string | undefined;

/** By the section of the course, and the last key of the path. */
const FORMS: Readonly<Record<string, Readonly<Record<string, Meant>>>> = {
  edition: { edition: (written) => (typeof written === "number" ? versionOf(written) : undefined) },
  players: { players: list },
  patterns: {
    meter: (written) => (typeof written === "number" ? METERS[written] : undefined),
    chords: (written) => (Array.isArray(written) && written.every(isWord) ? written.join(" | ") : undefined),
  },
  drills: {
    players: list,
    needs: list,
    parts: list,
    "let-ring": list,
    "count-in": countInMeant,
    open: (written) => keys("bars", barsIn(written)),
    bars: barsIn,
    gate: gateMeant,
    "go-back": (written) => keys("after", number(/^(?:after )?(\d+)(?: takes)?$/, written)),
    dropout: (written) =>
      typeof written === "number"
        ? keys("length", `${written} ${written > 1 ? "bars" : "bar"}`)
        : keys("length", length(written)),
    tolerance: (written) =>
      keys("drift", typeof written === "string" && /^\d+(?:\.\d+)? ?%$/.test(written) ? written : undefined),
    drift: (written) => share(written, 0.3) ?? driftMeant(written),
    played: (written) => share(written, 1),
    landing: seconds,
    steadiness: seconds,
  },
};

/** Beats in a bar -> the usual meter of so many. Five and seven have two. */
const METERS: Readonly<Record<number, string>> = { 2: "2/4", 3: "3/4", 4: "4/4", 6: "6/8", 9: "9/8", 12: "12/8" };

function meantBy(path: readonly string[], written: unknown): string | undefined {
  const key = path.at(-1) ?? "";
  if (path[0] === "drills" && path[2] === "ladders" && path.length === 5)
    return stepsMeant(written) ?? (key === "tempo" && !/^[\d., ]+$/.test(String(written)) ? undefined : list(written));
  // An entry of a section may have the name of a key.
  const forms = path.length === 2 ? undefined : FORMS[path[0] ?? ""];
  return forms !== undefined && Object.hasOwn(forms, key) ? forms[key]!(written) : undefined;
}

/** A name, a note or a length: what YAML reads as it stands, inside brackets too. */
function isWord(value: unknown): value is string {
  return typeof value === "string" && /^[\p{L}\p{N}][\p{L}\p{N} #♭♯/%.'-]*$/u.test(value);
}

/** Names between commas, or joined by "and", as a list. */
function list(written: unknown): string | undefined {
  if (typeof written !== "string") return undefined;
  const names = written.trim().split(/\s*,\s*(?:and\s+)?|\s+and\s+/);
  return names.every(isWord) ? `[${names.join(", ")}]` : undefined;
}

function keys(key: string, value: string | undefined): string | undefined {
  return value && `{ ${key}: ${value} }`;
}

/** The bars that are named: 4, [3, 4], "bar 4", "bars 3 and 4". A count of bars names none. */
function barsIn(written: unknown): string | undefined {
  if (typeof written === "number") return `[${written}]`;
  if (Array.isArray(written)) return written.every(Number.isInteger) ? `[${written.join(", ")}]` : undefined;
  const named = typeof written === "string" && /^(?:bars? )?(\d+(?:(?:, ?| and |, and )\d+)*)$/.exec(written.trim());
  return named ? `[${named[1]!.match(/\d+/g)!.join(", ")}]` : undefined;
}

/** A count-in with its sound: "2 bars of sticks", "sticks". */
function countInMeant(written: unknown): string | undefined {
  const [, span = "", sound = ""] =
    (typeof written === "string" && /^(\d[\d /]* (?:bars?|beats?))?(?: (?:of|with|on))? ?([a-z -]+)$/.exec(written)) ||
    [];
  if (!PERCUSSION.has(sound)) return undefined;
  return `{ length: ${span === "" ? "1 bar" : span}, sound: ${sound} }`;
}

function gateMeant(written: unknown): string | undefined {
  const [, clean, of] = (typeof written === "string" && /^(\d+) ?(?:(?:out )?of|\/) ?(\d+)\b/.exec(written)) || [];
  if (clean !== undefined) return `{ clean: ${clean}, of: ${of} }`;
  return keys("in-a-row", number(/^(\d+) (?:times |takes |clean )?in a row$/, written));
}

/** `from`, `to` and `by`: "84 to 112 by 4". */
function stepsMeant(written: unknown): string | undefined {
  const steps =
    typeof written === "string" && /^(?:from )?(.+?) ?(?:-|–| to ) ?(.+?) (?:by|in steps of) (.+)$/.exec(written);
  if (!steps) return undefined;
  const [from, to, by] = steps.slice(1).map((each) => each.replace(/ ?bpm$/, ""));
  return [from, to, by].every(isWord) ? `{ from: ${from}, to: ${to}, by: ${by} }` : undefined;
}

function length(written: unknown): string | undefined {
  return typeof written === "string" && /^\d[\d /]* (?:bars?|beats?|notes?)$/.test(written) ? written : undefined;
}

function number(form: RegExp, written: unknown): string | undefined {
  return form.exec(String(written))?.[1];
}

/** A share of one, up to `most`, in per cent: 0.08 is 8 %. */
function share(written: unknown, most: number): string | undefined {
  if (typeof written !== "number" || written <= 0 || written > most) return undefined;
  return `${Math.round(written * 1000) / 10} %`;
}

/** Drift in per cent, or in milliseconds where that would be more than any tolerance. Our choice: above 30 % nobody is in time any more. */
function driftMeant(written: unknown): string | undefined {
  if (typeof written !== "number" || written < 1) return undefined;
  return `${written} ${written <= 30 ? "%" : "ms"}`;
}

/** Less than a second in milliseconds: 0.12 is 120 ms. */
function seconds(written: unknown): string | undefined {
  return typeof written === "number" && written > 0 && written < 1 ? `${Math.round(written * 1000)} ms` : undefined;
}

/** A number as an edition: 2 is 2.0.0, 1.2 is 1.2.0. */
function versionOf(written: number): string | undefined {
  const [major, minor = "0"] = String(written).split(".");
  return written >= 0 && /^\d{1,9}$/.test(major!) && /^\d{1,9}$/.test(minor) ? `${major}.${minor}.0` : undefined;
}
