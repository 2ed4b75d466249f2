import { mkdir, readdir, readFile, rename, writeFile } from "node:fs/promises";
import path from "node:path";
import nodemailer from "nodemailer";
import { now } from "./clock";
import { settings } from "./settings";

/** A letter that says that something waits, and nothing more. */
export interface Letter {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

/** Sends a letter; without a mail server (MAIL_URL) it is kept as a file, to be read on the post page. */
export async function sendMail(letter: Letter): Promise<void> {
  const { MAIL_URL, MAIL_FROM, MAIL_DIR } = settings();
  if (MAIL_URL) {
    await nodemailer.createTransport(MAIL_URL).sendMail({ from: MAIL_FROM, ...letter });
    return;
  }
  await mkdir(MAIL_DIR, { recursive: true });
  const name = `${now().getTime()}-${crypto.randomUUID()}.json`;
  const kept: KeptLetter = { ...letter, at: now().toISOString() };
  await writeFile(path.join(MAIL_DIR, `.${name}`), JSON.stringify(kept));
  await rename(path.join(MAIL_DIR, `.${name}`), path.join(MAIL_DIR, name));
}

export interface KeptLetter extends Letter {
  readonly at: string;
}

/** The letters kept for want of a mail server, newest first. */
export async function keptLetters(most: number): Promise<KeptLetter[]> {
  const { MAIL_URL, MAIL_DIR } = settings();
  if (MAIL_URL) return [];
  const names = await readdir(MAIL_DIR).catch(() => []);
  const newest = names.filter((name) => /^\d+-.*\.json$/.test(name)).sort().reverse().slice(0, most);
  return Promise.all(newest.map(async (name) => JSON.parse(await readFile(path.join(MAIL_DIR, name), "utf8")) as KeptLetter));
}
