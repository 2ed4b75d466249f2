/**
 * The portal's first page on a phone with a slow line, in a running house: when its largest part stands, how much it shifts, and the
 * script above a bare page. Line and processor are slowed as Lighthouse slows them where it really does so ("mobile slow 4G", core/config/constants.js:
 * 562.5 ms a request, 1,474.56 kbit/s down, 675 up, a quarter of the processor). First with nothing in the browser's store, then once more with what the
 * first visit left there. The first picture of a walkthrough (goal 1 s) is told by the browser's own Element Timing of the still that came with the page.
 * Run: npx tsx tests/bench/portal.ts [address of the house, or several with commas: visited in turn] [user name] [rounds] [paths of other pages, with commas]
 */
import { gzipSync } from "node:zlib";
import { chromium, type Browser, type BrowserContext, type Page } from "@playwright/test";
import { DEMO_PASSWORD } from "@/seed/demo/people";

const HOUSES = (process.argv[2] ?? "http://localhost:3000").split(",");
const WHO = process.argv[3] ?? "ines.c";
const ROUNDS = Number(process.argv[4] ?? 7);
const OTHER_PAGES = process.argv[5]?.split(",");
const KBIT = 1024 / 8;
const SLOW_4G = { offline: false, latency: 562.5, downloadThroughput: 1474.56 * KBIT, uploadThroughput: 675 * KBIT };
const SLOWER = 4;
const PHONE = { viewport: { width: 412, height: 823 }, deviceScaleFactor: 1.75, isMobile: true, hasTouch: true };
const SETTLED_MS = 3_000;
const GOALS = { largestMs: 2_500, pictureMs: 1_000, shift: 0.05, scriptBytes: 25_000 };

interface Seen {
  readonly firstMs: number;
  readonly largestMs: number;
  /** What was the largest part: its element, and the address of its picture. */
  readonly largest: string;
  /** When the still that came with the page was painted; 0 where there is none. */
  readonly pictureMs: number;
  readonly shift: number;
  /** Bytes of the page itself as they came over the line. */
  readonly pageBytes: number;
}

interface Door {
  readonly house: string;
  readonly context: BrowserContext;
  readonly first: string;
}

async function scriptBytes(page: Page, house: string, address: string): Promise<number> {
  const html = await (await page.request.get(`${house}${address}`)).text();
  const scripts = [...new Set([...html.matchAll(/<script[^>]+src="([^"]+\.js[^"]*)"/g)].map((match) => match[1] ?? ""))];
  const sizes = await Promise.all(scripts.map(async (script) => gzipSync(await (await page.request.get(new URL(script, house).href)).body()).byteLength));
  return sizes.reduce((sum, size) => sum + size, 0);
}

/** Paints and shifts of one visit as the browser itself reports them. */
async function visit({ house, context }: Door, address: string, isCold: boolean): Promise<Seen> {
  const page = await context.newPage();
  const client = await context.newCDPSession(page);
  await client.send("Network.enable");
  if (isCold) await client.send("Network.clearBrowserCache");
  await client.send("Network.emulateNetworkConditions", SLOW_4G);
  await client.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  await page.addInitScript(() => {
    const seen = { firstMs: 0, largestMs: 0, largest: "", pictureMs: 0, shift: 0 };
    Object.assign(window, { seen });
    const told = new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const more = entry as unknown as { element: Element | null; url: string; identifier: string; renderTime: number; value: number };
        if (entry.entryType === "layout-shift") seen.shift += more.value;
        else if (entry.name === "first-contentful-paint") seen.firstMs = entry.startTime;
        else if (entry.entryType === "element" && more.identifier === "opening" && seen.pictureMs === 0) seen.pictureMs = more.renderTime;
        else if (entry.entryType === "largest-contentful-paint") {
          seen.largestMs = entry.startTime;
          seen.largest = `${more.element?.tagName.toLowerCase() ?? "gone"} ${(more.url.startsWith("http") ? new URL(more.url).pathname : more.url || more.element?.textContent || "").slice(0, 80)}`;
        }
      }
    });
    for (const type of ["paint", "largest-contentful-paint", "element", "layout-shift"]) told.observe({ type, buffered: true });
  });
  try {
    await page.goto(`${house}${address}`, { waitUntil: "networkidle", timeout: 60_000 });
    await page.waitForTimeout(SETTLED_MS);
    return await page.evaluate(() => ({ ...(window as unknown as { seen: Seen }).seen, pageBytes: (performance.getEntriesByType("navigation")[0] as PerformanceNavigationTiming).transferSize }));
  } finally {
    await page.close();
  }
}

