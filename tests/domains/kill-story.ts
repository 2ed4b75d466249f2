import { spawn, type ChildProcess } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import http from "node:http";
import path from "node:path";
import { createInterface } from "node:readline";
import { seededRandom } from "@/lib/core/random";
import { beginUpload } from "@/lib/domains/clips/actions";
import { database } from "@/lib/platform/database";
import { coachWithPlayer, facts } from "./clip-story";

/** How often the house is killed, and where the chances come from. */
export interface Killing {
  readonly films: readonly string[];
  readonly serverKills: number;
  readonly workerKills: number;
  readonly seed: number;
}

/** What was there afterwards beside what should be there. */
export interface Aftermath {
  readonly serverKills: number;
  readonly workerKills: number;
  readonly states: readonly string[];
  readonly hashesOfSent: readonly string[];
  readonly hashesOfKept: readonly string[];
  readonly clips: number;
  readonly leftovers: readonly string[];
  readonly unfinishedJobs: number;
}

const environment = { ...process.env, LOG_LEVEL: "info", NODE_ENV: "production" } as NodeJS.ProcessEnv;
const hashOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

/** Starts a TypeScript program and waits for a line of its output. */
function start(file: string, until: RegExp): Promise<{ child: ChildProcess; line: string }> {
  const child = spawn(process.execPath, ["--import", "tsx", file], { env: { ...environment, DATABASE_URL: process.env.DATABASE_URL, BLOB_DIR: process.env.BLOB_DIR, AUTH_SECRET: process.env.AUTH_SECRET, CLOCK_STARTS_AT: process.env.CLOCK_STARTS_AT }, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  child.stderr?.on("data", (bytes: Buffer) => (said += bytes.toString()));
  return new Promise((resolve, reject) => {
    child.on("exit", (code) => reject(new Error(`${file} ended with ${code}: ${said.slice(0, 800)}`)));
    if (!child.stdout) return;
    createInterface(child.stdout).on("line", (line) => until.test(line) && resolve({ child, line }));
  });
}

const ended = (child: ChildProcess) => new Promise<void>((resolve) => (child.exitCode !== null || child.signalCode !== null ? resolve() : child.once("exit", () => resolve())));

/** The house takes films, is killed at seeded bytes while they arrive and at seeded moments while they are looked at, and is started again each time. */
export async function killTrial({ films, serverKills, workerKills, seed }: Killing): Promise<Aftermath> {
  const random = seededRandom(seed);
  const story = await coachWithPlayer();
  const sent: { uploadId: string; bytes: Uint8Array<ArrayBuffer> }[] = [];
  for (const film of films) {
    const bytes = new Uint8Array(readFileSync(film));
    const { data } = await beginUpload.as(story.coach, { playerId: story.playerId, ...facts, byteLength: bytes.length, contentHash: hashOf(bytes) } as never);
    sent.push({ uploadId: (data as { uploadId: string }).uploadId, bytes });
  }
  const killsOf = (i: number) => Math.floor((serverKills * (i + 1)) / sent.length) - Math.floor((serverKills * i) / sent.length);
  let server = await start("tests/support/upload-server.ts", /^port \d+/);
  for (const [i, { uploadId, bytes }] of sent.entries()) {
    const places = Array.from({ length: killsOf(i) }, () => Math.floor(random.uniform() * (bytes.length + 1))).sort((a, b) => a - b);
    for (const place of [...places, null]) {
      await sendUntil(Number(server.line.slice(5)), story.coach.sessionId, uploadId, bytes, place, () => server.child.kill("SIGKILL"));
      if (place === null) continue;
      await ended(server.child);
      server = await start("tests/support/upload-server.ts", /^port \d+/);
    }
  }
  server.child.kill("SIGKILL");

  let killed = 0;
  while (killed < workerKills) {
    const { child } = await start("lib/worker/main.ts", /worker ready/);
    await new Promise((resolve) => setTimeout(resolve, random.uniform() * 2500));
    child.kill("SIGKILL");
    await ended(child);
    killed += 1;
  }
  const { child } = await start("lib/worker/main.ts", /worker ready/);
  const underWay = { id: { in: sent.map(({ uploadId }) => uploadId) }, state: { in: ["receiving", "checking"] } };
  for (let i = 0; i < 1200 && (await database().upload.count({ where: underWay })) > 0; i++) await new Promise((resolve) => setTimeout(resolve, 250));
  await new Promise((resolve) => setTimeout(resolve, 500));
  child.kill("SIGTERM");
  await ended(child);

  const store = process.env.BLOB_DIR ?? "";
  const files = await database().mediaFile.findMany({ where: { academyId: story.academyId } });
  const [jobs] = await database().$queryRaw<{ count: number }[]>`SELECT count(*)::int AS count FROM graphile_worker.jobs WHERE task_identifier = 'clips.upload-received'`;
  const states = await database().upload.findMany({ where: { academyId: story.academyId }, select: { state: true } });
  return {
    serverKills,
    workerKills: killed,
    states: states.map(({ state }) => state),
    hashesOfSent: sent.map(({ bytes }) => hashOf(bytes)).sort(),
    hashesOfKept: files.map(({ originalKey }) => hashOf(readFileSync(path.join(store, originalKey)))).sort(),
    clips: await database().clip.count({ where: { playerId: story.playerId } }),
    leftovers: ["incoming", "received"].flatMap((name) => (existsSync(path.join(store, name)) ? readdirSync(path.join(store, name)) : [])),
    unfinishedJobs: jobs?.count ?? 0,
  };
}

const PIECE_BYTES = 16_384;

/** Waits until so many bytes of an upload lie on the disk, two seconds at most: a killed house has usually written what was sent. */
async function untilOnDisk(uploadId: string, count: number): Promise<void> {
  const file = path.join(process.env.BLOB_DIR ?? "", "incoming", uploadId);
  for (let i = 0; i < 80 && (!existsSync(file) || statSync(file).size < count); i++) await new Promise((resolve) => setTimeout(resolve, 25));
}

/** Goes on with a sending where it stopped; at a place in the file the house is killed, in the middle of a request. With null it is sent to its end. */
async function sendUntil(port: number, sessionId: string, uploadId: string, bytes: Uint8Array, place: number | null, kill: () => void): Promise<void> {
  const ask = (method: string, at: string, headers: Record<string, string>, body?: { from: number }) =>
    new Promise<{ status: number; offset: number }>((resolve, reject) => {
      const request = http.request({ port, host: "127.0.0.1", method, path: at, headers: { "tus-resumable": "1.0.0", "x-session": sessionId, ...headers } }, (answer) => {
        answer.resume();
        answer.on("end", () => resolve({ status: answer.statusCode ?? 0, offset: Number(answer.headers["upload-offset"] ?? -1) }));
        answer.on("error", reject);
      });
      request.on("error", reject);
      void (async () => {
        for (let from = body?.from ?? bytes.length; from < bytes.length; from += PIECE_BYTES) {
          const to = Math.min(bytes.length, from + PIECE_BYTES);
          if (place !== null && place < to) {
            request.write(bytes.subarray(from, Math.max(from, place)));
            await untilOnDisk(uploadId, place);
            return kill();
          }
          if (!request.write(bytes.subarray(from, to))) await new Promise((resolve) => request.once("drain", resolve));
        }
        if (place === null || body === undefined || place < bytes.length) return request.end();
        // All bytes are on their way: it is killed just as they end.
        request.end();
        setTimeout(kill, 5);
      })();
    });
  try {
    let { status, offset } = await ask("HEAD", `/api/uploads/${uploadId}`, {});
    if (status === 404) {
      const metadata = `upload ${Buffer.from(uploadId).toString("base64")}`;
      ({ status, offset } = { ...(await ask("POST", "/api/uploads", { "upload-length": String(bytes.length), "upload-metadata": metadata })), offset: 0 });
    }
    if (offset < bytes.length) await ask("PATCH", `/api/uploads/${uploadId}`, { "upload-offset": String(offset), "content-type": "application/offset+octet-stream", "content-length": String(bytes.length - offset) }, { from: offset });
    if (place !== null) kill();
  } catch (error) {
    if (place === null) throw error;
  }
}
