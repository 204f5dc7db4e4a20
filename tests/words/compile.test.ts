import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { programOf, said } from "../compiler.js";
import { ROOT } from "../sources.js";
import { compileCatalogues, readCatalogue, readCatalogues } from "./catalogues.js";

const GENERATED = join(ROOT, "lib/words/generated");

/** A program of these files beside the rest of the house: file name -> text. Nothing is written. */
function programFor(files: ReadonlyMap<string, string>): ts.Program {
  const { config } = ts.readConfigFile(join(ROOT, "tsconfig.json"), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, ROOT);
  return programOf([...files.keys()], { ...options, noEmit: true, types: [] }, files);
}

function complaintsIn(program: ts.Program, file: string): readonly string[] {
  return said(ts.getPreEmitDiagnostics(program, program.getSourceFile(file)));
}

/** Statements that are wrong, each with what the compiler says. */
const MISUSED: readonly (readonly [what: string, statement: string, complaint: RegExp])[] = [
  ["a key that no catalogue has", 'say("take.nothing-sung");', /"take\.nothing-sung"' is not assignable/],
  ["a parameter left out", 'say("take.off", { ms: 3 });', /'side' is missing/],
  ["parameters left out", 'say("take.bars");', /Expected 2 arguments, but got 1/],
  ["a parameter of another type", 'say("take.bars", { bars: "two" });', /'string' is not assignable to type 'number'/],
  ["a parameter that the message does not have", 'say("take.bars", { bars: 2, beats: 1 });', /'beats' does not exist/],
  ["a choice that the message does not know", 'say("take.off", { ms: 3, side: "soon" });', /"soon"' is not assignable/],
  ["a topic that the speaker does not have", 'say("progress.clean");', /"progress\.clean"' is not assignable/],
];
const USED = 'say("take.nothing-played"); say("take.bars", { bars: 2 });';

let spoken: ReadonlyMap<string, readonly string[]> | undefined;

/** What the compiler says of statements of a room that speaks: all of those above in one program, each in a file of its own. */
function complaintsOfSpeaker(statements: string): readonly string[] {
  if (spoken === undefined) {
    const all = [USED, ...MISUSED.map(([, statement]) => statement)];
    const names = all.map((_, i) => join(GENERATED, `fixture-${i}.ts`));
    const program = programFor(new Map(names.map((name, i) => [name, `${SPEAKER}${all[i]!}\n`])));
    spoken = new Map(all.map((each, i) => [each, complaintsIn(program, names[i]!)]));
  }
  return spoken.get(statements)!;
}

const SPEAKER = `import { english, speakerOf, takeInEnglish } from "../index.js";
const say = speakerOf(english, takeInEnglish);
`;

const SMALL = `
quay:
  takes: |-
    .input {$takes :integer}
    .match $takes
    one {{1 take}}
    *   {{{$takes} takes}}
  greeting: Hello {$name :string}, {$takes :integer} takes
`;

/** What the compiler says of a catalogue in another language beside a small English one. */
function complaintsOfCatalogue(tag: string, catalogue: string): readonly string[] {
  const read = new Map([
    ["en", readCatalogue(SMALL, "en.yaml")],
    [tag, readCatalogue(catalogue, `${tag}.yaml`)],
  ]);
  const files = new Map([...compileCatalogues(read)].map(([name, text]) => [join(GENERATED, name), text]));
  // The topics come from the generated list of messages, which stands in for the real one.
  const program = programFor(files);
  return [...files.keys()].flatMap((file) => complaintsIn(program, file));
}

const POLISH = `
quay:
  takes: |-
    .input {$takes :integer}
    .match $takes
    one  {{1 próba}}
    few  {{{$takes} próby}}
    many {{{$takes} prób}}
    *    {{{$takes} próby}}
  greeting: Cześć {$name :string}, próby {$takes :integer}
`;

describe("what does not compile", () => {
  test("nothing, when messages are used as the catalogue has them", () => {
    expect(complaintsOfSpeaker(USED)).toEqual([]);
    expect(complaintsOfCatalogue("pl", POLISH)).toEqual([]);
  });

  test.each(MISUSED)("%s", (_, statement, complaint) => {
    const told = complaintsOfSpeaker(statement);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(complaint);
  });

  test.each([
    ["a message that another language lacks", POLISH.replace(/ {2}greeting:.*\n/, ""), /'"quay\.greeting"' is missing/],
    ["a message that English does not have", `${POLISH}  bye: Pa\n`, /'"quay\.bye"' does not exist/],
    ["a plural form that the language needs", POLISH.replace(/ {4}few .*\n/, ""), /'few' is missing/],
    ["a plural form that the language does not have", POLISH.replace("few ", "two "), /'two' does not exist/],
    ["a parameter that English does not give", POLISH.replace("$name", "$naam"), /'naam' does not exist/],
    ["a name where English gives a number", POLISH.replace("próby {$takes :integer}", "{$takes :string}"), undefined],
    [
      "a number where English gives a name",
      POLISH.replace("$name :string", "$name :integer"),
      /'string' is not assignable/,
    ],
  ])("%s", (_, catalogue, complaint) => {
    const told = complaintsOfCatalogue("pl", catalogue);
    expect(told.length).toBeGreaterThan(0);
    if (complaint !== undefined) expect(told[0]).toMatch(complaint);
  });

  test.each([
    ["a message that is not MessageFormat 2", "quay:\n  a: 'Hello {$name'", /^en\.yaml: quay\.a: /],
    [
      "a choice without a last resort",
      "quay:\n  a: |-\n    .input {$n :integer}\n    .match $n\n    one {{x}}",
      /quay\.a: missing-fallback/,
    ],
    ["a message without a topic", "a: Hello", /a must stand under a topic/],
    [
      "an option that is not known",
      "quay:\n  a: '{$n :number style=percent}'",
      /quay\.a: \$n: the option style is not known here/,
    ],
    [
      "a function that is not known",
      "quay:\n  a: '{$n :datetime}'",
      /quay\.a: \$n: the function :datetime is not known here/,
    ],
    ["a choice by a text", "quay:\n  a: |-\n    .input {$n}\n    .match $n\n    b {{x}}\n    * {{y}}", /quay\.a: /],
  ])("%s: the generator says so, and where", (_, text, complaint) => {
    expect(() => compileCatalogues(new Map([["en", readCatalogue(text, "en.yaml")]]))).toThrow(complaint);
  });

  test("every catalogue is complete, as generated files are what the catalogues say", async () => {
    const files = compileCatalogues(await readCatalogues());
    for (const [name, text] of files) expect(ts.sys.readFile(join(GENERATED, name)), name).toBe(text);
  });
});
