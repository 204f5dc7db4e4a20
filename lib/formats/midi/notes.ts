import { fraction } from "../../base/index.js";
import type { MidiDivision, MidiNote, MidiTempo } from "./midiFile.js";
import type { MidiEvent } from "./readEvents.js";
import { secondsAtTick } from "./tempoMap.js";

interface NoteStart {
  readonly channel: number;
  readonly key: number;
  readonly ticks: number;
  readonly velocity: number;
}

/**
 * The notes of a track: each note on with the next note off of its channel and key, first in first out. Notes that are never ended end with
 * the track; `hanging` counts them. In order of their starts, then keys.
 */
export function pairNotes(
  events: readonly MidiEvent[],
  { track, endTicks, division, tempi }: TrackTime,
): { readonly notes: readonly MidiNote[]; readonly hanging: number } {
  const sounding = new Map<number, { readonly starts: NoteStart[]; next: number }>();
  const notes: MidiNote[] = [];
  const end = (channelKey: number, until: number): boolean => {
    const queue = sounding.get(channelKey);
    const start = queue?.starts[queue.next];
    if (!queue || !start) return false;
    queue.next++;
    notes.push({ track, ...start, endTicks: until, ...timesOf(start.ticks, until, { division, tempi }) });
    return true;
  };
  for (const event of events) {
    if (event.kind === "noteOn") {
      const { channel, key, ticks, velocity } = event;
      const queue = sounding.get(channel * 128 + key) ?? { starts: [], next: 0 };
      queue.starts.push({ channel, key, velocity, ticks });
      sounding.set(channel * 128 + key, queue);
    } else if (event.kind === "noteOff") end(event.channel * 128 + event.key, event.ticks);
  }
  let hanging = 0;
  for (const channelKey of sounding.keys()) while (end(channelKey, endTicks)) hanging++;
  notes.sort((a, b) => a.ticks - b.ticks || a.key - b.key);
  return { notes, hanging };
}

/** The same ticks in seconds and, where the file counts quarter notes, in whole notes. */
function timesOf(
  ticks: number,
  endTicks: number,
  { division, tempi }: Pick<TrackTime, "division" | "tempi">,
): Pick<MidiNote, "seconds" | "endSeconds" | "position" | "length"> {
  const seconds = secondsAtTick(ticks, tempi, division);
  const endSeconds = secondsAtTick(endTicks, tempi, division);
  if (division.kind === "frame") return { seconds, endSeconds };
  const whole = 4 * division.ticks;
  return { seconds, endSeconds, position: fraction(ticks, whole), length: fraction(endTicks - ticks, whole) };
}

/** Which track it is, from 0, and how its ticks become seconds. */
export interface TrackTime {
  readonly track: number;
  readonly endTicks: number;
  readonly division: MidiDivision;
  readonly tempi: readonly MidiTempo[];
}
