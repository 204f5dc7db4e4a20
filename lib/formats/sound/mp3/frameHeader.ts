/** The header of an MP3 frame. */
export interface Mp3Frame {
  /** Bytes from the start of this frame to the start of the next. */
  readonly length: number;
  readonly rate: number;
  /** Samples of each channel. */
  readonly samples: number;
  /** Whether it is MPEG-1. MPEG-2 has half the sample rates, MPEG-2.5 a quarter. */
  readonly isFirstVersion: boolean;
  readonly isMono: boolean;
}

/** Bytes of a frame header. */
export const FRAME_HEADER = 4;
/** Longest frame of layer III: 320 kbit/s at 32 kHz, padded. */
export const LONGEST_FRAME = 1441;

// ISO/IEC 11172-3 and 13818-3, layer III: kbit/s by index (index 0 is the free format, which recorders do not write), and samples per second of MPEG-1.
const BIT_RATES = [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320];
const LOW_BIT_RATES = [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160];
const RATES = [44_100, 48_000, 32_000];
/** Divisor of the sample rate by the two version bits: MPEG-2.5, reserved, MPEG-2, MPEG-1. */
const DIVISORS = [4, 0, 2, 1];
const LAYER_III = 1;

/** Reads the header of a layer III frame at `at`; `undefined` when there is none. */
export function frameAt(bytes: Uint8Array, at = 0): Mp3Frame | undefined {
  if (at + FRAME_HEADER > bytes.length || bytes[at] !== 0xff || (bytes[at + 1]! & 0xe0) !== 0xe0) return undefined;
  const [second, third, fourth] = [bytes[at + 1]!, bytes[at + 2]!, bytes[at + 3]!];
  const divisor = DIVISORS[(second >> 3) & 3]!;
  const base = RATES[(third >> 2) & 3];
  const isFirstVersion = divisor === 1;
  const kilobits = (isFirstVersion ? BIT_RATES : LOW_BIT_RATES)[third >> 4] ?? 0;
  if (divisor === 0 || base === undefined || kilobits === 0 || ((second >> 1) & 3) !== LAYER_III) return undefined;
  const rate = base / divisor;
  const samples = isFirstVersion ? 1152 : 576;
  const length = Math.floor(((samples / 8) * kilobits * 1000) / rate) + ((third >> 1) & 1);
  return { length, rate, samples, isFirstVersion, isMono: fourth >> 6 === 3 };
}

/** Whether two frames can be of one recording: same version and sample rate. */
export function isAlike(a: Mp3Frame, b: Mp3Frame): boolean {
  return a.rate === b.rate && a.isFirstVersion === b.isFirstVersion;
}
