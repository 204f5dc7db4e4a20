import { add, type Fraction, failure, fraction, gcd, multiply, problemsOf, success } from "../../base/index.js";
import { element, textElement, type Xml } from "../../formats/musicxml/index.js";
import { PERCUSSION } from "../../pattern/index.js";
import { cautionsIn, wordInstrument } from "../../words/index.js";
import { renderCodes } from "../codes.js";
import { ENGLISH, type FileWords } from "../fileWords.js";
import { capital } from "../phrases.js";
import type { Problem, Result } from "../problem.js";
import { programOf } from "../programs.js";
import { sayProblem } from "../say.js";
import { accidentalsOf } from "./accidentals.js";
import { measure, type StaffPlan } from "./measure.js";
import { type MetricNode, metricTree } from "./metricTree.js";
import { type NoteSymbol, noteSymbolsIn } from "./noteSymbols.js";
import type { Page, PageBar, PageStaff } from "./page.js";
import { marksOf } from "./staffMarks.js";
import { staffTranspositionOf } from "./staffTransposition.js";
import { DRUM_SET, standardSound } from "./standardSounds.js";
import { type Sounding, stretchesByBar, voicesOf } from "./voices.js";

const problem = problemsOf(renderCodes);
/** The most divisions of a quarter note that MIDI can express (MusicXML 4.0, `divisions`). */
const MOST_DIVISIONS = 16383;

/**
 * A page as a MusicXML 4.0 document (score-partwise, UTF-8), one part for each staff. The same page gives the same text.
 *
 * Problems: NOTE_NOT_NOTATABLE, with part and bar, for a length that no note values or tuplets up to 15 express. Throws `RangeError` for a
 * page without bars or staves.
 *
 * @example
 * musicXmlOf(riffPage(drill.pattern, { part: drill.student, variant: "plain" })).ok // true
 */
export function musicXmlOf(page: Page): Result<string> {
  if (page.bars.length === 0 || page.staves.length === 0) throw new RangeError("a page has bars and staves");
  const problems: Problem[] = [];
  const plans = page.staves.map((staff, i): StaffPlan => {
    const transposition = staffTranspositionOf(staff, page.key);
    const voices = voicesOn(staff, page, problems);
    return {
      staff,
      transposition,
      voices,
      accidentals: accidentalsOf(voices, transposition),
      marks: marksOf(page, staff, { transposition, isFirst: i === 0 }),
    };
  });
  if (problems.length > 0) return { ok: false, problems };
  const divisions = divisionsOf(page, plans);
  if (divisions > MOST_DIVISIONS) {
    const limit = { most: String(MOST_DIVISIONS), found: String(divisions) };
    const message = sayProblem("render-problem.divisions-too-many", limit);
    return failure(problem("NOTE_NOT_NOTATABLE", message));
  }
  const parts = plans.map((plan, i) => {
    const instrumentOf = (voice: string): string => instrumentId(i, voice);
    const measures = page.bars.map((_, index) => measure(index, { page, plan, divisions, instrumentOf }));
    return element("part", { id: `P${i + 1}` }, measures);
  });
  const head = [
    element("work", {}, [textElement("work-title", page.title)]),
    identification(page),
    credit("title", page.title),
    credit("composer", page.credits?.author),
    credit("arranger", page.credits?.arranger),
    credit("rights", page.credits?.copyright),
    element(
      "part-list",
      {},
      page.staves.map((staff, i) => scorePart(staff, i, page.words)),
    ),
  ];
  const root = element("score-partwise", { version: "4.0" }, [...head, ...parts]);
  return success(`<?xml version="1.0" encoding="UTF-8"?>\n${DOCTYPE}\n${root}\n`);
}

/** The document type as the W3C publishes it. Its address is a name; nothing is fetched. */
const DOCTYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

function voicesOn(staff: PageStaff, page: Page, problems: Problem[]): StaffPlan["voices"] {
  return voicesOf(staff, page.bars).map((voice) =>
    stretchesByBar(page.bars, voice).map((stretches, i) => {
      const bar = page.bars[i]!;
      const symbols = noteSymbolsIn(stretches, treeOf(bar));
      if (symbols === undefined) problems.push(notNotatable(staff, bar));
      return symbols ?? [];
    }),
  );
}

