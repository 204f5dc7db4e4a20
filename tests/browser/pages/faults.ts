import {
  beginTake,
  captureAddress,
  listenToTaps,
  measureLoop,
  measureTapping,
  openMicrophone,
  openPlayer,
} from "../../../lib/browser/index.js";
import type { Score } from "../../../lib/schema/index.js";

const later = (seconds: number) => new Promise((resolve) => setTimeout(resolve, 1000 * seconds));

/** A stream in place of the microphone's. */
function instead(stream: MediaStream): void {
  navigator.mediaDevices.getUserMedia = () => Promise.resolve(stream);
}

/** What a microphone tells when its track changes settings, loses its rate, and ends. */
async function troubles() {
  const context = new AudioContext();
  const { stream } = context.createMediaStreamDestination();
  const track = stream.getAudioTracks()[0]!;
  let settings: MediaTrackSettings = { sampleRate: 48_000, echoCancellation: true };
  track.getSettings = () => settings;
  instead(stream);
  const opened = await openMicrophone(context, { worklet: "/capture.js" });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const codes = opened.advice.map(({ code }) => code);
  const damage: string[] = [];
  const states: string[] = [];
  // A context that begins may skip some blocks.
  opened.value.onDamage(({ problem, stops }) => void (stops && damage.push(`${problem.code} ${stops}`)));
  opened.value.onState(({ state }) => void states.push(state));
  settings = { ...settings, sampleRate: 16_000 };
  await later(1.6);
  track.onended?.(new Event("ended"));
  opened.value.close();
  Object.defineProperty(navigator, "mediaDevices", { configurable: true, value: undefined });
  const without = await openMicrophone(context);
  await context.close();
  return { codes, damage, states, without: without.ok ? "" : without.problems[0]!.code };
}

/** A browser that keeps sound back. */
async function heldBack(score: Score) {
  const context = new AudioContext();
  await context.suspend();
  context.resume = () => new Promise(() => undefined);
  const player = openPlayer({ context });
  await player.load([score]);
  const played = await player.play();
  await player.close();
  return played.ok ? "" : played.problems[0]!.code;
}

/** A page that is busy for longer than the player looks ahead. */
async function tooBusy(score: Score) {
  const player = openPlayer();
  await player.load([score]);
  await player.play();
  await later(0.3);
  const until = performance.now() + 2000;
  while (performance.now() < until);
  await later(0.2);
  const damage = player.damage.map(({ problem, stops }) => [problem.code, stops]);
  await player.close();
  return damage;
}

/** A take whose listener fails. */
async function deaf(score: Score) {
  const player = openPlayer();
  await player.load([score]);
  await player.context.resume();
  const short = { ...score, duration: 0.2, countIn: score.beat };
  const input = listenToTaps(player.clock);
  const begun = await beginTake({ player, score: short, input, headphones: true, hearing: "/failing.js" });
  if (!begun.ok) throw new Error(JSON.stringify(begun.problems));
  const heard = await begun.value.heard;
  input.close();
  await player.close();
  return heard.ok ? "" : heard.problems[0]!.code;
}

/** The latency of a loop that is longer by so many seconds, measured; the whole of it is the page's own. */
async function loopOf(delaySeconds: number, clicks: number) {
  const player = openPlayer();
  const { context } = player;
  await context.resume();
  const delay = context.createDelay(1);
  delay.delayTime.value = delaySeconds;
  const microphone = context.createMediaStreamDestination();
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (this: AudioNode, ...given: unknown[]) {
    // What is heard goes the way of the room too.
    if (given[0] === context.destination && this instanceof AudioBufferSourceNode) connect.call(this, delay as never);
    return connect.apply(this, given as never) as never;
  } as typeof connect;
  connect.call(delay, microphone as never);
  instead(microphone.stream);
  const opened = await openMicrophone(context, { worklet: captureAddress() });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  let told = 0;
  const measured = await measureLoop(player, opened.value, {
    clicks,
    onProgress: (progress) => {
      told = progress.clicks;
    },
  });
  AudioNode.prototype.connect = connect;
  opened.value.close();
  await player.close();
  return { told, ...(measured.ok ? { ...measured.value } : { code: measured.problems[0]!.code }) };
}

/** Tapping along, `late` milliseconds after each click; and a measurement that is stopped. */
async function tappingAlong(late: number, clicks: number) {
  const player = openPlayer();
  await player.context.resume();
  const taps = listenToTaps(player.clock);
  const starts: number[] = [];
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, when = 0) {
    starts.push(when);
    start.call(this, when);
  };
  let next = 0;
  const tap = setInterval(() => {
    for (; starts[0] !== undefined && player.clock.heardAt() > starts[0] + 1 + 0.6 * next + late / 1000; next++) {
      const event = new KeyboardEvent("keydown", { key: "x" });
      Object.defineProperty(event, "timeStamp", {
        value: player.clock.momentOf(starts[0] + 1 + 0.6 * next + late / 1000),
      });
      document.dispatchEvent(event);
    }
  }, 20);
  const measured = await measureTapping(player, taps, { clicks });
  clearInterval(tap);
  const abort = new AbortController();
  setTimeout(() => abort.abort(), 300);
  const stopped = await measureTapping(player, taps, { clicks, signal: abort.signal });
  AudioBufferSourceNode.prototype.start = start;
  taps.close();
  await player.close();
  return {
    measured: measured.ok ? measured.value : measured.problems,
    stopped: stopped.ok ? "" : stopped.problems[0]!.code,
  };
}

Object.assign(globalThis, { troubles, heldBack, tooBusy, deaf, loopOf, tappingAlong });
