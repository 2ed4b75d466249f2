import { createHash } from "node:crypto";
import { mkdir, readFile, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { globSync } from "tinyglobby";

/**
 * Does a piece of work only when the files it rests on are not those of last time.
 * @returns true when it was done now
 */
export async function whenChanged(name: string, patterns: readonly string[], work: () => Promise<void>): Promise<boolean> {
  const files = globSync([...patterns], { ignore: ["**/node_modules/**", "**/*.test.ts", "**/generated/**"], dot: false }).sort();
  const hash = createHash("sha256");
  for (const file of files) {
    const { size } = await stat(file);
    hash.update(`${file}\0${size}\0`).update(await readFile(file));
  }
  const now = hash.digest("hex");
  const stamp = path.join(".data", "stamps", name);
  if ((await readFile(stamp, "utf8").catch(() => "")) === now) return false;
  await work();
  await mkdir(path.dirname(stamp), { recursive: true });
  await writeFile(stamp, now);
  return true;
}
