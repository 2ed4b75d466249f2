import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { createWriteStream, mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import http from "node:http";
import { tmpdir } from "node:os";
import path from "node:path";
import { createInterface } from "node:readline";
import { pipeline } from "node:stream/promises";
import { prepareQueue } from "@/lib/platform/queue";
import { applyMigrations } from "@/lib/start/migrations";
import { createDatabase, startPostgres } from "@/lib/start/postgres";
import { filmRoom } from "../domains/video-files";

/**
 * `npx tsx tests/bench/pipeline.ts [mebibytes] [--film=seconds]`: what the worker's steps cost beside the bare command, how early a film has a picture, and how fast and
 * how lean bytes arrive beside a bare server. Goals: copy at most 1.15 of the processor time, first still in a quarter of the job, upload at
 * least 0.3 of the bare stream, under 64 MiB more memory for a gibibyte. The upload goes through the route without the framework around it.
 */
const ROUNDS = 5;
const PIECE = 5 * 1024 ** 2;
const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;

/** Processor seconds of this process and of every child that has ended. */
function processorSeconds(): number {
  const [, , ...fields] = readFileSync("/proc/self/stat", "latin1").replace(/\(.*\)/, "x").split(" ");
  return fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0) / 100;
}

async function steppingCopy(seconds: string): Promise<void> {
  const { probeVideo } = await import("@/lib/platform/video/probe");
  const { readFrameTimes } = await import("@/lib/platform/video/read-frame-times");
  const { makeSteppingCopy, steppingArgs } = await import("@/lib/platform/video/make-pictures");
  const { ingestVideo } = await import("@/lib/platform/video/ingest");
  const room = filmRoom();
  try {
    const film = room.make("film.mp4", ...room.lavfi("testsrc2=size=1920x1080:rate=240"), ...room.lavfi("anoisesrc=amplitude=0.1"), "-t", seconds, ...room.h264, "-g", "240", "-c:a", "aac");
    const probe = await probeVideo(film);
    const times = await readFrameTimes(film, probe);
    const bare = () => new Promise<void>((resolve) => spawn("ffmpeg", steppingArgs(film, probe, times, room.at("bare.mp4")), { stdio: "ignore" }).on("close", () => resolve()));
    const ours = async () => void (await makeSteppingCopy(film, probe, times, room.at("ours.mp4")));
    const spent: Record<"bare" | "ours", number[]> = { bare: [], ours: [] };
    for (let round = 0; round < ROUNDS; round++) {
      for (const [name, work] of round % 2 ? ([["ours", ours], ["bare", bare]] as const) : ([["bare", bare], ["ours", ours]] as const)) {
        const before = processorSeconds();
        await work();
        spent[name].push(processorSeconds() - before);
      }
    }
    const [ofBare, ofOurs] = [median(spent.bare), median(spent.ours)];
    console.log(`film: ${times.ticks.length} frames of 1920×1080 at 240, ${(statSync(film).size / 1e6).toFixed(1)} MB`);
    console.log(`stepping copy, processor time, median of ${ROUNDS} in turn: ours ${ofOurs.toFixed(2)} s, bare command ${ofBare.toFixed(2)} s, ratio ${(ofOurs / ofBare).toFixed(3)} (goal 1.15)`);
    const shares: number[] = [];
    for (let round = 0; round < 3; round++) {
      const start = performance.now();
      let firstMs = NaN;
      await ingestVideo(film, room.folder, async () => {
        firstMs = performance.now() - start;
      });
      shares.push(firstMs / (performance.now() - start));
    }
    console.log(`first still after ${(median(shares) * 100).toFixed(0)} % of the job, median of 3 (goal 25 %)`);
  } finally {
    room.remove();
  }
}

interface Server {
  readonly port: number;
  readonly pid: number;
  stop(): void;
}

async function ourServer(): Promise<Server> {
  const child = spawn(process.execPath, ["--no-deprecation", "--import", "tsx", "tests/support/upload-server.ts"], { env: process.env, stdio: ["ignore", "pipe", "inherit"] });
  const port = await new Promise<number>((resolve) => createInterface(child.stdout).on("line", (line) => /^port/.test(line) && resolve(Number(line.slice(5)))));
  return { port, pid: child.pid ?? 0, stop: () => child.kill("SIGKILL") };
}

async function bareServer(file: string): Promise<Server> {
  const server = http.createServer((incoming, outgoing) => void pipeline(incoming, createWriteStream(file, { flags: "a" })).then(() => outgoing.writeHead(204).end()));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const address = server.address();
  return { port: typeof address === "object" && address ? address.port : 0, pid: process.pid, stop: () => server.close() };
}

