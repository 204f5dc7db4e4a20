import { openPlayer, type ScorePlayer } from "../../../lib/browser/index.js";
import { scoreCues } from "../../../lib/browser/player/scoreCues.js";
import { layRecording, type ReadyRecording, recordingsIn } from "../../../lib/recording/index.js";
import { laidStretches } from "../../../lib/render/sound/playRecorded.js";
import type { Score } from "../../../lib/schema/index.js";

interface Recording {
  readonly rate: number;
  /** Frame of the first sample. */
  readonly from: number;
  readonly samples: Float32Array;
  /** Frames at which blocks are missing: the recorder was not called, whatever sounded. */
  readonly gaps: readonly number[];
  /** Whether the recorder was called for a sample. */
  wasHeard(sample: number): boolean;
}

/** Records what goes into a node, one channel. */
async function recorder(context: AudioContext): Promise<{ input: AudioNode; stop(): Recording }> {
  await context.audioWorklet.addModule("/recorder.js");
  const node = new AudioWorkletNode(context, "recorder", { channelCount: 2, channelCountMode: "explicit" });
  const blocks: { frame: number; channels: Float32Array[] }[] = [];
  node.port.onmessage = ({ data }) => void blocks.push(data);
  node.connect(context.destination);
  return {
    input: node,
    stop: () => {
      const from = blocks[0]!.frame;
      const samples = new Float32Array(blocks.at(-1)!.frame + 128 - from);
      const gaps: number[] = [];
      blocks.forEach(({ frame, channels }, i) => {
        if (i > 0 && frame !== blocks[i - 1]!.frame + 128) gaps.push(frame);
        if (channels.length === 2)
          for (let k = 0; k < 128; k++) samples[frame - from + k] = channels[0]![k]! + channels[1]![k]!;
      });
      const heard = new Set(blocks.map(({ frame }) => (frame - from) / 128));
      const wasHeard = (sample: number): boolean => heard.has(Math.floor(sample / 128));
      return { rate: context.sampleRate, from, samples, gaps, wasHeard };
    },
  };
}

function block(ms: number): void {
  const until = performance.now() + ms;
  while (performance.now() < until);
}

const later = (seconds: number) => new Promise((resolve) => setTimeout(resolve, 1000 * seconds));

/** How far from its frame a sound begins, in frames: where the recording is most like it. */
function offBy({ samples, from, rate }: Recording, when: number, sound: Float32Array): number {
  const reach = Math.round(0.003 * rate);
  const length = Math.min(sound.length, 1024);
  const at = Math.round(when * rate) - from;
  let best = { lag: Number.NaN, match: 0 };
  for (let lag = -reach; lag <= reach; lag++) {
    let [sum, power] = [0, 1e-9];
    for (let i = 0; i < length; i++) {
      const sample = samples[at + lag + i] ?? 0;
      sum += sample * sound[i]!;
      power += sample * sample;
    }
    const match = sum / Math.sqrt(power);
    if (match > best.match) best = { lag, match };
  }
  return best.lag;
}

/**
 * Plays a score while the page is busy `blocked` of every `every` milliseconds, and 400 ms once in the middle; gives how far each sound of its parts is
 * from where it belongs.
 */
async function playBusily(score: Score, busy: { blocked: number; every: number; seconds: number }) {
  const context = new AudioContext();
  const heard = await recorder(context);
  const player = openPlayer({ context, output: heard.input });
  const began = performance.now();
  await player.load([score]);
  const loading = performance.now() - began;
  const started = await player.play();
  if (!started.ok) throw new Error(JSON.stringify(started.problems));
  const end = performance.now() + 1000 * busy.seconds;
  let long = true;
  while (performance.now() < end) {
    if (busy.blocked > 0) block(busy.blocked);
    if (long && performance.now() > end - 500 * busy.seconds) {
      block(400);
      long = false;
    }
    await later((busy.every - busy.blocked) / 1000);
  }
  await later(0.3);
  const { damage } = player;
  const zero = player.whenSounds(0) ?? started.value.at + score.countIn;
  await player.close();
  const recording = heard.stop();
  await context.close();
  const rate = context.sampleRate === 44_100 ? 44_100 : 48_000;
  const cues = scoreCues(score, rate).filter(({ at, part }) => part !== "" && at < busy.seconds - score.countIn - 0.3);
  const isRecorded = ({ at }: { at: number }): boolean => {
    const frame = (zero + at) * context.sampleRate;
    return !recording.gaps.some((gap) => gap > frame - 1024 && gap < frame + 2048);
  };
  const recorded = cues.filter(isRecorded);
  const off = recorded.map(({ at, note }) => offBy(recording, zero + at, note.channels()[0]!));
  const codes = damage.map(({ problem }) => problem.code);
  return { off, damage: codes, unrecorded: cues.length - recorded.length, rate: context.sampleRate, loading };
}

