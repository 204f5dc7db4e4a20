import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { fractionText, problemsIn } from "../../lib/base/index.js";
import { readMusicXml } from "../../lib/formats/index.js";
import { midiNumber, transposePitch } from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";

const FOLDER = "../shared/reference/musicxml/testsuite/xmlFiles";
const present = existsSync(FOLDER);
if (!present) console.log(`skipped: the MusicXML files of ${FOLDER} are not here`);

/** cuthbertLab/musicxmlTestSuite (MIT): each file says in its description what it holds. */
describe.skipIf(!present)("the unofficial MusicXML test suite", () => {
  const names = present ? readdirSync(FOLDER) : [];
  const read = (name: string) =>
    readMusicXml(new Uint8Array(readFileSync(`${FOLDER}/${names.find((n) => n.startsWith(name))}`)));
  const part = (name: string) => must(read(name)).parts[0]!;

  test("none throws: each is read, or gives a problem", () => {
    const refused: string[] = [];
    for (const name of names) {
      const result = read(name);
      if (!result.ok) refused.push(`${name} ${result.problems.map((p) => p.code).join()}`);
    }
    expect(names.length).toBeGreaterThanOrEqual(150);
    // One file is broken on purpose, one is compressed.
    expect(refused).toEqual([
      "32ad-Notations5.musicxml MUSICXML_NOT_XML",
      "90a-Compressed-MusicXML.mxl MUSICXML_COMPRESSED",
    ]);
  });

  test("03aa: durations plain, dotted and double dotted, down to the 64th", () => {
    const lengths = part("03aa").notes.map((n) => fractionText(n.length));
    expect(lengths.slice(0, 8)).toEqual(["2", "1", "1/2", "1/4", "1/8", "1/16", "1/32", "1/64"]);
    expect(lengths.slice(9, 16)).toEqual(["3", "3/2", "3/4", "3/8", "3/16", "3/32", "3/64"]);
  });

  test("23a: tuplets of 3:2, 4:3, 5:4, 6:4, 7:3 and 6:2 fill their bars exactly", () => {
    expect(problemsIn(read("23a")).map((p) => p.code)).toEqual([]);
  });

  test("45a: a simple repeat, five times; 45b: two endings", () => {
    expect(part("45a").bars.map((b) => b.number)).toEqual(["1", "1", "1", "1", "1", "2"]);
    expect(part("45b").bars.map((b) => b.number)).toEqual(["1", "2", "1", "3", "4"]);
  });

  test("24a: grace notes are said, not dropped in silence", () => {
    expect(problemsIn(read("24a")).map((p) => p.code)).toContain("MUSICXML_GRACE_NOTE");
  });

  test("33b: a tie joins two whole notes into one", () => {
    expect(part("33b").notes.map((n) => fractionText(n.length))).toEqual(["2"]);
  });

  test("72a: a B flat trumpet, a horn in E flat and a piano all sound the scale from C4", () => {
    const sounding = must(read("72a")).parts.map((p) =>
      p.notes.map((n) => midiNumber(transposePitch(n.written!, n.transposition))),
    );
    for (const line of sounding) expect(line.map((n) => n % 12)).toEqual([0, 2, 4, 5, 7, 9, 11, 0]);
  });
});
