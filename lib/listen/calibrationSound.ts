import { CAUTIONS, CLICK_CAUTION } from "../base/index.js";
import { encodeWav } from "../formats/sound/index.js";
import { cautionInEnglish, cautionsIn, english, soundInEnglish, type Words, wordsOf } from "../words/index.js";
import { CALIBRATION_CLICKS } from "./latency.js";

const RATE = 44_100;
/** Peak, a quarter of full scale: not to startle anybody who wears headphones. */
const LEVEL = 0.25;
/** How fast a click dies away, seconds, and the tones it is of, Hz: a knock on wood. */
const DECAY = 0.05;
const TONES = [880, 2350] as const;

export interface CalibrationSoundOptions {
  /** The language of title and cautions in the file; English when left out. */
  readonly words?: Words<"sound" | "caution">;
}

/**
 * The clicks a device is measured with, as a WAV file; the same bytes each time.
 *
 * @example
 * soundFormatOf(calibrationSound()) // "WAV"
 */
export function calibrationSound({
  words = wordsOf(english, { ...soundInEnglish, ...cautionInEnglish }),
}: CalibrationSoundOptions = {}): Uint8Array {
  const { first, apart, count } = CALIBRATION_CLICKS;
  const samples = new Float32Array(Math.ceil((2 * first + count * apart) * RATE));
  for (let click = 0; click < count; click++) {
    const from = Math.round((first + click * apart) * RATE);
    for (let i = 0; i < apart * RATE && from + i < samples.length; i++) {
      const seconds = i / RATE;
      const tone = TONES.reduce((sum, hertz) => sum + Math.sin(2 * Math.PI * hertz * seconds), 0) / TONES.length;
      samples[from + i] = LEVEL * tone * Math.exp(-seconds / DECAY);
    }
  }
  return encodeWav(
    { rate: RATE, channels: [samples, samples] },
    {
      samples: 16,
      label: {
        title: words.say("sound.clicks"),
        comment: cautionsIn(words, [CLICK_CAUTION, ...CAUTIONS]).join(" "),
        software: "leeway",
      },
    },
  );
}
