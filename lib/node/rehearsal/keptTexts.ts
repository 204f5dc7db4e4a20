import { mkdir, readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { sha256 } from "../batch/fileRecord.js";
import type { Result } from "../problem.js";
import { writeWhole } from "../writeWhole.js";

/** Texts kept in a folder under keys, each with its checksum: what is cut short or changed is not found. */
export interface KeptTexts {
  get(key: string): Promise<string | undefined>;
  put(key: string, text: string): Promise<Result<void>>;
  remove(key: string): Promise<void>;
}

/** The texts kept in a folder, which is made when something is put there. Without a folder nothing is kept. */
export function keptTexts(folder: string | undefined): KeptTexts {
  if (folder === undefined)
    return {
      get: async () => undefined,
      put: async () => ({ ok: true, value: undefined, advice: [] }),
      remove: async () => {},
    };
  const fileOf = (key: string): string => join(folder, `${sha256(key)}.kept`);
  return {
    get: async (key) => {
      const kept = await readFile(fileOf(key), "utf8").catch(() => "");
      const [sum, text] = [kept.slice(0, 64), kept.slice(65)];
      return sum.length === 64 && sha256(text) === sum ? text : undefined;
    },
    put: async (key, text) => {
      await mkdir(folder, { recursive: true }).catch(() => {});
      return writeWhole(fileOf(key), new TextEncoder().encode(`${sha256(text)}\n${text}`));
    },
    remove: (key) => rm(fileOf(key), { force: true }),
  };
}
