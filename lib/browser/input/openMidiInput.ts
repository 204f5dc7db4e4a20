import { failure, type Result, success } from "../../base/index.js";
import type { SoundClock } from "../clock/model.js";
import { browserProblem } from "../codes.js";
import type { Damage } from "../damage.js";
import { say } from "../say.js";
import { telling } from "../telling.js";
import type { InputNote, InputState, MidiInput, MidiInputOptions } from "./model.js";

/** The status of a note that begins, above its channel; a velocity of 0 is its end (MIDI 1.0). */
const NOTE_ON = 0x9;
/** Keys of channel 10 (9 from 0) are drums, not pitches (General MIDI System Level 1). */
const PERCUSSION_CHANNEL = 9;

/**
 * Opens MIDI devices as an input, also those that are plugged in later; while there is none, the input waits. Notes have concert pitch (but for
 * drums) and velocity; their time is that of the message.
 *
 * Problems: MIDI_NOT_HERE, MIDI_REFUSED. Throws `RangeError` for a channel that is not 1 to 16.
 *
 * @example
 * const keys = await openMidiInput(player.clock, { channel: 1 });
 */
export async function openMidiInput(
  clock: SoundClock,
  { device: wanted, channel }: MidiInputOptions = {},
): Promise<Result<MidiInput>> {
  if (channel !== undefined && !(Number.isInteger(channel) && channel >= 1 && channel <= 16))
    throw new RangeError(`a MIDI channel is 1 to 16, got ${channel}`);
  if (typeof globalThis.navigator?.requestMIDIAccess !== "function")
    return refused("MIDI_NOT_HERE", "browser.problem.midi-not-here", "browser.remedy.other-browser");
  const access = await navigator.requestMIDIAccess({ sysex: false }).catch(() => undefined);
  if (access === undefined) return refused("MIDI_REFUSED", "browser.problem.midi-refused", "browser.remedy.allow-midi");
  const notes = telling<InputNote>();
  const states = telling<InputState>();
  const damages = telling<Damage>();
  let state: InputState = { state: "opening" };
  let device = "";
  const here = (): MIDIInput[] =>
    [...access.inputs.values()].filter(
      ({ state: plugged, name }) => plugged === "connected" && (wanted === undefined || name === wanted),
    );
  const played = (event: MIDIMessageEvent): void => {
    const [status = 0, key = 0, velocity = 0] = event.data ?? [];
    const on = status & 0xf;
    if (status >> 4 !== NOTE_ON || velocity === 0 || (channel !== undefined && on !== channel - 1)) return;
    notes.tell({ at: clock.heardAt(event.timeStamp), ...(on === PERCUSSION_CHANNEL ? {} : { pitch: key }), velocity });
  };
  const look = (): void => {
    const found = here();
    for (const input of access.inputs.values()) input.onmidimessage = found.includes(input) ? played : null;
    const before = device;
    device = found.map(({ name }) => name ?? say("browser.device.midi").says).join(", ");
    if (device === before && state.state !== "opening") return;
    const without = browserProblem(
      "MIDI_WITHOUT_DEVICE",
      say("browser.problem.midi-without-device"),
      {},
      say("browser.remedy.plug-in-midi"),
    );
    if (before !== "") {
      const [at, said] = [clock.heardAt(), say("browser.problem.device-changed")];
      const problem = browserProblem("DEVICE_CHANGED", said, {}, say("browser.remedy.play-again"));
      damages.tell({ from: at, to: at, stops: true, problem });
    }
    state = device === "" ? { state: "waiting", problem: without } : { state: "listening", device };
    states.tell(state);
  };
  access.onstatechange = look;
  look();
  return success({
    kind: "midi",
    get state() {
      return state;
    },
    get device() {
      return device;
    },
    get devices() {
      return [...access.inputs.values()].flatMap(({ name, state: plugged }) =>
        plugged === "connected" && name !== null ? [name] : [],
      );
    },
    onNote: notes.on,
    onState: states.on,
    onDamage: damages.on,
    close: () => {
      access.onstatechange = null;
      for (const input of access.inputs.values()) input.onmidimessage = null;
      state = { state: "closed" };
      states.tell(state);
    },
  });
}

function refused(
  code: "MIDI_NOT_HERE" | "MIDI_REFUSED",
  said: "browser.problem.midi-not-here" | "browser.problem.midi-refused",
  remedy: "browser.remedy.other-browser" | "browser.remedy.allow-midi",
): Result<never> {
  return failure(browserProblem(code, say(said), {}, say(remedy)));
}
