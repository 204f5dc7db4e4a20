import { failure, type Problem, type Result, success } from "../../base/index.js";
import { browserProblem } from "../codes.js";
import type { Damage } from "../damage.js";
import { say } from "../say.js";
import { telling } from "../telling.js";
import { captureFile } from "./captureAddress.js";
import { lostSound } from "./lostSound.js";
import type { InputState, Microphone, MicrophoneOptions, TimedBlock } from "./model.js";

/** What a browser does to voices in calls; each moves or hides the beginnings of notes. */
const UNCHANGED = { echoCancellation: false, noiseSuppression: false, autoGainControl: false } as const;

/**
 * Opens the microphone; the browser asks the person first, so say before why. See `Microphone`.
 *
 * Problems: MICROPHONE_NOT_HERE, MICROPHONE_REFUSED, MICROPHONE_MISSING, MICROPHONE_BUSY, WORKLET_NOT_LOADED. `context` is the player's: one clock.
 *
 * @example
 * const microphone = await openMicrophone(player.context, { worklet: "/capture.js" });
 */
export async function openMicrophone(
  context: AudioContext,
  options: MicrophoneOptions = {},
): Promise<Result<Microphone>> {
  const media = globalThis.navigator?.mediaDevices as MediaDevices | undefined;
  if (media === undefined || context.audioWorklet === undefined) return failure(notHere());
  const { deviceId, worklet = captureFile() } = options;
  const chosen = deviceId === undefined ? {} : { deviceId: { exact: deviceId } };
  let stream: MediaStream;
  try {
    stream = await media.getUserMedia({ audio: { ...UNCHANGED, channelCount: { ideal: 1 }, ...chosen } });
  } catch (error) {
    return failure(refusalOf(error));
  }
  const track = stream.getAudioTracks()[0]!;
  try {
    await context.audioWorklet.addModule(`${worklet}`);
  } catch {
    track.stop();
    const said = say("browser.problem.worklet-not-loaded", { address: `${worklet}`.slice(0, 80) });
    return failure(browserProblem("WORKLET_NOT_LOADED", said, {}, say("browser.remedy.serve-worklet")));
  }
  const source = context.createMediaStreamSource(stream);
  const capture = new AudioWorkletNode(context, "leeway-capture", {
    numberOfOutputs: 1,
    channelCount: 1,
    channelCountMode: "explicit",
  });
  const mute = context.createGain();
  mute.gain.value = 0;
  // Browsers call a worklet only when it leads somewhere.
  source.connect(capture).connect(mute).connect(context.destination);
  const opened = microphoneOf(context, track, capture);
  const problem = browserProblem("MICROPHONE_ALTERED", say("browser.problem.microphone-altered"));
  return success(
    {
      ...opened,
      get state() {
        return opened.state;
      },
      close: () => {
        opened.close();
        source.disconnect();
        mute.disconnect();
      },
    },
    opened.altered ? [problem] : [],
  );
}

function microphoneOf(context: AudioContext, track: MediaStreamTrack, capture: AudioWorkletNode): Microphone {
  const blocks = telling<TimedBlock>();
  const states = telling<InputState>();
  const damages = telling<Damage>();
  const device = track.label === "" ? say("browser.device.microphone").says : track.label;
  const settings = track.getSettings();
  const lossOf = lostSound(context.sampleRate);
  let state: InputState = { state: "listening", device };
  let first: number | undefined;
  let frames = 0;
  const change = (next: InputState): void => {
    state = next;
    states.tell(next);
  };
  const broken = (problem: Problem): void => {
    damages.tell({ from: context.currentTime, to: context.currentTime, stops: true, problem });
  };
  const checkRate = (): void => {
    const [before, now] = [settings.sampleRate, track.getSettings().sampleRate];
    if (before === undefined || now === undefined || before === now) return;
    settings.sampleRate = now;
    broken(browserProblem("RATE_CHANGED", say("browser.problem.rate-changed", { before, now }), {}, again()));
  };
  capture.port.onmessage = ({ data }: MessageEvent<{ frame: number; samples: Float32Array }>): void => {
    const { block, lost } = lossOf.push(data);
    first ??= block.frame / context.sampleRate;
    for (const { from, to } of lost) {
      const said = say("browser.problem.sound-lost", { ms: Math.round(1000 * (to - from)), seconds: from - first });
      const problem = browserProblem("SOUND_LOST", said, {}, say("browser.remedy.less-busy"));
      damages.tell({ from, to, stops: false, problem });
    }
    frames += block.samples.length;
    if (frames > context.sampleRate) {
      frames = 0;
      checkRate();
    }
    blocks.tell(block);
  };
  track.onended = () => {
    const remedy = say("browser.remedy.plug-in-microphone");
    const problem = browserProblem("MICROPHONE_ENDED", say("browser.problem.microphone-ended"), {}, remedy);
    change({ state: "waiting", problem });
    broken(problem);
  };
  track.onmute = () => change({ state: "waiting", problem: busy() });
  track.onunmute = () => change({ state: "listening", device });
  return {
    kind: "microphone",
    get state() {
      return state;
    },
    device,
    rate: context.sampleRate,
    altered: Object.keys(UNCHANGED).some((each) => settings[each as keyof typeof UNCHANGED] === true),
    onBlock: blocks.on,
    onState: states.on,
    onDamage: damages.on,
    close: () => {
      track.onended = null;
      track.stop();
      capture.port.onmessage = null;
      capture.disconnect();
      change({ state: "closed" });
    },
  };
}

const again = () => say("browser.remedy.play-again");

function notHere(): Problem {
  const said = say("browser.problem.microphone-not-here");
  return browserProblem("MICROPHONE_NOT_HERE", said, {}, say("browser.remedy.serve-securely"));
}

function busy(): Problem {
  return browserProblem(
    "MICROPHONE_BUSY",
    say("browser.problem.microphone-busy"),
    {},
    say("browser.remedy.close-others"),
  );
}

/** What the error of `getUserMedia` means (Media Capture and Streams, section 9.2.1). */
function refusalOf(error: unknown): Problem {
  const name = error instanceof Error || error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") {
    const said = say("browser.problem.microphone-refused");
    return browserProblem("MICROPHONE_REFUSED", said, {}, say("browser.remedy.allow-microphone"));
  }
  if (name !== "NotFoundError" && name !== "OverconstrainedError") return busy();
  const said = say("browser.problem.microphone-missing");
  return browserProblem("MICROPHONE_MISSING", said, {}, say("browser.remedy.plug-in-microphone"));
}
