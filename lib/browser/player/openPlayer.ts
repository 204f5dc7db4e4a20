import { failure, success } from "../../base/index.js";
import type { ReadyRecording } from "../../recording/index.js";
import type { Score } from "../../schema/index.js";
import { contextClock } from "../clock/contextClock.js";
import { browserProblem } from "../codes.js";
import type { Damage } from "../damage.js";
import { say } from "../say.js";
import { endOf, handOver, placeAt, type Reached, type Route, reachedAt } from "./cueing.js";
import type { Heard, PlayerEvent, PlayerOptions, PlayOptions, ScorePlayer } from "./model.js";
import { routeFrom, stretchOf, withRepeat } from "./routes.js";
import { type Cue, scoreCues } from "./scoreCues.js";
import { voicePlayer } from "./voicePlayer.js";
import { watchContext } from "./watchContext.js";

/**
 * Seconds that are handed to the browser ahead, and milliseconds between two looks: a page that is busy for less than their difference loses
 * nothing. Browsers wake a page in the background only once a second.
 */
const AHEAD = { inFront: 0.75, inBackground: 2.5 } as const;
const TICK = 50;
/** Seconds from a start to its first sound: our choice, some blocks of the slowest devices. */
const SOON = 0.1;
/** Longest time in which sounds are made without letting the page do something else, milliseconds: our choice, less than a frame. */
const PIECE = 8;
/** Longest wait for a browser to begin with sound, milliseconds. */
const PATIENCE = 1500;

interface Loaded {
  readonly score: Score;
  readonly cues: readonly Cue[];
}

/**
 * Opens a player; see `ScorePlayer`. Nothing sounds before `play`. Throws `TypeError` where there is no Web Audio.
 *
 * @example
 * const player = openPlayer();
 * await player.load(drill.mixes.map(({ name }) => scoreOf(rung, name)));
 * start.onclick = () => player.play({ mix: "play" });
 */
