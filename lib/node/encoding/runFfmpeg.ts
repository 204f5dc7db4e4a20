import { spawn } from "node:child_process";
import type { Writable } from "node:stream";

/** How a run of ffmpeg ended, and what it wrote. */
export interface FfmpegRun {
  readonly ok: boolean;
  readonly output: Uint8Array;
  /** What it complained of, or why it could not be started. */
  readonly told: string;
}

/**
 * Runs ffmpeg over `input`, to its end; whole files, for encoding. Pieces are asked for one after the other, each when the one before has been taken and may
 * be written over. A run that never ends is stopped after `seconds`.
 */
export function runFfmpeg(
  words: readonly string[],
  {
    input = new Uint8Array(0),
    seconds = 600,
    signal,
  }: {
    readonly input?: Uint8Array | AsyncIterable<Uint8Array>;
    readonly seconds?: number;
    readonly signal?: AbortSignal | undefined;
  } = {},
): Promise<FfmpegRun> {
  return new Promise((resolve) => {
    const child = spawn("ffmpeg", ["-hide_banner", "-v", "error", "-y", ...words], {
      timeout: 1000 * seconds,
      signal,
    });
    const pieces: Buffer[] = [];
    let told = "";
    child.stdout.on("data", (piece: Buffer) => void pieces.push(piece));
    child.stderr.on("data", (piece: Buffer) => {
      told += piece.toString();
    });
    // A program that ends early takes no more input; its own words say why.
    child.stdin.on("error", () => undefined);
    child.on("error", (error: NodeJS.ErrnoException) =>
      resolve({ ok: false, output: new Uint8Array(0), told: error.code ?? error.message }),
    );
    child.on("close", (code) => resolve({ ok: code === 0, output: Buffer.concat(pieces), told: told.trim() }));
    void feed(child.stdin, input instanceof Uint8Array ? [input] : input);
  });
}

async function feed(to: Writable, pieces: AsyncIterable<Uint8Array> | readonly Uint8Array[]): Promise<void> {
  for await (const piece of pieces) {
    const isTaken = await new Promise<boolean>((resolve) => to.write(piece, (error) => resolve(!error)));
    if (!isTaken) break;
  }
  to.end();
}
