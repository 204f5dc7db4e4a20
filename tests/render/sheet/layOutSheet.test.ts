import { beforeAll, describe, expect, test } from "vitest";
import type { TextMark } from "../../../lib/render/sheet/drawing.js";
import type { Engraver, PaperName } from "../../../lib/render/sheet/index.js";
import { type LaidOutSheet, layOutSheets } from "../../../lib/render/sheet/layOutSheet.js";
import { MARGIN } from "../../../lib/render/sheet/pageStyle.js";
import type { SheetPage } from "../../../lib/render/sheet/svg.js";
import { openTypeface, type Typeface } from "../../../lib/render/sheet/typeface.js";
import { sample } from "../../samples.js";
import { casesOf, FONTS, HARD, openEngraver, SHIPPED, type SheetCase } from "./material.js";

let engraver: Engraver;
let type: Typeface;
beforeAll(async () => {
  engraver = await openEngraver();
  const opened = openTypeface(FONTS);
  if (!opened.ok) throw new Error("the fonts could not be read");
  type = opened.value;
});

const CASES = [...SHIPPED, HARD].flatMap(casesOf);

/** Sheets by paper and case: laying one out lays out those of the whole class, and several laws look at each. */
const laid = new Map<string, LaidOutSheet>();

function laidOut({ course, drill, player }: SheetCase, paper: PaperName): LaidOutSheet {
  const readers: readonly SheetCase["player"][] = drill.players.length === 0 ? [undefined] : drill.players;
  const keyOf = (reader: SheetCase["player"]): string =>
    `${paper} ${course.name} ${drill.name} ${readers.indexOf(reader)}`;
  if (!laid.has(keyOf(player))) {
    const sheets = layOutSheets(drill, readers, { paper, engraver, fonts: FONTS, course: course.title });
    if (!sheets.ok) throw new Error(JSON.stringify(sheets.problems));
    readers.forEach((reader, i) => void laid.set(keyOf(reader), sheets.value[i]!));
  }
  return laid.get(keyOf(player))!;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly text: string;
}

/** Where the letters of a text stand: from its baseline to its x-height or so, and its measured width. */
function boxOf({ x, y, text, face, size }: TextMark): Box {
  return { left: x, right: x + type.width(text, face, size), top: y - 0.6 * size, bottom: y, text };
}

const textsOn = (page: SheetPage): readonly TextMark[] =>
  page.marks.flatMap((mark) => (mark.kind === "text" ? [mark] : []));

/** Pairs of texts that cover each other by more than half a point: kerning of neighbouring runs stays below. */
function collisions(page: SheetPage): readonly string[] {
  const boxes = textsOn(page).map(boxOf);
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5)
      .filter((b) => Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5)
      .map((b) => `${a.text} / ${b.text}`),
  );
}

/** Of three drills so many are laid out on the shorter Letter paper too, and all that are hard to set. */
const share = sample({ suite: 1, proof: 3 });
/** Every sheet on A4; on Letter, for the last player of a drill. */
const PAPERS = [
  ...CASES.map((each) => [each.name, "a4", each] as const),
  ...CASES.filter((each) => each.player === each.drill.players.at(-1))
    .filter(({ course }, i) => i % 3 < share || course === HARD)
    .map((each) => [each.name, "letter", each] as const),
];

describe("texts", () => {
  test.each(PAPERS)("keep apart and inside the page: %s, %s", (_, paper, each) => {
    for (const page of laidOut(each, paper).pages) {
      expect(collisions(page)).toEqual([]);
      for (const box of textsOn(page).map(boxOf)) {
        expect(box.left, box.text).toBeGreaterThanOrEqual(MARGIN.side - 1);
        expect(box.right, box.text).toBeLessThanOrEqual(page.paper.width - MARGIN.side + 1);
        expect(box.top, box.text).toBeGreaterThanOrEqual(18);
        expect(box.bottom, box.text).toBeLessThanOrEqual(page.paper.height - MARGIN.bottom + 1);
      }
    }
  });
});

describe("layOutSheet()", () => {
  const find = (drill: string, instrument?: string): SheetCase =>
    CASES.find(
      (each) =>
        each.drill.name === drill && (instrument ?? each.player?.instrument.name) === each.player?.instrument.name,
    )!;
  const said = (each: SheetCase): string =>
    laidOut(each, "a4")
      .pages.flatMap(textsOn)
      .map(({ text }) => text)
      .join("|");

  test("puts the drills of the first course on one page each", () => {
    for (const each of casesOf(SHIPPED.find(({ name }) => name === "quayside-first-course")!))
      expect(laidOut(each, "a4").pages, each.name).toHaveLength(1);
  });

  // Trumpet in B flat reads a major second up, alto saxophone a major sixth (VALUES.md section 6, after music21).
  test("says the key and the chords as the player reads them, and how they sound", () => {
    expect(said(find("half-bar", "trumpet"))).toContain("A dorian (sounds G dorian)");
    expect(said(find("half-bar", "trumpet"))).toContain("|Am7|D7|Am7|D7|");
    expect(said(find("half-bar", "alto saxophone"))).toContain("E dorian (sounds G dorian)");
    expect(said(find("half-bar", "alto saxophone"))).toContain("|Em7|A7|Em7|A7|");
    expect(said(find("half-bar", "tuba"))).toContain("G dorian · ");
  });

  test("keeps chord symbols as their author wrote them, with the signs of print", () => {
    const text = said(find("hard", "viola"));
    for (const chord of ["D♭maj7", "G♭m7♭5", "A♭7/G♭", "D♭6/9", "N.C."])
      expect(text.replaceAll("|♭", "♭").replaceAll("♭|", "♭")).toContain(chord);
  });

  test("names the scale of open bars as the player reads it", () => {
    expect(said(find("tidewater-open", "trumpet"))).toContain("G major pentatonic: G A B D E");
    expect(said(find("tidewater-open", "trombone"))).toContain("F major pentatonic: F G A C D");
  });

  test("says what has to be shown, and cautions in two lines", () => {
    const text = said(find("half-bar", "tuba"));
    expect(text).toContain("3 of your last 4 takes on a rung are clean.");
    expect(text).toContain("comes first.");
    expect(
      textsOn(laidOut(find("half-bar", "tuba"), "letter").pages[0]!).filter(({ text: each }) =>
        each.startsWith("Keep the playback"),
      ),
    ).toHaveLength(1);
  });

  test("numbers the rungs of a short climb once each, and counts a long one", () => {
    const small = textsOn(laidOut(find("sevens-dropouts", "violin"), "a4").pages[0]!).filter(({ size }) => size === 7);
    expect(small.map(({ text }) => Number(text)).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 13 }, (_, i) => i + 1),
    );
    expect(said(find("hard", "viola"))).toContain("1\u00a0344 rungs");
  });
});
