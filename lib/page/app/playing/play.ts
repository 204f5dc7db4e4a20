import type { Problem } from "../../../base/index.js";
import type { ScorePlayer } from "../../../browser/index.js";
import { scoreOf } from "../../../drill/index.js";
import type { Page } from "../page.js";
import { notePlaying } from "../state/brokenOff.js";
import { beginSession } from "../state/session.js";
import { fill } from "../view/element.js";
import { counts } from "../view/mixWords.js";
import { thePlayer } from "./hands.js";
import { loadScores } from "./loadScores.js";
import { playingScreen } from "./playingScreen.js";
import type { PlayRequest } from "./playRequest.js";
import { playTake } from "./playTake.js";
import { standFor } from "./standFor.js";

/**
 * Plays a rung: a take, when the version is one of the student's own and is played whole; else it is listened to. Resolves when it is over with
 * what prevented it.
 */
export async function play(page: Page, request: PlayRequest): Promise<readonly Problem[]> {
  const player = await thePlayer();
  const isTake = counts(request.rung, request.mix) && request.phrase === undefined && page.student !== undefined;
  beginSession(new Date());
  page.announce(page.words.say("page.starting"));
  const awake = await keepAwake();
  try {
    if (!isTake) return await listen(page, player, request);
    notePlaying(true);
    return await playTake(page, player, request);
  } finally {
    notePlaying(false);
    awake();
    document.body.classList.remove("playing", "gone");
    // Another view may stand there by now.
    if (request.body.isConnected) fill(request.body, request.back);
  }
}

/** Plays a version to listen to, or a phrase over and over, or all phrases of a drill that is endless, until it ends or is stopped. */
async function listen(
  page: Page,
  player: ScorePlayer,
  { rung, mix, phrase, body }: PlayRequest,
): Promise<readonly Problem[]> {
  const { drill } = rung;
  const names = drill.mixes.map(({ name }) => name);
  const score = scoreOf(rung, mix);
  const others = names.filter((name) => name !== mix).map((name) => scoreOf(rung, name));
  const loaded = await loadScores(page, player, [score, ...others]);
  if (!loaded.ok) return loaded.problems;
  const follows = !counts(rung, mix);
  const screen = playingScreen(page, { rung, score, stand: await standFor(page, rung, mix), follows, pad: false });
  fill(body, screen.body);
  const round = drill.endless === true ? { from: 1, to: drill.phrases } : undefined;
  player.repeat(phrase === undefined ? round : { from: phrase, to: phrase });
  const start = phrase === undefined ? undefined : score.bars.find((bar) => bar.phrase === phrase)?.at;
  const started = await player.play({ mix, ...(start === undefined ? {} : { from: start }) });
  if (!started.ok) return started.problems;
  await screen.until(
    () => player.heard(),
    new Promise<void>((resolve) => {
      const end = player.onEvent(({ kind }) => {
        if (kind === "ended" || kind === "stopped" || kind === "paused") {
          end();
          resolve();
        }
      });
      screen.stopped.then(() => player.stop());
    }),
  );
  player.repeat(undefined);
  return [];
}

/** Keeps the screen from going dark while something plays, where the browser can; gives what lets it. */
async function keepAwake(): Promise<() => void> {
  const lock = await navigator.wakeLock?.request("screen").catch(() => undefined);
  return () => void lock?.release();
}