export function openPlayer(options: PlayerOptions = {}): ScorePlayer {
  const context = options.context ?? new AudioContext({ latencyHint: "interactive" });
  const rate = context.sampleRate === 44_100 ? 44_100 : 48_000;
  const voices = voicePlayer(options.output ?? context.destination);
  if (options.volume !== undefined) voices.setVolume(checkedVolume(options.volume));
  const clock = contextClock(context);
  const listeners = new Set<(event: PlayerEvent) => void>();
  const mixes = new Map<string, Loaded>();
  let chosen: Loaded | undefined;
  let state: "stopped" | "paused" | "playing" = "stopped";
  let place = 0;
  let phrases: { readonly from: number; readonly to: number } | undefined;
  let going: { route: Route; reached: Reached; end: number } | undefined;
  let damage: Damage[] = [];
  let recordings: readonly ReadyRecording[] = [];
  let timer: ReturnType<typeof setInterval> | undefined;
  let watch: ReturnType<typeof watchContext> | undefined;
  const tell = (event: PlayerEvent): void => {
    for (const listener of listeners) listener(event);
  };
  const harmed = (found: Damage): void => {
    damage = [...damage, found];
    tell({ kind: "damaged", damage: found });
    if (found.stops && state === "playing") pause();
  };
  const loaded = (): Loaded => {
    if (chosen === undefined) throw new TypeError("a player plays what it has loaded: call load() first");
    return chosen;
  };
  const repeated = () => phrases && stretchOf(loaded().score, phrases);
  const cueUp = (): void => {
    if (going === undefined) return;
    const now = context.currentTime;
    const ahead = globalThis.document?.hidden === true ? AHEAD.inBackground : AHEAD.inFront;
    const { due, late, route, reached } = handOver(loaded().cues, going, { now, until: now + ahead });
    going = { route, reached, end: endOf(route) };
    for (const { cue, when } of due) voices.play(cue, when);
    if (late.length > 0) harmed(lateness(late, now));
  };
  const tick = (): void => {
    clock.read();
    watch?.look();
    if (going === undefined) return;
    cueUp();
    if (going !== undefined && clock.heardAt() >= going.end) halt("stopped", "ended");
  };
  /** Goes on from a second of the context by another route, or with other cues. */
  const reroute = (route: Route, from: number): void => {
    going = { route, reached: reachedAt(loaded().cues, route, from), end: endOf(route) };
    cueUp();
  };
  const halt = (to: "stopped" | "paused", kind: "stopped" | "paused" | "ended"): void => {
    const heard = heardNow();
    // What has been played to its end rings on.
    if (kind !== "ended") voices.silence(context.currentTime);
    place = to === "paused" ? heard.at : 0;
    state = to;
    going = undefined;
    clearInterval(timer);
    watch?.close();
    watch = undefined;
    tell({ kind });
  };
  const pause = (): void => {
    if (state === "playing") halt("paused", "paused");
  };
  const heardNow = (moment?: number): Heard => {
    const score = chosen?.score;
    const from = going?.route.passages[0];
    if (score === undefined) return { state, at: 0, bar: 0, phrase: 0, dropout: undefined };
    const sounding = going && placeAt(going.route, clock.heardAt(moment));
    const at = sounding ?? from?.from ?? (state === "paused" ? place : -score.countIn);
    const bar = score.bars.findLast((each) => each.at <= at);
    const dropout = score.dropouts.findIndex((each) => each.from <= at && at < each.to);
    return {
      state: state !== "playing" ? state : at < 0 && score.countIn > 0 ? "counting in" : "playing",
      at,
      bar: bar?.bar ?? 0,
      phrase: bar?.phrase ?? 0,
      dropout: dropout < 0 ? undefined : dropout,
    };
  };
  const start = ({ from, lead, at }: PlayOptions, score: Score): { at: number; from: number } => {
    const begin = Math.max(at ?? 0, context.currentTime + SOON);
    const counted = lead === undefined ? state !== "paused" && !(from !== undefined && from < 0) : lead === "count-in";
    const target = from ?? (state === "paused" ? place : (repeated()?.from ?? 0));
    const route = routeFrom(score, { at: begin, from: target, counted, again: repeated() });
    voices.silence(context.currentTime);
    state = "playing";
    reroute(route, begin);
    return { at: begin, from: route.passages[0]!.from };
  };
  return {
    context,
    clock,
    rate,
    get damage() {
      return damage;
    },
    get recordings() {
      return recordings;
    },
    load: async (scores, given = {}) => {
      requireOneRung(scores);
      if (state !== "stopped") halt("stopped", "stopped");
      mixes.clear();
      chosen = undefined;
      recordings = given.recordings ?? [];
      for (const score of scores) mixes.set(score.mix, { score, cues: scoreCues(score, rate, recordings) });
      let since = performance.now();
      for (const { cues } of mixes.values())
        for (const cue of cues) {
          voices.prepare(cue);
          if (performance.now() - since < PIECE) continue;
          await new Promise((resolve) => setTimeout(resolve));
          since = performance.now();
        }
      chosen = mixes.get(scores[0]!.mix);
    },
    play: async (asked = {}) => {
      if (asked.mix !== undefined) chosen = mixOf(mixes, asked.mix);
      const { score } = loaded();
      if (!(await begun(context)))
        return failure(
          browserProblem(
            "SOUND_NOT_ALLOWED",
            say("browser.problem.sound-not-allowed"),
            {},
            say("browser.remedy.press-to-start"),
          ),
        );
      damage = [];
      watch?.close();
      watch = watchContext(context, harmed);
      clearInterval(timer);
      timer = setInterval(tick, TICK);
      const started = start(asked, score);
      tell({ kind: "started", started });
      return success(started);
    },
    pause,
    stop: () => {
      if (state !== "stopped") halt("stopped", "stopped");
    },
    seek: (at) => {
      const { score } = loaded();
      const to = Math.min(Math.max(at, -score.countIn), score.duration);
      if (going === undefined) {
        place = to;
        state = "paused";
        return;
      }
      const from = context.currentTime + SOON / 2;
      voices.silence(from);
      reroute(routeFrom(score, { at: from, from: to, counted: false, again: repeated() }), from);
    },
    repeat: (asked) => {
      const stretch = asked && stretchOf(loaded().score, asked);
      phrases = asked;
      if (going === undefined) return;
      const from = context.currentTime + SOON / 2;
      const route = withRepeat(going.route, { again: stretch, from, end: loaded().score.duration });
      voices.silence(from, () => true);
      reroute(route, from);
    },
    switchMix: (mix) => {
      const [before, next] = [chosen, mixOf(mixes, mix)];
      chosen = next;
      if (going !== undefined && before !== next) {
        const from = context.currentTime + SOON / 2;
        const parts = new Set(next.score.parts.filter(({ does }) => does !== "off").map(({ name }) => name));
        voices.silence(from, (part) => part === "" || parts.has(part));
        reroute(going.route, from);
      }
      tell({ kind: "mix", mix });
    },
    setVolume: (volume) => voices.setVolume(checkedVolume(volume)),
    heard: heardNow,
    whenSounds: (at) => {
      const passage = going?.route.passages.findLast(({ from, to }) => from <= at && at < to);
      return passage && passage.at + at - passage.from;
    },
    onEvent: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    close: async () => {
      if (state !== "stopped") halt("stopped", "stopped");
      voices.close();
      if (options.context === undefined) await context.close();
    },
  };
}

function mixOf(mixes: ReadonlyMap<string, Loaded>, name: string): Loaded {
  const found = mixes.get(name);
  if (found === undefined) throw new RangeError(`the mixes loaded are ${[...mixes.keys()].join(", ")}; got ${name}`);
  return found;
}

function checkedVolume(volume: number): number {
  if (!(volume >= 0 && volume <= 1)) throw new RangeError(`a volume lies from 0 to 1, got ${volume}`);
  return volume;
}

function requireOneRung(scores: readonly Score[]): void {
  if (scores.length === 0) throw new RangeError("a player loads at least one score");
  const [first] = scores;
  const other = scores.find((score) => score.drill !== first!.drill || score.rung !== first!.rung);
  if (other !== undefined)
    throw new RangeError(`the scores are mixes of one rung: ${first!.rung}, then ${other.drill}, ${other.rung}`);
  if (new Set(scores.map(({ mix }) => mix)).size < scores.length) throw new RangeError("two scores are of one mix");
}

/** Whether the context runs now; browsers keep it suspended, without a word, until somebody presses something. */
async function begun(context: AudioContext): Promise<boolean> {
  if (context.state === "running") return true;
  const waited = new Promise((resolve) => setTimeout(resolve, PATIENCE));
  await Promise.race([context.resume().catch(() => undefined), waited]);
  return (context.state as AudioContextState) === "running";
}

function lateness(late: readonly { readonly when: number }[], now: number): Damage {
  const ms = Math.round(1000 * (now - late[0]!.when));
  const said = say("browser.problem.band-late", { notes: late.length, ms });
  const problem = browserProblem("BAND_LATE", said, {}, say("browser.remedy.less-busy"));
  return { from: late[0]!.when, to: now, stops: false, problem };
}
