import { expect } from "vitest";
import { fraction } from "../../../lib/base/index.js";
import { rungs } from "../../../lib/drill/index.js";
import { compilePattern, type PatternDocument } from "../../../lib/pattern/index.js";
import { musicXmlOf, type PageBar, riffPage, type TakePageOptions, takePage } from "../../../lib/render/index.js";
import { must } from "../../time/shorthand.js";
import { drills } from "../courses.js";
import { schemaComplaints, schemaIsThere } from "./schema.js";

/** A line of notes as MusicXML, the blanks between elements taken out. */
export function written(
  notes: string,
  document: Partial<PatternDocument> = {},
  options: Record<string, unknown> = {},
): string {
  const whole: PatternDocument = { meter: "4/4", bars: 1, key: "C major", ...document, parts: { lead: { notes } } };
  const pattern = must(compilePattern("riff", whole, { instruments: {}, files: () => undefined }));
  const xml = must(musicXmlOf(riffPage(pattern, { part: "lead", ...options })));
  if (schemaIsThere) expect(schemaComplaints(xml)).toEqual([]);
  return xml.replaceAll("\n", "");
}
export const notesIn = (xml: string): readonly string[] =>
  [...xml.matchAll(/<note>(.*?)<\/note>/g)].map(([, note]) => note!);
/** "eighth.", "quarter r": type, dot, and whether it rests or is tied on. */
export const drawn = (xml: string): readonly string[] =>
  notesIn(xml).map((note) => {
    const type = /<type>(.*?)<\/type>/.exec(note)?.[1] ?? "bar";
    const signs = [note.includes("<dot/>") ? "." : "", note.includes('<tie type="start"/>') ? "~" : ""];
    return `${type}${signs.join("")}${note.includes("<rest") ? " r" : ""}`;
  });
export const beams = (xml: string): readonly string[] =>
  notesIn(xml).map((note) => [...note.matchAll(/<beam number="\d">(.*?)<\/beam>/g)].map(([, beam]) => beam).join("+"));
export const take = (drillName: string, options: Partial<TakePageOptions> = {}, rung = 0): string => {
  const drill = drills.find(([name]) => name === drillName)![1];
  const xml = must(musicXmlOf(takePage(rungs(drill).at(rung), { staves: "student", ...options })));
  if (schemaIsThere) expect(schemaComplaints(xml)).toEqual([]);
  return xml.replaceAll("\n", "");
};

/** One bar of 4/4. */
export const bar44: readonly PageBar[] = [
  {
    position: fraction(0),
    length: fraction(1),
    meter: { kind: "simple" as const, groups: [4], lower: 4 },
    number: "1",
    isPickup: false,
  },
];