/** The metric tree of a bar. A bar that is shorter than its meter is the beginning of a whole bar, a pick-up the end of one. */
function treeOf(bar: PageBar): MetricNode {
  const tree = metricTree(bar.meter);
  if (!bar.isPickup) return tree;
  return shifted(tree, add(bar.length, { n: -tree.to.n, d: tree.to.d }));
}

function shifted(node: MetricNode, by: Fraction): MetricNode {
  const children = (): readonly MetricNode[] => node.children().map((child) => shifted(child, by));
  return { ...node, from: add(node.from, by), to: add(node.to, by), children };
}

function notNotatable(staff: PageStaff, bar: PageBar): Problem {
  const place = { bar: String(bar.number), staff: staff.name };
  const message = sayProblem("render-problem.note-not-notatable", place);
  return problem("NOTE_NOT_NOTATABLE", message, {}, sayProblem("render-problem.note-not-notatable-remedy"));
}

function divisionsOf(page: Page, plans: readonly StaffPlan[]): number {
  let divisions = 1;
  const take = (position: Fraction): void => {
    const { d } = multiply(position, fraction(4));
    divisions = (divisions / gcd(divisions, d)) * d;
  };
  for (const bar of page.bars) {
    take(bar.position);
    take(bar.length);
  }
  for (const { voices, marks } of plans) {
    for (const mark of marks) take(mark.position);
    for (const symbol of voices.flat(2) as readonly NoteSymbol<Sounding>[]) {
      take(symbol.from);
      take(symbol.to);
    }
  }
  return divisions;
}

function scorePart(staff: PageStaff, index: number, words: FileWords = ENGLISH): Xml {
  const id = `P${index + 1}`;
  if (staff.kind === "percussion") {
    const voices = [...new Set(staff.notes.map(({ voice }) => voice ?? ""))];
    return element("score-part", { id }, [
      textElement("part-name", capital(staff.name)),
      ...voices.map((voice) =>
        element("score-instrument", { id: instrumentId(index, voice) }, [
          textElement("instrument-name", voice),
          textElement("instrument-sound", DRUM_SET),
        ]),
      ),
      ...voices.map((voice) =>
        element("midi-instrument", { id: instrumentId(index, voice) }, [
          textElement("midi-channel", 10),
          // Counted from 1 here, from 0 in MIDI itself (MusicXML 4.0, `midi-unpitched`).
          PERCUSSION.has(voice) ? textElement("midi-unpitched", PERCUSSION.get(voice)! + 1) : "",
        ]),
      ),
    ]);
  }
  const instrument = staff.reader?.instrument.name ?? staff.name;
  const program = programOf({ name: staff.name, instrument: staff.reader?.instrument.name });
  const sound = standardSound(program);
  // A part is called what its player is: "Trumpet" and not "lead".
  const called = staff.reader?.instrument.name;
  const name = capital(called === undefined ? staff.name : wordInstrument(called, words));
  return element("score-part", { id }, [
    textElement("part-name", name),
    element("score-instrument", { id: `${id}-I1` }, [
      textElement("instrument-name", instrument),
      sound === undefined ? "" : textElement("instrument-sound", sound),
    ]),
    element("midi-instrument", { id: `${id}-I1` }, [textElement("midi-program", program)]),
  ]);
}

function instrumentId(index: number, voice: string): string {
  return `P${index + 1}-I${PERCUSSION.get(voice) ?? 0}${voice.replace(/[^a-z]/gi, "")}`;
}

function identification({ credits: { author, arranger, copyright } = {}, words = ENGLISH }: Page): Xml {
  return element("identification", {}, [
    author === undefined ? "" : textElement("creator", author, { type: "composer" }),
    arranger === undefined ? "" : textElement("creator", arranger, { type: "arranger" }),
    copyright === undefined ? "" : textElement("rights", copyright),
    element("encoding", {}, [textElement("software", "leeway")]),
    element("miscellaneous", {}, [
      textElement("miscellaneous-field", cautionsIn(words).join(" "), { name: "caution" }),
    ]),
  ]);
}

function credit(type: string, text: string | undefined): Xml {
  if (text === undefined) return "";
  return element("credit", { page: 1 }, [textElement("credit-type", type), textElement("credit-words", text)]);
}