/**
 * Plays a score whose parts are recordings, here of noise, for some seconds; gives how far at most what was heard lies from the recording laid down without any cut, in 99 of 100 blocks, how loud it is, and the share that could be compared.
 */
async function playRecorded(score: Score, seconds: number) {
  const context = new AudioContext();
  const rate = context.sampleRate === 44_100 ? 44_100 : 48_000;
  const recordings = recordingsIn(score).map((need): ReadyRecording => {
    const length = Math.ceil(((need.to - need.from) / need.speed) * rate);
    let state = 1;
    const noise = () =>
      Float32Array.from({ length }, () => {
        state = (state * 48271) % 2147483647;
        return state / 2147483647 - 0.5;
      });
    return { ...need, rate, channels: [noise(), noise()] };
  });
  const heard = await recorder(context);
  const player = openPlayer({ context, output: heard.input });
  await player.load([score], { recordings });
  const started = await player.play({ lead: "none" });
  if (!started.ok) throw new Error(JSON.stringify(started.problems));
  await later(seconds);
  const zero = player.whenSounds(0)!;
  const damage = player.damage.length;
  await player.close();
  const { samples, from, wasHeard } = heard.stop();
  await context.close();
  const length = Math.floor((seconds - 0.3) * rate);
  const whole = [new Float32Array(length), new Float32Array(length)] as const;
  for (const { recorded = [] } of score.parts)
    layRecording(whole, laidStretches(recorded, recordings, rate), { rate, origin: 0, round: undefined });
  const laid = whole[0].map((sample, i) => sample + whole[1][i]!);
  // Bar 1 may begin between two frames.
  const at = Math.round(zero * rate) - from;
  const found = [-1, 0, 1].map((lag) => {
    const blocks = new Map<number, number>();
    let [height, compared] = [0, 0];
    for (let i = rate / 10; i < length; i++) {
      const place = at + lag + i;
      if (!wasHeard(place)) continue;
      compared++;
      const block = Math.floor(place / 128);
      blocks.set(block, Math.max(blocks.get(block) ?? 0, Math.abs(0.63 * laid[i]! - samples[place]!)));
      height = Math.max(height, Math.abs(samples[place]!));
    }
    // Browsers lose a block now and then; pieces meet in more than one block of a hundred.
    const most = [...blocks.values()].sort((a, b) => a - b)[Math.floor(0.99 * blocks.size)]!;
    return { most, height, compared: compared / length };
  });
  const best = found.reduce((a, b) => (b.most < a.most ? b : a));
  const silent = score.dropouts.some(({ from: start, to }) => to > start && to < seconds - 0.3);
  return { ...best, silent, damage };
}

/** What the player says while it is told to do one thing after another. */
async function walkThrough(scores: readonly Score[]) {
  const player: ScorePlayer = openPlayer();
  const events: string[] = [];
  player.onEvent(({ kind }) => void events.push(kind));
  await player.load(scores);
  const before = player.heard();
  const first = await player.play();
  await later(0.4);
  const counting = player.heard();
  player.seek(1);
  await later(0.3);
  const sought = player.heard();
  player.switchMix(scores[1]!.mix);
  player.repeat({ from: 2, to: 2 });
  player.seek(scores[0]!.phraseSeconds! * 2 - 0.2);
  await later(0.6);
  const again = player.heard();
  player.pause();
  const paused = player.heard();
  await later(0.2);
  const stays = player.heard();
  await player.play();
  await later(0.3);
  const on = player.heard();
  player.stop();
  const stopped = player.heard();
  await player.close();
  return { ok: first.ok, events, before, counting, sought, again, paused, stays, on, stopped };
}

Object.assign(globalThis, { playBusily, playRecorded, walkThrough });
