import type { PageBar } from "../../musicxml/index.js";

/** Changes of the MusicXML for the engraver; none changes the music. */

/** Removes the part names: the header of the sheet names the player. */
export function withoutPartNames(musicXml: string): string {
  return musicXml.replace(/<part-name>[^<]*<\/part-name>/g, "<part-name/>");
}

/** Hides the meter and all stems: of a scale, which is in no time. */
export function withoutMeterAndStems(musicXml: string): string {
  return musicXml
    .replace(/<beam [^>]*>[^<]*<\/beam>/g, "")
    .replace(/<time>/g, '<time print-object="no">')
    .replace(/<\/type>/g, "</type><stem>none</stem>")
    .replace(/<bar-style>light-heavy<\/bar-style>/g, "<bar-style>none</bar-style>");
}

/** Adds a system break before each of these measures (0 is the first). */
export function withSystemsAt(musicXml: string, measures: ReadonlySet<number>): string {
  return eachMeasure(musicXml, (measure, index) =>
    measures.has(index)
      ? measure.replace(/^<measure [^>]*>/, (opening) => `${opening}<print new-system="yes"/>`)
      : measure,
  );
}

/** The MusicXML pitch of the middle staff line, by clef sign, or sign and line. */
const MIDDLE: Readonly<Record<string, string>> = {
  G: "<pitch><step>B</step><octave>4</octave></pitch>",
  F: "<pitch><step>D</step><octave>3</octave></pitch>",
  C3: "<pitch><step>C</step><octave>4</octave></pitch>",
  C4: "<pitch><step>A</step><octave>3</octave></pitch>",
  percussion: "<unpitched><display-step>B</display-step><display-octave>4</display-octave></unpitched>",
};

/** Changes the notes of these measures (0 is the first) to slashes on the middle line: Verovio reads slash noteheads but not the `measure-style` of MusicXML. */
export function withSlashesIn(musicXml: string, measures: ReadonlySet<number>): string {
  const [, sign = "G", line = ""] = /<clef>\s*<sign>(\w+)<\/sign>(?:\s*<line>(\d)<\/line>)?/.exec(musicXml) ?? [];
  const middle = MIDDLE[sign] ?? MIDDLE[sign + line] ?? MIDDLE.G!;
  return eachMeasure(musicXml, (measure, index) => {
    if (!measures.has(index)) return measure;
    return measure.replace(/<note>[\s\S]*?<\/note>/g, (note) =>
      note
        .replace(/<(pitch|unpitched)>[\s\S]*?<\/\1>/, middle)
        .replace(/<(accidental|notehead)[^>]*>[^<]*<\/\1>\s*|<stem>[^<]*<\/stem>\s*|<beam [^>]*>[^<]*<\/beam>\s*/g, "")
        .replace(/<\/type>(?:\s*<dot\/>)*/, (type) => `${type}<stem>none</stem><notehead>slash</notehead>`),
    );
  });
}

/** Adds hidden rests to each bar with a whole-bar rest, one for each unit of the meter: without them the bar is hardly wider than the rest. */
export function withRoomInEmptyBars(musicXml: string, bars: readonly PageBar[]): string {
  const divisions = Number(/<divisions>(\d+)</.exec(musicXml)?.[1] ?? 1);
  return eachMeasure(musicXml, (measure, index) => {
    const bar = bars[index];
    const each = bar === undefined ? 0 : (4 * divisions) / bar.meter.lower;
    const count = bar === undefined ? 0 : (bar.length.n * bar.meter.lower) / bar.length.d;
    if (!/<rest measure="yes"\/>/.test(measure) || !Number.isInteger(each) || !Number.isInteger(count)) return measure;
    const hidden = `<note print-object="no"><rest/><duration>${each}</duration><voice>9</voice></note>`;
    const room = `<backup><duration>${each * count}</duration></backup>${hidden.repeat(count)}`;
    return measure.replace(/(<rest measure="yes"\/>[\s\S]*?<\/note>)/, (rest) => rest + room);
  });
}

function eachMeasure(musicXml: string, change: (measure: string, index: number) => string): string {
  let index = -1;
  return musicXml.replace(/<measure [\s\S]*?<\/measure>/g, (measure) => {
    index += 1;
    return change(measure, index);
  });
}
