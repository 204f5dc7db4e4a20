import { fraction, multiply, success } from "../../../base/index.js";
import { transposePitch } from "../../../pattern/index.js";
import { musicXmlOf, type Page, type PageStaff, scalePitches, staffTranspositionOf } from "../../musicxml/index.js";
import type { Result } from "../../problem.js";
import { engraveRiff } from "../engraving/engraveRiff.js";
import type { Engraver } from "../engraving/engraver.js";
import { withoutMeterAndStems, withoutPartNames } from "../engraving/engraverXml.js";
import type { System } from "../engraving/readEngraving.js";

/** Size of the scale's staff beside that of the riff, as cue notes are to full ones (common practice, no source). */
const SMALL = 0.65;

/** The octaves in which a scale may be written. */
const OCTAVES = [1, 2, 3, 4, 5, 6];
const LETTERS = "CDEFGAB";
/** The middle line of each clef as a number of letters from C0. */
const MIDDLE = { treble: 34, alto: 28, tenor: 26, bass: 22, percussion: 34 } as const;

/**
 * The scale of a page's open bars on a small staff, as its reader reads it, from tonic to tonic in the octave nearest to the middle of the staff;
 * `undefined` without open bars. Problem: ENGRAVING_FAILED.
 */
export function smallScale(
  page: Page,
  { engraver, width }: { readonly engraver: Engraver; readonly width: number },
): Result<System | undefined> {
  const staff = page.staves[0]!;
  const scale = staff.open[0]?.scale;
  if (scale === undefined) return success(undefined);
  const transposition = staffTranspositionOf(staff, page.key);
  const pitches = OCTAVES.map((octave) => {
    const once = scalePitches(scale, octave);
    return [...once, transposePitch(once[0]!, { diatonic: 7, chromatic: 12 })];
  });
  const height = (notes: (typeof pitches)[number]): number => {
    const places = notes.map((each) => {
      const { letter, octave } = transposition.pitch(each);
      return 7 * octave + LETTERS.indexOf(letter);
    });
    return Math.abs((places[0]! + places.at(-1)!) / 2 - MIDDLE[transposition.clef]);
  };
  const best = pitches.reduce((a, b) => (height(b) < height(a) ? b : a));
  const written = musicXmlOf(scalePage(page, staff, best));
  if (!written.ok) return written;
  const xml = withoutMeterAndStems(withoutPartNames(written.value));
  const drawn = engraveRiff(xml, { engraver, width: width / SMALL });
  return drawn.ok ? success(smaller(drawn.value.systems[0]!)) : drawn;
}

/** One bar with a quarter note for each note of the scale. */
function scalePage({ title, key }: Page, staff: PageStaff, pitches: ReturnType<typeof scalePitches>): Page {
  const quarter = fraction(1, 4);
  const notes = pitches.map((pitch, i) => {
    return { pitch, position: multiply(quarter, fraction(i)), length: quarter, accent: false };
  });
  const meter = { kind: "simple" as const, groups: [pitches.length], lower: 4 };
  const bar = { position: fraction(0), length: fraction(pitches.length, 4), meter, number: "1", isPickup: false };
  // Without a reader the clef follows from the notes, which lie around the middle of the riff's own clef.
  return { title, key, bars: [bar], chords: [], staves: [{ ...staff, notes, open: [], brackets: [] }] };
}

function smaller(system: System): System {
  const by = (value: number): number => value * SMALL;
  return {
    marks: system.marks.map((mark) => ({
      ...mark,
      x: by(mark.x),
      y: by(mark.y),
      scaleX: by(mark.scaleX),
      scaleY: by(mark.scaleY),
    })),
    texts: [],
    top: by(system.top),
    bottom: by(system.bottom),
    bars: system.bars.map(({ left, right }) => ({ left: by(left), right: by(right) })),
    covered: [],
    heads: [],
  };
}
