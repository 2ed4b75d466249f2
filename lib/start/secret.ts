import { randomBytes } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import path from "node:path";

/** The secret that signs the sign-in cookies of this installation: made once and kept. */
export async function keptSecret(folder: string): Promise<string> {
  const file = path.join(folder, "auth-secret");
  if (existsSync(file)) return (await readFile(file, "utf8")).trim();
  await mkdir(folder, { recursive: true });
  const secret = randomBytes(36).toString("base64url");
  await writeFile(file, secret, { mode: 0o600 });
  return secret;
}
