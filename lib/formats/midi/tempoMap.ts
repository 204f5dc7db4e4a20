import { type Problem, type Seconds, seconds } from "../../base/index.js";
import { parseMeter } from "../../time/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";
import type { MidiDivision, MidiKey, MidiMaps, MidiMeter, MidiTempo } from "./midiFile.js";
import type { MidiEvent } from "./readEvents.js";

/** Without a tempo event a quarter note lasts half a second (Standard MIDI Files 1.0, RP-001). */
const DEFAULT_MICROSECONDS = 500_000;

/** The tempo, meter and key maps that the events of one or several tracks make together. The tempo map begins at tick 0; the others may be empty. */
export function midiMaps(
  events: readonly MidiEvent[],
  division: MidiDivision,
): { readonly maps: MidiMaps; readonly problems: readonly Problem[] } {
  const changes: { ticks: number; microseconds: number }[] = [{ ticks: 0, microseconds: DEFAULT_MICROSECONDS }];
  const meters: MidiMeter[] = [];
  const keys: MidiKey[] = [];
  const problems: Problem[] = [];
  for (const event of [...events].sort((a, b) => a.ticks - b.ticks)) {
    const { ticks } = event;
    if (event.kind === "tempo") changes.push({ ticks, microseconds: event.microsecondsPerQuarter });
    else if (event.kind === "keySignature") keys.push({ ticks, fifths: event.fifths, minor: event.minor });
    else if (event.kind === "timeSignature") {
      const text = `${event.numerator}/${event.denominator}`;
      const meter = parseMeter(text);
      if (meter.ok) meters.push({ ticks, meter: meter.value });
      else {
        const message = say("formats-problem.midi-meter-not-read", { found: text, tick: ticks });
        problems.push(problem("MIDI_METER_NOT_READ", message));
      }
    }
  }
  return { maps: { tempi: timed(changes, division), meters, keys }, problems };
}

/** When a tick sounds, in seconds from the start of the file. */
export function secondsAtTick(ticks: number, tempi: readonly MidiTempo[], division: MidiDivision): Seconds {
  if (division.kind === "frame") return seconds(ticks * secondsPerTick(division));
  let [low, high] = [0, tempi.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (tempi[middle]!.ticks <= ticks) low = middle;
    else high = middle - 1;
  }
  const tempo = tempi[low]!;
  return seconds(tempo.seconds + ((ticks - tempo.ticks) * tempo.microsecondsPerQuarter) / 1e6 / division.ticks);
}

function timed(changes: readonly { ticks: number; microseconds: number }[], division: MidiDivision): MidiTempo[] {
  const tempi: MidiTempo[] = [];
  for (const { ticks, microseconds } of changes) {
    // A later event at the same tick replaces the earlier one.
    if (tempi.at(-1)?.ticks === ticks) tempi.pop();
    const at = tempi.length === 0 ? seconds(0) : secondsAtTick(ticks, tempi, division);
    tempi.push({ ticks, seconds: at, microsecondsPerQuarter: microseconds });
  }
  return tempi;
}

function secondsPerTick(division: Extract<MidiDivision, { kind: "frame" }>): number {
  return division.framesPerSecond.d / (division.framesPerSecond.n * division.ticks);
}
