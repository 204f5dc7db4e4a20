import { type ChildProcess, spawn } from "node:child_process";
import { builtEntry } from "../../built.js";

/** `leeway serve`, running. */
export interface Running {
  readonly address: string;
  /** The address by which the first teacher comes in, as it is printed; absent where there is a teacher. */
  readonly first: string | undefined;
  readonly said: string;
  /** What is on standard error so far: the log. */
  readonly log: () => string;
  readonly child: ChildProcess;
  readonly ended: Promise<number | null>;
}

/** Starts the command as a person does, and waits until it says where it is. */
export function startServe(
  words: readonly string[],
  { folder, env }: { readonly folder: string; readonly env?: Readonly<Record<string, string>> },
): Promise<Running> {
  const child = spawn(process.execPath, [builtEntry(), "serve", ...words], {
    cwd: folder,
    env: { ...process.env, ...env },
  });
  let said = "";
  let logged = "";
  const log = (): string => logged;
  const ended = new Promise<number | null>((done) => child.once("exit", done));
  return new Promise((resolve, reject) => {
    child.stderr.on("data", (piece: Buffer) => {
      logged += piece;
    });
    child.stdout.on("data", (piece: Buffer) => {
      said += piece;
      const address = /The school is at (\S+)/.exec(said)?.[1];
      if (address === undefined) return;
      setTimeout(() => resolve({ address, said, log, first: /once by (\S+)/.exec(said)?.[1], child, ended }), 200);
    });
    ended.then((code) => reject(new Error(`ended with ${code}: ${said}`)));
  });
}
