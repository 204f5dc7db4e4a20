import {
  beginTake,
  captureAddress,
  type InputNote,
  listenToTaps,
  type Microphone,
  openMicrophone,
  openMidiInput,
  openPlayer,
  type TakeInHand,
} from "../../../lib/browser/index.js";
import type { PlayedOnset, Score } from "../../../lib/schema/index.js";

const later = (seconds: number) => new Promise((resolve) => setTimeout(resolve, 1000 * seconds));

/** When the microphone hears the first loud click, seconds of the context. */
function clickIn(microphone: Microphone): Promise<number> {
  return new Promise((resolve) => {
    const leave = microphone.onBlock(({ frame, rate, samples }) => {
      const at = samples.findIndex((sample) => Math.abs(sample) > 0.5);
      if (at < 0) return;
      leave();
      resolve((frame + at) / rate);
    });
  });
}

/** Plays a score while the microphone hears what a file holds, which is in time with it; gives the finding and how long it took to come. */
async function hearTake(
  score: Score,
  terms: { headphones: boolean; untilCountIn: number; hearing: string; inline?: boolean; latencyMs: number },
) {
  const player = openPlayer();
  await player.load([score]);
  await player.context.resume();
  const opened = await openMicrophone(player.context, { worklet: terms.inline ? captureAddress() : "/capture.js" });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const microphone = opened.value;
  const click = await clickIn(microphone);
  const { latencyMs } = terms;
  const begun = await beginTake({
    player,
    score,
    input: microphone,
    headphones: terms.headphones,
    family: "blown",
    latency: { latencyMs, latencyStandardErrorMs: 3 },
    id: "simulated",
    hearing: terms.hearing,
    at: click + terms.untilCountIn - latencyMs / 1000,
  });
  if (!begun.ok) throw new Error(JSON.stringify(begun.problems));
  const take: TakeInHand = begun.value;
  let followed = 0;
  take.onFollowing(() => followed++);
  let longest = 0;
  let last = performance.now();
  const watch = setInterval(() => {
    longest = Math.max(longest, performance.now() - last - 10);
    last = performance.now();
  }, 10);
  const ended = new Promise<number>((resolve) => {
    const look = setInterval(() => {
      if (player.clock.heardAt() < take.barOne + score.duration) return;
      clearInterval(look);
      resolve(performance.now());
    }, 5);
  });
  const heard = await take.heard;
  const now = performance.now();
  const waited = now - (await ended);
  clearInterval(watch);
  microphone.close();
  await player.close();
  if (!heard.ok) return { problems: heard.problems.map(({ code }) => code) };
  const { finding, damage, sound, take: kept } = heard.value;
  return {
    problems: [],
    finding,
    take: kept,
    damage: damage.map(({ problem }) => problem.code),
    advice: heard.value.advice.map(({ code }) => code),
    followed,
    waited,
    longest,
    seconds: sound!.samples.length / sound!.rate,
  };
}

/** A MIDI device that a test plays, as no headless browser has one. */
function stubMidi() {
  const input = { name: "Pier keys", state: "connected", onmidimessage: null as ((event: unknown) => void) | null };
  const access = { inputs: new Map([["1", input]]), onstatechange: null as (() => void) | null };
  Object.defineProperty(navigator, "requestMIDIAccess", { configurable: true, value: async () => access });
  return { input, access };
}

