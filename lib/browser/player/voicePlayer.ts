import type { Cue } from "./scoreCues.js";

/** Seconds in which sound fades when it is cut short: as in files of sound, much shorter than any note. */
const FADE = 0.008;
const FADE_STEPS = 32;
/**
 * Gain of all voices: about -23 LUFS for a band and a lead together, and no peak above -3 dBFS in the shipped courses. One for all mixes of all
 * rungs, our choice, so that the band is as loud whoever else plays.
 */
const LEVEL = 0.63;

/** Plays single notes, and pieces of recordings, on Web Audio, each on the frame it is asked for. */
export interface VoicePlayer {
  /** Sound at `when`, seconds of the context. */
  play(cue: Cue, when: number): void;
  /** Silence from a second of the context on, within `FADE`: of all parts, or of those that are not kept. What was to begin later does not. */
  silence(from: number, keeps?: (part: string) => boolean): void;
  setVolume(volume: number): void;
  /** Gets a sound ready. */
  prepare(cue: Cue): void;
  close(): void;
}

interface Voice {
  readonly source: AudioBufferSourceNode;
  readonly when: number;
  readonly part: string;
}

/** Notes of one part since the last silence go through one gain, so that they can be cut together. */
interface Bus {
  readonly gain: GainNode;
  readonly panners: Map<number, StereoPannerNode>;
}

/** Plays into `output`. */
export function voicePlayer(output: AudioNode): VoicePlayer {
  const { context } = output;
  const master = context.createGain();
  master.gain.value = LEVEL;
  master.connect(output);
  const buffers = new Map<string, AudioBuffer>();
  const buses = new Map<string, Bus>();
  const voices = new Set<Voice>();
  const bufferOf = ({ note }: Cue): AudioBuffer => {
    const known = buffers.get(note.sound);
    if (known !== undefined) return known;
    const channels = note.channels();
    const buffer = context.createBuffer(channels.length, channels[0]!.length, note.rate);
    for (const [c, samples] of channels.entries()) buffer.getChannelData(c).set(samples);
    buffers.set(note.sound, buffer);
    return buffer;
  };
  const busOf = (part: string): Bus => {
    const known = buses.get(part);
    if (known !== undefined) return known;
    const bus = { gain: context.createGain(), panners: new Map<number, StereoPannerNode>() };
    bus.gain.connect(master);
    buses.set(part, bus);
    return bus;
  };
  const pannerOf = ({ gain, panners }: Bus, pan: number): StereoPannerNode => {
    const known = panners.get(pan);
    if (known !== undefined) return known;
    const panner = context.createStereoPanner();
    panner.pan.value = pan;
    panner.connect(gain);
    panners.set(pan, panner);
    return panner;
  };
  return {
    prepare: (cue) => void bufferOf(cue),
    play: (cue, when) => {
      const source = context.createBufferSource();
      source.buffer = bufferOf(cue);
      const gain = context.createGain();
      gain.gain.value = cue.note.height;
      source.connect(gain).connect(pannerOf(busOf(cue.part), cue.note.pan));
      const start = onFrame(when, context.sampleRate);
      source.start(start);
      if (cue.rings < source.buffer.duration) {
        gain.gain.setValueCurveAtTime(fading(cue.note.height), start + cue.rings, FADE);
        source.stop(start + cue.rings + FADE);
      }
      const voice = { source, when, part: cue.part };
      voices.add(voice);
      source.onended = () => {
        voices.delete(voice);
        gain.disconnect();
      };
    },
    silence: (from, keeps = () => false) => {
      for (const [part, { gain }] of buses) {
        if (keeps(part)) continue;
        gain.gain.setValueAtTime(1, from);
        gain.gain.linearRampToValueAtTime(0, from + FADE);
        buses.delete(part);
      }
      for (const voice of voices) {
        if (voice.when >= from) voice.source.stop(0);
        else if (!keeps(voice.part)) voice.source.stop(from + FADE);
      }
    },
    setVolume: (volume) => void master.gain.setTargetAtTime(LEVEL * volume, context.currentTime, FADE),
    close: () => master.disconnect(),
  };
}

/**
 * A time that every browser plays on the frame nearest to it: Chromium begins on the next frame, and moves the sound by linear interpolation to where it lies between two; Firefox begins on
 * the nearest (measured). A ten thousandth of a frame early is the same frame in both, and moves nothing that can be heard.
 */
function onFrame(seconds: number, rate: number): number {
  return Math.max(0, (Math.round(seconds * rate) - 1e-4) / rate);
}

/** Half a cosine from a height to nothing, as in files of sound. */
function fading(height: number): Float32Array<ArrayBuffer> {
  return Float32Array.from(
    { length: FADE_STEPS + 1 },
    (_, i) => height * (0.5 + 0.5 * Math.cos((Math.PI * i) / FADE_STEPS)),
  );
}
