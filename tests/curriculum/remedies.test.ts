import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isMap, isScalar, parse, parseDocument } from "yaml";
import { type Problem, problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { pathOf } from "../../lib/schema/index.js";
import { ROOT } from "../sources.js";

const FIXTURES = join(ROOT, "tests", "problems");

/** Remedies in words: they tell what to look at, and nothing to be written by the letter. */
const IN_WORDS =
  /^(?:all three|an? (?:bar|dropout|chord|note|whole bar|coarser|shorter|landing|number)\b|bar \d+ in notes|more phrases|one chord|off for|the (?:key|path|shorter|values)|what |out what |in the dropout|the note in|notes for|x where|[\]}]+ here$|\d+ characters)|in place of| in the dropout/;

/** Broken courses in which what is told leads on: the value that was meant does not fit the rest of them, and that is said next. */
const LEADS_ON: Readonly<Record<string, string>> = {
  "GRID_NOT_READ.yaml": "one sign of a line",
  "GRID_NOT_READ@dots for nothing.yaml": "one sign of a line",
  "METER_CHANGE_MISPLACED.yaml": "the bars there are of the meter before",
  "METER_LOWER_NOT_POWER_OF_TWO.yaml": "the bars have four quarters",
  "METER_NOT_READ@waltz.yaml": "the bars have four beats",
  "NOTE_LENGTH_MISSING.yaml": "one word of a line",
  "NOTE_LENGTH_MISSING@length after.yaml": "one word of a line",
  "NOT_ONE_OF@mute.yaml": "plays leaves nothing silent in the first mix",
  "NUMBER_OUT_OF_RANGE.yaml": "the lines have two bars",
  "PART_UNKNOWN@student unknown.yaml": "the first part is one that drops",
  "SPAN_UNIT_UNKNOWN@measures.yaml": "the pattern has two bars",
  "TOO_FEW.yaml": "an example with another pattern",
  "TUPLET_NOT_FILLED.yaml": "one word of a line",
  "TUPLET_NOT_READ.yaml": "one word of a line",
  "WRONG_TYPE@notes without notes.yaml": "the pattern has two bars",
  "WRONG_TYPE@open 4.yaml": "the pattern has two bars",
  "WRONG_TYPE@open bar 4.yaml": "the pattern has two bars",
  "WRONG_TYPE@open bar in words.yaml": "the pattern has two bars",
  "WRONG_TYPE@open bars 3 and 4.yaml": "the pattern has two bars",
  "LADDER_FORM.yaml": "the drill has a tempo beside",
  "LADDER_STEP_NOT_READ@step with percent in words.yaml": "a ladder by per cent that stops short, which is advice",
  "UNKNOWN_KEY@bpm as key.yaml": "the drill has a ladder of tempi",
};

const read = (text: string, file: string): readonly Problem[] =>
  problemsIn(readCurriculum(text, { file, readFile: () => undefined }));

/** What `write X` offers: each of "A, B or C", without what is said about it. */
function offersIn(remedy: string): readonly string[] {
  const [, said] = /^write:? (?:for instance |one of )?(.+)$/.exec(remedy) ?? [];
  if (said === undefined || IN_WORDS.test(said)) return [];
  const whole = said
    .replace(/; .*$/, "")
    .replace(/^a number and its unit: /, "")
    .replace(/ for (?:a|an|none|triplets|quarters|silence)\b.*$/, "");
  return /^[[{]|: /.test(whole) ? [whole.split(", or ")[0]!] : [whole.split(/, or |, | or /)[0]!];
}

/** The course as it stands after the offer was written in each way in which a person may do it: in place of the value, of the key, or as a key beside. */
function* written(text: string, { where }: Problem, offer: string): Generator<string> {
  const path = pathOf(where.pointer ?? "").map((key) => (/^\d+$/.test(key) ? Number(key) : key));
  const value: unknown = safely(() => parse(offer));
  const put = (change: (document: ReturnType<typeof parseDocument>) => void): string | undefined =>
    safely(() => {
      const document = parseDocument(text);
      change(document);
      return String(document);
    });
  const holder = path.slice(0, -1);
  const isKeyed = typeof value === "object" && value !== null && !Array.isArray(value) && !offer.startsWith("{");
  const ways = [
    put((document) => document.setIn(path, value ?? offer)),
    put((document) => document.setIn(path, offer)),
    // A new name for the key.
    put((document) => {
      const was = document.getIn(path, true);
      document.deleteIn(path);
      document.setIn([...holder, offer], was);
    }),
    ...(isKeyed
      ? [path, holder, path.slice(0, -2)].flatMap((at) => [
          put((document) => {
            for (const [key, each] of Object.entries(value)) document.setIn([...at, key], each);
          }),
          put((document) => {
            document.deleteIn(path);
            for (const [key, each] of Object.entries(value)) document.setIn([...at, key], each);
          }),
        ])
      : []),
    wordIn(text, path, where, offer),
  ];
  for (const way of ways) if (way !== undefined) yield way;
}

/** The text with the word of a line at the place of the problem exchanged. */
function wordIn(
  text: string,
  path: readonly (string | number)[],
  { line: row = 1, column = 1 }: Problem["where"],
  offer: string,
): string | undefined {
  const node = safely(() => parseDocument(text).getIn(path, true));
  if (!isScalar(node) && !isMap(node)) return undefined;
  const lines = text.split("\n");
  const line = lines[row - 1] ?? "";
  const before = line.slice(0, column - 1);
  const rest = line.slice(column - 1).replace(/^[^\s,}\]"|]+/, "");
  lines[row - 1] = `${before}${offer}${rest}`;
  return lines.join("\n");
}

function safely<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch {
    return undefined;
  }
}

describe("a remedy that says what to write", () => {
  const cases = readdirSync(FIXTURES)
    .filter((name) => name.endsWith(".yaml"))
    .flatMap((name) => {
      const text = readFileSync(join(FIXTURES, name), "utf8");
      return read(text, name).flatMap((problem) =>
        offersIn(problem.remedy ?? "").map((offer) => ({ name, text, problem, offer })),
      );
    });

  test("is there for most broken courses", () => {
    expect(cases.length).toBeGreaterThan(150);
  });

  /** Whether the problem goes and no other kind of problem comes. */
  const ends = ({ name, text, problem }: (typeof cases)[number], offer: string): boolean => {
    const before = read(text, name);
    const ofCode = (all: readonly Problem[]): number => all.filter(({ code }) => code === problem.code).length;
    return [...written(text, problem, offer)].some((after) => {
      const left = read(after, name);
      return left.every(({ code }) => before.some((each) => each.code === code)) && ofCode(left) < ofCode(before);
    });
  };

  test("ends the problem when it is written there", () => {
    const failed = cases.filter((each) => !ends(each, each.offer));
    const wrong = failed.filter(({ name }) => !Object.hasOwn(LEADS_ON, name));
    expect(wrong.map(({ name, problem, offer }) => `${name}: ${problem.remedy} (${offer})`)).toEqual([]);
    expect(failed.map(({ name }) => name)).toEqual(expect.arrayContaining(Object.keys(LEADS_ON)));
  });

  test("is told from one that is wrong", () => {
    const fooled = cases.filter((each) => ends(each, "herring"));
    expect(fooled.length / cases.length).toBeLessThan(0.1);
  });
});
