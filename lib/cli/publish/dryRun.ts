import { copyFile, link, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { type Result, success } from "../../base/index.js";
import { makeFolder } from "../../node/index.js";
import { holdsPublication, refusedFolder } from "./folder.js";

/**
 * Does something in a folder that holds what another holds, which stays as it is; it is gone afterwards. Files are not copied where both are on one disk: who writes in such a folder
 * puts new files in the place of others and changes none.
 */
export async function insteadOf<T>(path: string, act: (folder: string) => Promise<Result<T>>): Promise<Result<T>> {
  const refused = await refusedFolder(path);
  if (refused !== undefined) return { ok: false, problems: [refused] };
  const folder = await mkdtemp(join(tmpdir(), "leeway-dry-run-"));
  try {
    if (await holdsPublication(path)) {
      const like = await linkAll(path, folder);
      if (!like.ok) return like;
    }
    return await act(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function linkAll(from: string, to: string): Promise<Result<void>> {
  const entries = await readdir(from, { recursive: true, withFileTypes: true });
  for (const entry of entries.filter((each) => each.isFile())) {
    const source = join(entry.parentPath, entry.name);
    const target = join(to, relative(from, source));
    const made = await makeFolder(dirname(target));
    if (!made.ok) return made;
    // On another disk, or where links are not allowed.
    await link(source, target).catch(() => copyFile(source, target));
  }
  return success(undefined);
}
