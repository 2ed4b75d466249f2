import { mkdir, mkdtemp, readdir, rm, stat } from "node:fs/promises";
import path from "node:path";
import { settings } from "./settings";

const place = () => path.join(settings().BLOB_DIR, "work");

/** Lets work go on in a folder of its own, beside the store so that what it makes is moved and not copied; it is gone afterwards. */
export async function inWorkFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  await mkdir(place(), { recursive: true });
  const folder = await mkdtemp(path.join(place(), "w-"));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Takes away the folders of work that died before an instant. @returns how many */
export async function removeDeadWork(before: Date): Promise<number> {
  let count = 0;
  for (const name of await readdir(place()).catch(() => [])) {
    const folder = path.join(place(), name);
    if (((await stat(folder).catch(() => null))?.mtime ?? before) >= before) continue;
    await rm(folder, { recursive: true, force: true });
    count += 1;
  }
  return count;
}
