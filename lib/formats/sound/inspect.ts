import { type Ceiling, type CeilingSeeker, ceilingSeeker } from "./ceiling.js";
import { problem } from "./codes.js";
import type { Report } from "./recording.js";
import { say } from "./say.js";
import type { SoundBlock, SoundStream } from "./soundStream.js";

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
    const message = say("recording-problem.not-numbers", { wrong, samples: count * channels.length });
    report(problem("RECORDING_NOT_NUMBERS", message, {}, say("recording-problem.not-numbers-remedy")));
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
  const decibels = (level: number): number => 20 * Math.log10(level);
  if (offset > OFF_CENTRE) {
    const message = say("recording-problem.off-centre", { offset });
    report(problem("RECORDING_OFF_CENTRE", message, {}, say("recording-problem.off-centre-remedy")));
  }
  if (swing < SILENCE) {
    const message = say("recording-problem.silent");
    report(problem("RECORDING_SILENT", message, {}, say("recording-problem.silent-remedy")));
    return;
  }
  if (swing < QUIET) {
    const message = say("recording-problem.quiet", { decibels: decibels(swing) });
    report(problem("RECORDING_QUIET", message, {}, say("recording-problem.quiet-remedy")));
  }
  const ceilings = channels.map(ceilingFound).filter(({ samples }) => samples > CUT_SHARE * count);
  const worst = ceilings.sort((a, b) => b.samples - a.samples)[0];
  if (worst !== undefined) {
    const percent = (100 * worst.samples) / count;
    const message =
      worst.level >= CUT.level
        ? say("recording-problem.clipped", { percent })
        : say("recording-problem.clipped-below", { percent, decibels: decibels(worst.level) });
    report(problem("RECORDING_CLIPPED", message, {}, say("recording-problem.clipped-remedy")));
  }
}

/** The clipping level of a channel, at full scale or below, and the number of samples at it. */
function ceilingFound({ cut, seeker }: Channel): Ceiling {
  const below = seeker.ceilings();
  const samples = below.reduce((sum, ceiling) => sum + ceiling.samples, 0);
  return cut >= samples ? { level: 1, samples: cut } : { level: Math.max(...below.map(({ level }) => level)), samples };
}