const peakMiB = (pid: number) => Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "latin1"))?.[1] ?? NaN) / 1024;

function ask(port: number, method: string, at: string, headers: Record<string, string>, body?: Buffer): Promise<number> {
  return new Promise((resolve, reject) => {
    const request = http.request({ host: "127.0.0.1", port, method, path: at, headers, agent: false }, (answer) => {
      answer.resume().on("end", () => resolve(answer.statusCode ?? 0));
    });
    request.on("error", reject).end(body);
  });
}

async function upload(megabytes: number): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "cagebook-bench-"));
  const server = await startPostgres(path.resolve(".data/bench-postgres"));
  const name = `pipeline_${process.pid}`;
  await createDatabase(server, name);
  await applyMigrations(server.urlOf(name), path.resolve("prisma/migrations"));
  await prepareQueue(server.urlOf(name));
  Object.assign(process.env, { DATABASE_URL: server.urlOf(name), BLOB_DIR: path.join(folder, "blobs"), MAIL_DIR: path.join(folder, "mail"), CLOCK_STARTS_AT: "2026-11-25T15:00:00Z", LOG_LEVEL: "warn" });
  const { beginUpload } = await import("@/lib/domains/clips/actions");
  const { closeDatabase } = await import("@/lib/platform/database");
  const { coachWithPlayer, facts } = await import("../domains/clip-story");
  const [piece, pieces] = [randomBytes(PIECE), Math.round((megabytes * 1024 ** 2) / PIECE)];
  const byteLength = pieces * PIECE;
  try {
    const story = await coachWithPlayer();
    const ours = await ourServer();
    const speeds: Record<"ours" | "bare", number[]> = { ours: [], bare: [] };
    const one = async (): Promise<number> => {
      const { data } = await beginUpload.as(story.coach, { playerId: story.playerId, ...facts, byteLength } as never);
      const { uploadId } = data as { uploadId: string };
      const headers = { "tus-resumable": "1.0.0", "x-session": story.coach.sessionId };
      const start = performance.now();
      await ask(ours.port, "POST", "/api/uploads", { ...headers, "upload-length": String(byteLength), "upload-metadata": `upload ${Buffer.from(uploadId).toString("base64")}` });
      for (let i = 0; i < pieces; i++) {
        const status = await ask(ours.port, "PATCH", `/api/uploads/${uploadId}`, { ...headers, "upload-offset": String(i * PIECE), "content-type": "application/offset+octet-stream" }, piece);
        if (status !== 204) throw new Error(`a piece was answered with ${status}`);
      }
      const seconds = (performance.now() - start) / 1000;
      rmSync(path.join(folder, "blobs", "received"), { recursive: true, force: true });
      return byteLength / 1e6 / seconds;
    };
    const other = async (): Promise<number> => {
      const bare = await bareServer(path.join(folder, "bare"));
      const start = performance.now();
      for (let i = 0; i < pieces; i++) await ask(bare.port, "PATCH", "/", {}, piece);
      const seconds = (performance.now() - start) / 1000;
      bare.stop();
      rmSync(path.join(folder, "bare"), { force: true });
      return byteLength / 1e6 / seconds;
    };
    // One small request first, so that what is loaded once is not counted as memory of the upload.
    await ask(ours.port, "HEAD", "/api/uploads/00000000-0000-4000-8000-000000000000", { "tus-resumable": "1.0.0", "x-session": story.coach.sessionId });
    const before = peakMiB(ours.pid);
    for (let round = 0; round < 3; round++) {
      speeds.bare.push(await other());
      speeds.ours.push(await one());
    }
    const [ofOurs, ofBare] = [median(speeds.ours), median(speeds.bare)];
    console.log(`upload of ${(byteLength / 1024 ** 2).toFixed(0)} MiB in pieces of 5 MiB, median of 3 in turn: ours ${ofOurs.toFixed(0)} MB/s, bare ${ofBare.toFixed(0)} MB/s, ratio ${(ofOurs / ofBare).toFixed(2)} (goal 0.3)`);
    console.log(`memory of the server: ${(peakMiB(ours.pid) - before).toFixed(0)} MiB more at its highest (goal 64)`);
    ours.stop();
  } finally {
    await closeDatabase();
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function main(): Promise<void> {
  process.env.AUTH_SECRET ??= "a secret for the bench only, long enough for it";
  const film = process.argv.find((word) => word.startsWith("--film="))?.slice(7) ?? "2";
  // The settings are read once: the upload brings a database with it.
  await upload(Number(process.argv.find((word) => /^\d+$/.test(word)) ?? 1024));
  if (film !== "0") await steppingCopy(film);
}

void main();
