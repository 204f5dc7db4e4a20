/** Builders of MusicXML, so that a test shows only what it is about. */

/** A score of one part P1 ("Lead") with these measures; the first gets divisions of 12 to a quarter and 4/4 unless it has attributes. */
export function score(...measures: readonly string[]): string {
  const bars = measures.map((text, i) => {
    if (text.startsWith("<measure")) return text;
    const attributes = i === 0 && !text.includes("<attributes>") ? FOUR_FOUR : "";
    return `<measure number="${i + 1}">${attributes}${text}</measure>`;
  });
  return `<?xml version="1.0"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list><part id="P1">${bars.join("")}</part></score-partwise>`;
}

export const FOUR_FOUR: string =
  "<attributes><divisions>12</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

/** A note: "D4", "Bb3"; duration in twelfths of a quarter; `more` is put in as it is. */
export function note(pitch: string, duration: number, more = ""): string {
  const [, step, sign, octave] = /^([A-G])([b#]*)(\d)$/.exec(pitch)!;
  const alter = (sign!.startsWith("b") ? -1 : 1) * sign!.length;
  const alteration = sign ? `<alter>${alter}</alter>` : "";
  const chord = more.includes("<chord/>") ? "<chord/>" : "";
  const rest = more.replace("<chord/>", "");
  return `<note>${chord}<pitch><step>${step}</step>${alteration}<octave>${octave}</octave></pitch><duration>${duration}</duration>${rest}</note>`;
}

export const rest = (duration: number): string => `<note><rest/><duration>${duration}</duration></note>`;
export const repeat = (direction: "forward" | "backward", times?: number): string =>
  `<barline><repeat direction="${direction}"${times === undefined ? "" : ` times="${times}"`}/></barline>`;
export const ending = (number: string, type: "start" | "stop" | "discontinue"): string =>
  `<barline><ending number="${number}" type="${type}"/></barline>`;
