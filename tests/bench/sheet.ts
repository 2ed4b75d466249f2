/**
 * How soon a checkpoint sheet of 7 × 4 cells stands there, from stills that lie ready and made in the browser, beside a plain page of 28 <img>
 * of whole frames: in turns in the same run, each in a fresh browser without a cache, in Chromium without a graphics card. Films of 1280 × 720
 * at 240 a second. Needs the house of the flows (node --import tsx tests/support/flow-server.ts):
 * node --no-deprecation --import tsx tests/bench/sheet.ts [rounds]
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { chromium, type Browser, type Page } from "@playwright/test";
import { encode } from "next-auth/jwt";
import type { Id } from "@/lib/core/ids";
import { clipAddress } from "@/lib/domains/clips/schema";
import { showStill } from "@/lib/domains/clips/routes";
import { cutStillsOfSwing } from "@/lib/domains/clips/stills/jobs";
import { makeReadings } from "@/lib/domains/measurement/jobs";
import { closeDatabase, database } from "@/lib/platform/database";
import { asPerson } from "@/seed/demo/as-person";
import { addFilm } from "@/seed/demo/film";
import { swingSpec } from "@/seed/media/spec";

const ROUNDS = Number(process.argv[2] ?? 5);
const GOAL_SECONDS = { stored: 1.5, "in the browser": 3 };
const CELLS = 28;
const environment = JSON.parse(readFileSync(path.resolve(".data/flows/environment.json"), "utf8")) as Record<string, string>;
Object.assign(process.env, environment, { LOG_LEVEL: "silent" });

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;

interface Bench {
  readonly swingIds: readonly Id[];
  readonly clipIds: readonly Id[];
  readonly cookie: string;
  readonly stills: readonly string[];
}

/** Four swings of one player, marked, read and cut. */
async function prepare(): Promise<Bench> {
  const player = await database().player.findFirstOrThrow({ where: { givenName: "Bea" }, select: { id: true, academyId: true } });
  const user = await database().user.findFirstOrThrow({ where: { displayName: "Marlow Tessen" }, select: { id: true } });
  const coach = await asPerson(player.academyId, user.id, "coach");
  const made = [];
  for (let i = 0; i < 4; i++) {
    const spec = swingSpec({ side: "right", body: "child", seed: 900 + i, look: { scene: "field", clothes: "sky" }, faults: { "barrel-drag": 0.6 } });
    made.push(await addFilm({ player: "bea", coach: "marlow", daysAgo: 1, spec, marked: "at-events", isMirrored: false, otherCameraOf: null, sent: null }, player.id, coach, null, "us"));
  }
  await isQuiet(made.map(({ swingId }) => swingId));
  const stills: string[] = [];
  for (const { swingId, clipId } of made) {
    await makeReadings.perform({ swingId }, true);
    await cutStillsOfSwing.perform({ swingId }, true);
    const { frames } = await database().clipStills.findUniqueOrThrow({ where: { academyId_clipId: { academyId: player.academyId, clipId } } });
    for (const frame of frames) {
      // The plain page's stills are made before anything is measured.
      await showStill.as(coach, new Request("http://bench.test/"), { clipId, frameIndex: String(frame) });
      stills.push(clipAddress.still(clipId, frame));
    }
  }
  const sid = crypto.randomUUID();
  await database().session.create({ data: { id: sid, academyId: player.academyId, userId: user.id, activeRole: "coach", device: "a bench", expiresAt: new Date("2030-01-01") } });
  const cookie = await encode({ token: { sid }, secret: environment.AUTH_SECRET ?? "" });
  return { swingIds: made.map(({ swingId }) => swingId), clipIds: made.map(({ clipId }) => clipId), cookie, stills };
}

/** The worker has no stills of these swings to cut any more: it would make anew what is taken away here. */
async function isQuiet(swingIds: readonly Id[]): Promise<void> {
  const keys = swingIds.map((id) => `stills ${id}`);
  for (let i = 0; i < 120; i++) {
    const [row] = await database().$queryRaw<{ count: number }[]>`SELECT count(*)::int AS count FROM graphile_worker.jobs WHERE key = ANY(${keys})`;
    if (row?.count === 0) return;
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
  throw new Error("the worker still cuts");
}

/** Opens a page in a browser without a cache and measures from the press of Enter until all its pictures are on the screen. */
async function secondsOf(browser: Browser, { cookie }: Bench, open: (page: Page) => Promise<void>): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 2400 } });
  await context.addCookies([{ name: "cagebook.session", value: cookie, url: environment.APP_URL ?? "", httpOnly: true, sameSite: "Lax" }]);
  const page = await context.newPage();
  const from = performance.now();
  await open(page);
  await page.waitForFunction(
    (cells) => {
      const all = [...document.querySelectorAll("img")];
      return all.length >= cells && all.every((it) => it.complete && it.naturalWidth > 0);
    },
    CELLS,
    { polling: "raf", timeout: 60_000 },
  );
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  const seconds = (performance.now() - from) / 1000;
  await context.close();
  return seconds;
}

async function main(): Promise<void> {
  const bench = await prepare();
  const [first, ...others] = bench.swingIds;
  const sheet = `${environment.APP_URL}/swings/${first}/sheet?with=${others.join(",")}`;
  const { academyId } = await database().clip.findUniqueOrThrow({ where: { id: bench.clipIds[0] }, select: { academyId: true } });
  const kept = await database().clipStills.findMany({ where: { academyId, clipId: { in: [...bench.clipIds] } } });
  const plain = async (page: Page) => {
    await page.route("**/plain-bench", (route) => route.fulfill({ contentType: "text/html", body: bench.stills.map((src) => `<img width="139" src="${src}">`).join("") }));
    await page.goto(`${environment.APP_URL}/plain-bench`, { waitUntil: "commit" });
  };
  const onSheet = async (page: Page) => void (await page.goto(sheet, { waitUntil: "commit" }));
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
  const seconds = { plain: [] as number[], stored: [] as number[], "in the browser": [] as number[] };
  try {
    for (let round = -1; round < ROUNDS; round++) {
      const [alone, stored] = [await secondsOf(browser, bench, plain), await secondsOf(browser, bench, onSheet)];
      await database().clipStills.deleteMany({ where: { academyId, clipId: { in: [...bench.clipIds] } } });
      const made = await secondsOf(browser, bench, onSheet);
      await database().clipStills.createMany({ data: kept });
      // The first round warms the server up.
      if (round < 0) continue;
      seconds.plain.push(alone);
      seconds.stored.push(stored);
      seconds["in the browser"].push(made);
    }
  } finally {
    await browser.close();
    await closeDatabase();
  }
  console.log(`28 cells (7 × 4) of 1280 × 720 films, ${ROUNDS} rounds, medians; plain <img> of 28 whole frames: ${median(seconds.plain).toFixed(2)} s`);
  for (const [name, goal] of Object.entries(GOAL_SECONDS)) {
    const value = median(seconds[name as keyof typeof GOAL_SECONDS]);
    console.log(`sheet, stills ${name}: ${value.toFixed(2)} s (goal ${goal} s), ${(value / median(seconds.plain)).toFixed(2)} × plain`);
  }
}

await main();