/** Plays a score to which taps or MIDI are played at these times from the count-in on; what the device plays, the student hears late. */
async function playTake(score: Score, onsets: readonly PlayedOnset[], kind: "taps" | "midi") {
  const player = openPlayer();
  await player.load([score]);
  await player.context.resume();
  await later(0.3);
  const midi = kind === "midi" ? stubMidi() : undefined;
  const opened = kind === "midi" ? await openMidiInput(player.clock, { channel: 1 }) : undefined;
  const input = opened?.ok ? opened.value : listenToTaps(player.clock);
  const begun = await beginTake({ player, score, input, headphones: true, id: kind, hearing: "/hearing.js" });
  if (!begun.ok) throw new Error(JSON.stringify(begun.problems));
  const zero = begun.value.barOne - score.countIn;
  let next = 0;
  const play = setInterval(() => {
    for (; next < onsets.length && player.clock.heardAt() >= zero + onsets[next]!.at; next++) {
      // The event says when it happened, whenever the page gets to it.
      const timeStamp = player.clock.momentOf(zero + onsets[next]!.at);
      if (midi === undefined) {
        const tap = new PointerEvent("pointerdown", { button: 0 });
        Object.defineProperty(tap, "timeStamp", { value: timeStamp });
        document.dispatchEvent(tap);
      } else midi.input.onmidimessage?.({ timeStamp, data: [0x90, onsets[next]!.pitch ?? 62, 90] });
    }
  }, 30);
  const heard = await begun.value.heard;
  clearInterval(play);
  input.close();
  await player.close();
  if (!heard.ok) throw new Error(JSON.stringify(heard.problems));
  return { finding: heard.value.finding, take: heard.value.take };
}

/** What MIDI says of devices that come and go, and of a browser that lets nobody near them. */
async function plugMidi() {
  const player = openPlayer();
  const { input, access } = stubMidi();
  const opened = await openMidiInput(player.clock, { device: "Pier keys" });
  if (!opened.ok) throw new Error("refused");
  const midi = opened.value;
  const states = [midi.state.state];
  const notes: InputNote[] = [];
  const damage: string[] = [];
  midi.onState(({ state }) => void states.push(state));
  midi.onNote((note) => void notes.push(note));
  midi.onDamage(({ problem }) => void damage.push(problem.code));
  input.onmidimessage?.({ timeStamp: 0, data: [0x99, 38, 70] });
  input.onmidimessage?.({ timeStamp: 0, data: [0x90, 62, 0] });
  input.state = "disconnected";
  access.onstatechange?.();
  const without = midi.state.state === "waiting" ? midi.state.problem.code : "";
  input.state = "connected";
  access.onstatechange?.();
  Object.defineProperty(navigator, "requestMIDIAccess", { value: () => Promise.reject(new Error("no")) });
  const refused = await openMidiInput(player.clock);
  Object.defineProperty(navigator, "requestMIDIAccess", { value: undefined });
  const missing = await openMidiInput(player.clock);
  const codes = [refused, missing].map((each) => (each.ok ? "" : each.problems[0]!.code));
  await player.close();
  return { states, notes, damage, without, codes };
}

/** How a microphone that cannot be had is told of, by the error of the browser. */
async function refusals(names: readonly string[]) {
  const context = new AudioContext();
  const codes: string[] = [];
  for (const name of names) {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("no", name));
    const opened = await openMicrophone(context, { worklet: "/capture.js" });
    codes.push(opened.ok ? "" : opened.problems[0]!.code);
  }
  const silent = context.createMediaStreamDestination().stream;
  navigator.mediaDevices.getUserMedia = () => Promise.resolve(silent);
  const opened = await openMicrophone(context, { worklet: "/nowhere.js" });
  codes.push(opened.ok ? "" : opened.problems[0]!.code);
  return codes;
}

/** Takes that are broken off, one after the other: by the student, by a page that is hidden, by a context that is suspended. */
async function brokenTakes(score: Score) {
  const player = openPlayer();
  await player.load([score]);
  await player.context.resume();
  const input = listenToTaps(player.clock);
  const codes: string[] = [];
  const ways: readonly ((take: TakeInHand) => void)[] = [
    (take) => take.breakOff(),
    () => {
      Object.defineProperty(document, "hidden", { configurable: true, value: true });
      document.dispatchEvent(new Event("visibilitychange"));
      Object.defineProperty(document, "hidden", { configurable: true, value: false });
    },
    () => void player.context.suspend(),
  ];
  for (const breakOff of ways) {
    const begun = await beginTake({ player, score, input, headphones: true, hearing: "/hearing.js" });
    if (!begun.ok) throw new Error(JSON.stringify(begun.problems));
    await later(0.5);
    breakOff(begun.value);
    const heard = await begun.value.heard;
    codes.push(heard.ok ? "" : heard.problems[0]!.code);
  }
  await player.close();
  return codes;
}

Object.assign(globalThis, { hearTake, playTake, plugMidi, refusals, brokenTakes });
