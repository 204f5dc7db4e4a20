import { problemsOf } from "../../base/index.js";
import { type Ceiling, type CeilingSeeker, ceilingSeeker } from "./ceiling.js";
import { recordingCodes } from "./codes.js";
import type { Report } from "./recording.js";
import type { SoundBlock, SoundStream } from "./soundStream.js";

const problem = problemsOf(recordingCodes);

/** Largest credible sample; our choice: 60 dB above full scale, which floating point allows and no device produces. */
const IMPOSSIBLE = 1000;
/** Peak below which a recording is silent, -80 dB of full scale; our choice: the noise of the quietest 16-bit devices is below it. */
const SILENCE = 1e-4;
/** Peak below which a recording is quiet, -40 dB; our choice: the noise of a room then masks soft notes, 30 dB below the loudest. */
const QUIET = 1e-2;
/** Level of clipping, and fewest samples in a row at it; our choice: a loud sine of 100 Hz has fewer at its peak. */
const CUT = { level: 0.999, run: 3 } as const;
/** Least share of clipped samples that is reported; our choice: a few at hard attacks do not move onsets. */
const CUT_SHARE = 1e-3;
/** Least mean of a channel that is reported as an offset; our choice, -40 dB, far above the offset of a sound device. */
const OFF_CENTRE = 1e-2;

interface Channel {
  sum: number;
  high: number;
  low: number;
  run: number;
  cut: number;
  readonly seeker: CeilingSeeker;
}

/**
 * Passes a sound on, with samples that are not finite numbers replaced. At its end it reports RECORDING_NOT_NUMBERS, and as advice
 * RECORDING_SILENT, RECORDING_QUIET, RECORDING_CLIPPED, RECORDING_OFF_CENTRE.
 */
export async function* inspected(sound: SoundStream, report: Report): SoundStream {
  const channels: Channel[] = [];
  let count = 0;
  let wrong = 0;
  for await (const block of sound) {
    const { rate } = block;
    const cleaned = block.channels.map((samples) => {
      const fine = samples.every((value) => Math.abs(value) <= IMPOSSIBLE);
      if (fine) return samples;
      return samples.map((value) => {
        if (Math.abs(value) <= IMPOSSIBLE) return value;
        wrong++;
        return 0;
      });
    });
    const checked: SoundBlock = { rate, channels: cleaned };
    cleaned.forEach((samples, i) => {
      channels[i] ??= openChannel();
      weigh(channels[i], samples);
      channels[i].seeker.weigh(samples);
    });
    count += cleaned[0]?.length ?? 0;
    yield checked;
  }
  if (wrong > 0) {
    const message = `${wrong} of ${count * channels.length} samples are no numbers, or impossibly large, and count as silence`;
    report(problem("RECORDING_NOT_NUMBERS", message, {}, "save it again as whole numbers of 16 or 24 bits"));
  }
  if (count > 0) conclude(channels, count, report);
}

function openChannel(): Channel {
  const [high, low] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  return { sum: 0, high, low, run: 0, cut: 0, seeker: ceilingSeeker() };
}

function weigh(channel: Channel, samples: Float32Array): void {
  let { sum, high, low, run, cut } = channel;
  for (const value of samples) {
    sum += value;
    if (value > high) high = value;
    if (value < low) low = value;
    if (value >= CUT.level || value <= -CUT.level) {
      run++;
      if (run === CUT.run) cut += run;
      else if (run > CUT.run) cut++;
    } else run = 0;
  }
  Object.assign(channel, { sum, high, low, run, cut });
}

function conclude(channels: readonly Channel[], count: number, report: Report): void {
  const most = (of: (channel: Channel) => number): number => Math.max(...channels.map(of));
  // A constant is silent too, so the peak is measured about the middle.
  const swing = most(({ high, low }) => (high - low) / 2);
  const offset = most(({ sum }) => Math.abs(sum / count));
  const decibels = (level: number): string => `${(20 * Math.log10(level)).toFixed(0)} dB`;
  if (offset > OFF_CENTRE) {
    const message = `its waves swing about ${offset.toFixed(3)} of full scale, not about 0`;
    report(problem("RECORDING_OFF_CENTRE", message, {}, "try another input or cable"));
  }
  if (swing < SILENCE) {
    report(
      problem(
        "RECORDING_SILENT",
        "nothing is to be heard in it",
        {},
        "check which microphone is in use, and its level",
      ),
    );
    return;
  }
  if (swing < QUIET) {
    const message = `its loudest sample lies at ${decibels(swing)} of full scale`;
    report(problem("RECORDING_QUIET", message, {}, "go nearer to the microphone, or turn its level up"));
  }
  const ceilings = channels.map(ceilingFound).filter(({ samples }) => samples > CUT_SHARE * count);
  const worst = ceilings.sort((a, b) => b.samples - a.samples)[0];
  if (worst !== undefined) {
    const place =
      worst.level >= CUT.level
        ? "full scale"
        : `${decibels(worst.level)} of full scale, as by a device before the recorder`;
    const message = `${((100 * worst.samples) / count).toFixed(1)} % of its samples are cut off at ${place}`;
    report(problem("RECORDING_CLIPPED", message, {}, "go further from the microphone, or turn its level down"));
  }
}

/** The clipping level of a channel, at full scale or below, and the number of samples at it. */
function ceilingFound({ cut, seeker }: Channel): Ceiling {
  const below = seeker.ceilings();
  const samples = below.reduce((sum, ceiling) => sum + ceiling.samples, 0);
  return cut >= samples ? { level: 1, samples: cut } : { level: Math.max(...below.map(({ level }) => level)), samples };
}
