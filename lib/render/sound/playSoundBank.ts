import type { SpessaSynthProcessor } from "spessasynth_core";
import type { Problem } from "../../base/index.js";
import { centsAboveUsual } from "../../pattern/index.js";
import { soundProblem } from "./codes.js";
import { FADE, faded } from "./fade.js";
import type { SoundBank } from "./model.js";
import { sayProblem } from "./say.js";
import { contentOf } from "./soundBank.js";
import { panOf } from "./stereoPan.js";
import type { Timeline, Track } from "./timeline.js";
import type { Bus } from "./voices/playBuiltIn.js";

/** Largest block of the synthesiser, in samples. */
const BLOCK = 128;
const PERCUSSION_CHANNEL = 9;
const CONTROL = { pan: 10, allSoundOff: 120 } as const;

/** Most voices of a part at once, layers and ringing notes included; our choice, because the synthesiser visits every voice for every block. */
const VOICES = 96;
/** Gain of a bank, so that its instruments are as loud beside the count-in as the built-in voices; our choice, from a General MIDI bank. */
const GAIN = 3;
/** Order of events on one sample: those that end a sound come first. */
const CUTS = 0;
const LETS_GO = 1;
const STRIKES = 2;

interface Event {
  readonly at: number;
  readonly order: number;
  readonly does: (synth: SpessaSynthProcessor, channel: number) => void;
}

/**
 * Adds a track played by the instruments of a bank. The synthesiser handles events only between blocks; each block therefore ends at the next
 * event, and every event takes effect on its own sample.
 */
export function playBank(bus: Bus, track: Track, { timeline, bank }: { timeline: Timeline; bank: SoundBank }): void {
  const { instruments, Synthesiser } = contentOf(bank);
  const synth = new Synthesiser(timeline.rate, {
    effectsEnabled: false,
    eventsEnabled: false,
    maxBufferSize: BLOCK,
  });
  synth.setSystemParameter("voiceCap", VOICES);
  synth.soundBankManager.addSoundBank(instruments, "bank");
  if (timeline.tuning !== undefined) synth.setSystemParameter("fineTune", centsAboveUsual(timeline.tuning));
  const channel = track.program === undefined ? PERCUSSION_CHANNEL : 0;
  synth.programChange(channel, (track.program ?? 1) - 1);
  if (track.program !== undefined)
    synth.controllerChange(channel, CONTROL.pan, Math.round(64 + 63 * panOf(track, timeline.tracks)));
  const gain = gainOf(track, timeline.rate);
  const block: Bus = [new Float32Array(BLOCK), new Float32Array(BLOCK)];
  let now = 0;
  // The synthesiser counts a new note as a voice only after its first block.
  let isStruck = false;
  const soundUntil = (end: number): void => {
    // Without voices there is nothing to compute.
    while (now < end && (isStruck || synth.voiceCount > 0)) {
      isStruck = false;
      const count = Math.min(BLOCK, end - now);
      for (const side of block) side.fill(0);
      synth.process(block[0], block[1], 0, count);
      gain(block, now, count);
      for (let i = 0; i < count; i++) {
        bus[0][now + i]! += GAIN * block[0][i]!;
        bus[1][now + i]! += GAIN * block[1][i]!;
      }
      now += count;
    }
    now = end;
  };
  for (const event of eventsOf(track, timeline)) {
    soundUntil(Math.min(event.at, timeline.length));
    event.does(synth, channel);
    isStruck ||= event.order === STRIKES;
  }
  soundUntil(timeline.length);
}

/** Advice when a bank lacks the instrument of a track; else empty. */
export function lackingIn(bank: SoundBank, { name, program }: Track): readonly Problem[] {
  const { presets } = contentOf(bank).instruments;
  const has = presets.some((preset) =>
    program === undefined ? preset.isDrum : !preset.isDrum && preset.program === program - 1,
  );
  if (has) return [];
  const asked = { bank: bank.name, part: name };
  const message =
    program === undefined
      ? sayProblem("sound-problem.sound-bank-without-kit", asked)
      : sayProblem("sound-problem.sound-bank-without-instrument", { ...asked, program });
  return [soundProblem("SOUND_BANK_WITHOUT_INSTRUMENT", message)];
}

function eventsOf({ notes, silences }: Track, { rate }: Timeline): readonly Event[] {
  const next = new Map<number, number>();
  const events: Event[] = [];
  for (let i = notes.length - 1; i >= 0; i--) {
    const { from, to, key, velocity } = notes[i]!;
    events.push({ at: from, order: STRIKES, does: (synth, channel) => synth.noteOn(channel, key, velocity) });
    // The note-off of a note must not end the next note of the same key.
    const end = Math.min(to, next.get(key) ?? to);
    events.push({ at: end, order: LETS_GO, does: (synth, channel) => synth.noteOff(channel, key) });
    next.set(key, from);
  }
  for (const [from, to] of silences) {
    const at = Math.min(from + Math.floor(FADE * rate), to);
    events.push({ at, order: CUTS, does: (synth, channel) => synth.controllerChange(channel, CONTROL.allSoundOff, 0) });
  }
  return events.sort((a, b) => a.at - b.at || a.order - b.order);
}

/** Mutes a block in the silences of a track, with a fade-out at the start of each. Blocks must come in order of time. */
function gainOf({ silences }: Track, rate: number): (block: Bus, from: number, count: number) => void {
  const steps = Math.floor(FADE * rate);
  let next = 0;
  return (block, from, count) => {
    for (let i = 0; i < count; i++) {
      while (next < silences.length && silences[next]![1] <= from + i) next++;
      const begins = silences[next]?.[0] ?? Number.POSITIVE_INFINITY;
      if (begins >= from + count) return;
      if (from + i < begins) continue;
      const left = faded(from + i - begins, steps);
      block[0][i]! *= left;
      block[1][i]! *= left;
    }
  };
}
