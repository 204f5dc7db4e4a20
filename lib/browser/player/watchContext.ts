import { browserProblem } from "../codes.js";
import type { Damage } from "../damage.js";
import { say } from "../say.js";

/** The clock stood still when it falls behind real time by so many seconds between two looks: our choice, above the largest buffers of devices. */
const STOOD_STILL = 0.2;

/** Looks after a context while something is played. */
export interface ContextWatch {
  /** Looks again; to be called every few ten milliseconds. */
  look(): void;
  close(): void;
}

/** What newer browsers report of sound that was not ready in time (Web Audio API, `AudioPlaybackStats`); `undefined` elsewhere. */
interface WithStats {
  readonly playbackStats?: { readonly underrunEvents?: number };
}

/** Watches a context from now on: whether its clock goes on, it is suspended, sound was not ready in time, or the devices changed. */
export function watchContext(
  context: AudioContext,
  tell: (damage: Damage) => void,
  now: () => number = () => performance.now(),
): ContextWatch {
  const { playbackStats } = context as WithStats;
  let last = { moment: now(), seconds: context.currentTime };
  let underruns = playbackStats?.underrunEvents ?? 0;
  let devices: string | undefined;
  const at = (): { from: number; to: number } => ({ from: last.seconds, to: context.currentTime });
  const changed = (): void => {
    if (context.state === "running") return;
    const problem = browserProblem("SOUND_SUSPENDED", say("browser.problem.sound-suspended"), {}, again());
    tell({ ...at(), stops: true, problem });
  };
  const rerouted = async (): Promise<void> => {
    const found = await signatureOfDevices();
    const isOther = devices !== undefined && found !== devices;
    devices = found;
    if (!isOther) return;
    const problem = browserProblem("DEVICE_CHANGED", say("browser.problem.device-changed"), {}, again());
    tell({ ...at(), stops: true, problem });
  };
  const media = globalThis.navigator?.mediaDevices as MediaDevices | undefined;
  void rerouted();
  context.addEventListener("statechange", changed);
  media?.addEventListener("devicechange", rerouted);
  return {
    look: () => {
      const [moment, seconds] = [now(), context.currentTime];
      const behind = (moment - last.moment) / 1000 - (seconds - last.seconds);
      if (context.state === "running" && behind > STOOD_STILL) {
        const said = say("browser.problem.clock-stopped", { ms: Math.round(1000 * behind) });
        tell({ ...at(), stops: true, problem: browserProblem("CLOCK_STOPPED", said, {}, again()) });
      }
      const count = playbackStats?.underrunEvents ?? 0;
      if (count > underruns) {
        const said = say("browser.problem.sound-broken-up");
        const remedy = say("browser.remedy.less-busy");
        tell({ ...at(), stops: false, problem: browserProblem("SOUND_BROKEN_UP", said, {}, remedy) });
      }
      underruns = count;
      last = { moment, seconds };
    },
    close: () => {
      context.removeEventListener("statechange", changed);
      media?.removeEventListener("devicechange", rerouted);
    },
  };
}

const again = () => say("browser.remedy.play-again");

/** The usual devices as far as the browser tells them; names only where a microphone was allowed. */
async function signatureOfDevices(): Promise<string> {
  const all = (await globalThis.navigator?.mediaDevices?.enumerateDevices().catch(() => [])) ?? [];
  const usual = all.filter(({ deviceId }) => deviceId === "default" || deviceId === "");
  return JSON.stringify(usual.map(({ kind, label, groupId }) => [kind, label, groupId]));
}
