import fraction from "fraction.js";
import { XmlDocument, type XmlElement } from "libxml2-wasm";

/** A note as a plain walk of the document finds it: exact position and length as text, sounding MIDI number or GM key. */
export interface WalkedNote {
  readonly position: string;
  readonly length: string;
  readonly sounds: number;
  readonly accent: boolean;
}

const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/**
 * Reads the notes of a part with nothing but a general XML parser and other people's fractions: what MusicXML 4.0 says of `duration`,
 * `divisions`, `backup`, `chord`, `tie` and `transpose`, and nothing of the project's own reader.
 */
export function walkedNotes(xml: string, partId: string): readonly WalkedNote[] {
  const document = XmlDocument.fromString(xml);
  try {
    const unpitched = new Map<string, number>();
    for (const node of document.find(`/score-partwise/part-list/score-part[@id="${partId}"]/midi-instrument`)) {
      const key = (node as XmlElement).get("midi-unpitched")?.content;
      if (key !== undefined) unpitched.set((node as XmlElement).attr("id")!.value, Number(key) - 1);
    }
    let divisions = 0;
    let chromatic = 0;
    let start = new fraction(0);
    const notes: { position: fraction; length: fraction; sounds: number; accent: boolean }[] = [];
    const open = new Map<string, (typeof notes)[number]>();
    for (const measure of document.find(`/score-partwise/part[@id="${partId}"]/measure`)) {
      let cursor = start;
      let end = start;
      let onset = start;
      for (const child of (measure as XmlElement).find("*") as XmlElement[]) {
        const number = (path: string): number => Number(child.get(path)?.content ?? 0);
        if (child.name === "attributes") {
          divisions = number("divisions") || divisions;
          if (child.get("transpose"))
            chromatic = number("transpose/chromatic") + 12 * number("transpose/octave-change");
        }
        if (!["note", "backup", "forward"].includes(child.name)) continue;
        const length = new fraction(number("duration"), 4 * divisions);
        if (child.name === "backup") {
          cursor = cursor.sub(length);
          continue;
        }
        const isChord = child.get("chord") !== null;
        if (!isChord) {
          onset = cursor;
          cursor = cursor.add(length);
          if (cursor.compare(end) > 0) end = cursor;
        }
        const instrument = (child.get("instrument") as XmlElement | null)?.attr("id")?.value;
        const step = child.get("pitch/step")?.content;
        if (step === undefined && child.get("unpitched") === null) continue;
        const sounds =
          step === undefined
            ? unpitched.get(instrument!)!
            : STEPS[step]! + number("pitch/alter") + 12 * (number("pitch/octave") + 1) + chromatic;
        const tied = `${sounds} ${onset.toFraction()}`;
        const before = child.get('tie[@type="stop"]') ? open.get(tied) : undefined;
        if (before) before.length = before.length.add(length);
        else
          notes.push({ position: onset, length, sounds, accent: child.get("notations/articulations/accent") !== null });
        open.delete(tied);
        if (child.get('tie[@type="start"]'))
          open.set(`${sounds} ${onset.add(length).toFraction()}`, before ?? notes.at(-1)!);
      }
      start = end;
    }
    if (open.size > 0) throw new Error(`ties that lead nowhere: ${[...open.keys()].join(", ")}`);
    return notes.map(({ position, length, ...rest }) => ({
      position: position.toFraction(),
      length: length.toFraction(),
      ...rest,
    }));
  } finally {
    document.dispose();
  }
}