async function enter(browser: Browser, house: string): Promise<Door> {
  const context = await browser.newContext(PHONE);
  const door = await context.newPage();
  await door.goto(`${house}/sign-in`, { waitUntil: "networkidle" });
  await door.getByLabel("Mail address or user name").fill(WHO);
  await door.getByLabel("Password").fill(DEMO_PASSWORD);
  await door.getByLabel("Password").press("Enter");
  await door.waitForURL(/\/today$/, { timeout: 30_000 });
  const first = new URL(door.url()).pathname;
  await door.close();
  return { house, context, first };
}

const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
const ms = (value: number) => value.toFixed(0);

function say(rounds: readonly Seen[], words: string): void {
  const of = (part: (seen: Seen) => number) => rounds.map(part);
  const pictures = of(({ pictureMs }) => pictureMs).filter((it) => it > 0);
  console.log(
    `  ${words}: first paint ${ms(middle(of(({ firstMs }) => firstMs)))} ms, largest ${ms(middle(of(({ largestMs }) => largestMs)))} ms (worst ${ms(Math.max(...of(({ largestMs }) => largestMs)))}; ${rounds[0]?.largest ?? ""})` +
      `${pictures.length > 0 ? `, first picture ${ms(middle(pictures))} ms (worst ${ms(Math.max(...pictures))}, in ${pictures.length} of ${rounds.length})` : ""}, page ${ms(middle(of(({ pageBytes }) => pageBytes)))} bytes`,
  );
}

async function sayPage(doors: readonly Door[], address: string | null): Promise<boolean> {
  const seen = doors.map((door) => ({ door, path: address ?? door.first, cold: [] as Seen[], warm: [] as Seen[] }));
  for (let round = 0; round < ROUNDS; round++) {
    for (const { door, path, cold, warm } of seen) {
      cold.push(await visit(door, path, true));
      warm.push(await visit(door, path, false));
    }
  }
  let isWell = true;
  for (const { door, path, cold, warm } of seen) {
    const page = await door.context.newPage();
    const script = (await scriptBytes(page, door.house, path)) - (await scriptBytes(page, door.house, "/help"));
    await page.close();
    const shift = Math.max(...[...cold, ...warm].map((it) => it.shift));
    console.log(`${door.house}${path}: shift at most ${shift.toFixed(4)} (goal ${GOALS.shift}), script ${script} bytes above a bare page (goal ${GOALS.scriptBytes} on the first page); medians of ${ROUNDS}`);
    say(cold, "empty store");
    say(warm, "second look");
    const picture = middle(cold.map(({ pictureMs }) => pictureMs));
    isWell &&= middle(cold.map(({ largestMs }) => largestMs)) <= GOALS.largestMs && shift <= GOALS.shift && (address !== null || script <= GOALS.scriptBytes) && picture <= GOALS.pictureMs;
  }
  return isWell;
}

async function main(): Promise<void> {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const doors: Door[] = [];
    for (const house of HOUSES) doors.push(await enter(browser, house));
    for (const address of OTHER_PAGES ?? [null]) if (!(await sayPage(doors, address))) process.exitCode = 1;
  } finally {
    await browser.close();
  }
}

await main();
