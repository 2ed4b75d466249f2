import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "@playwright/test";
import { paintFrameNumber } from "@/seed/media/frame-number";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";
import { readStrip } from "./strip";

const folder = mkdtempSync(path.join(tmpdir(), "cagebook-frames-"));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

const COUNT = 320;
/** Gaps of 3 to 11 ms, neighbours unlike each other. */
const gapTicks = (i: number) => 270 + ((i * 131) % 720);

/** A film of uneven frame times whose every frame carries its own number, made once. */
function unevenFilm(): string {
  const file = path.join(folder, "uneven.mp4");
  const [width, height] = [640, 360];
  const frames = Buffer.concat(
    Array.from({ length: COUNT }, (_, i) => {
      const rgb = Buffer.alloc(width * height * 3, 90);
      const from = (i * 5) % 500;
      for (let y = 120; y < 220; y += 1) rgb.fill(200, 3 * (y * width + from), 3 * (y * width + from + 100));
      paintFrameNumber(rgb, width, height, i);
      return rgb;
    }),
  );
  // The sum of all gaps before a frame, as ffmpeg works it out from its number.
  execFileSync("ffmpeg", [
    "-v", "error", "-y", "-f", "rawvideo", "-pix_fmt", "rgb24", "-s", `${width}x${height}`, "-r", "240", "-i", "-", "-vf", `settb=1/90000,setpts='if(eq(N,0),0,PREV_OUTPTS+270+mod((N-1)*131,720))'`,
    "-fps_mode", "passthrough", "-enc_time_base", "1:90000", "-video_track_timescale", "90000", "-c:v", "libx264", "-preset", "ultrafast", "-crf", "20", "-pix_fmt", "yuv420p", file,
  ], { input: frames, maxBuffer: 1 << 26 });
  return file;
}

/** Noor has no films in the demo that the flows visit, and no other flow sends one. */
async function noor(): Promise<string> {
  const [row] = await ask<{ id: string }>(`SELECT "id" FROM "Player" WHERE "givenName" = 'Noor'`);
  if (!row) throw new Error("the demo has no Noor");
  return row.id;
}

/** Pell's plain clip, drawn at 240 frames a second; only looked at here. */
async function evenSwing(): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" JOIN "Clip" c ON c."swingId" = s."id" WHERE p."givenName" = 'Pell' AND s."side" = 'right' AND c."cameraOffDeg" = 0 AND c."view" = 'side' LIMIT 1`,
  );
  if (!row) throw new Error("the demo has no plain clip of Pell");
  return row.id;
}

const stage = (page: Page) => page.locator(".bench .frame canvas[data-frame-index]").first();
const openSwing = async (page: Page, swingId: string) => {
  await page.goto(`/swings/${swingId}`);
  await expect(stage(page)).toBeVisible({ timeout: 30_000 });
};

interface Seen {
  readonly asked: number;
  readonly named: number;
  readonly drawn: number | null;
}

/** Runs in the page: waits until the picture is the one that the clock stands at, and reads the number drawn in it. */
async function seen(read: typeof readStrip): Promise<Seen> {
  const canvas = document.querySelector<HTMLElement>(".bench .frame canvas");
  const clock = document.querySelector(".bench [role=slider]");
  const until = performance.now() + 10_000;
  const now = () => ({ asked: Number(clock?.getAttribute("aria-valuenow")), named: Number(canvas?.dataset.frameIndex) });
  // What was pressed reaches the clock by the next turn.
  await new Promise((done) => requestAnimationFrame(done));
  while (now().asked !== now().named && performance.now() < until) await new Promise((done) => requestAnimationFrame(done));
  return { ...now(), drawn: canvas ? read(canvas) : null };
}

/** What the clock asks for, what the view says, and what is drawn in the picture. */
const shownNow = (page: Page): Promise<Seen> => page.evaluate(`(${seen.toString()})(${readStrip.toString()})`);

/** Numbers that look random and are the same in every run. */
function dice(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 1_103_515_245 + 12_345) % 2_147_483_648) / 2_147_483_648;
}

/** Asks for frames far and near, by the clock and by key; says what went amiss. */
async function missed(page: Page, requests: number, seed: number): Promise<string[]> {
  const box = await page.getByRole("slider", { name: /^Swing clock/ }).boundingBox();
  if (!box) throw new Error("the clock is not there");
  const roll = dice(seed);
  const wrong: string[] = [];
  const asked = new Set<number>();
  // Pressed at the edge and drawn from there, so that no event catches it; keys are heard all the same.
  await page.mouse.move(box.x + 30, box.y + 60);
  await page.mouse.down();
  for (let i = 0; i < requests; i += 1) {
    if (i % 4 === 3) await page.keyboard.press(["ArrowLeft", "ArrowRight", "Shift+ArrowLeft", "Shift+ArrowRight"][Math.floor(roll() * 4)] ?? "Home");
    else await page.mouse.move(box.x + 30 + roll() * (box.width - 60), box.y + 60);
    const now = await shownNow(page);
    asked.add(now.asked);
    if (now.named !== now.asked || now.drawn !== now.asked) wrong.push(`asked ${now.asked}, named ${now.named}, drawn ${now.drawn}`);
  }
  await page.mouse.up();
  expect(asked.size).toBeGreaterThan(requests / 4);
  return wrong;
}

test.describe("the frame that is shown is the frame that was asked for", () => {
  // Some thirty seconds each on a quiet machine.
  test.describe.configure({ timeout: 180_000 });

  test("in 250 of 250 requests on a clip of constant rate", async ({ page }) => {
    await signIn(page, "Vesna Coldbrook", "coach");
    await openSwing(page, await evenSwing());
    expect(await missed(page, 250, 7)).toEqual([]);
  });

  test("in 250 of 250 requests on a clip of variable rate, stepped at once where it was chosen, and again when it was sent", async ({ page }) => {
    await signIn(page, "Ottoline Brack", "coach");
    await page.goto(`/players/${await noor()}/clips/new`);
    await page.waitForLoadState("networkidle");
    await page.getByLabel("Choose videos").setInputFiles(unevenFilm());
    await page.getByLabel(/^Step .* now$/).click();
    const local = page.locator(".local-film canvas[data-frame-index]");
    await expect(page.getByText(`Frame 1 of ${COUNT}, 0.000 s from the start`)).toBeVisible();
    await page.getByRole("button", { name: "One frame on" }).click();
    await expect(page.getByText(`Frame 2 of ${COUNT}, ${(gapTicks(0) / 90_000).toFixed(3)} s from the start`)).toBeVisible();
    for (const frame of [300, 11, 171, 0, 319]) {
      await page.getByLabel("Where in the film").fill(String(frame));
      await expect(local).toHaveAttribute("data-frame-index", String(frame));
      expect(await local.evaluate(readStrip)).toBe(frame);
    }
    await look(page, "local-film-1440");
    await expectAccessible(page);
    await page.setViewportSize(PHONE);
    await look(page, "local-film-390");
    await page.setViewportSize({ width: 1440, height: 900 });

    await page.getByRole("button", { name: "Send one clip" }).click();
    const ready = page.getByRole("link", { name: "Open the swing" });
    await expect(ready).toHaveCount(1, { timeout: 60_000 });
    await ready.click();
    await expect(stage(page)).toBeVisible({ timeout: 30_000 });
    expect(await missed(page, 250, 11)).toEqual([]);
  });

  test("also where the browser can only play: the video element's own time is checked, and a time that is not the frame's is said", async ({ page }) => {
    await page.addInitScript(() => Reflect.deleteProperty(window, "VideoDecoder"));
    await signIn(page, "Vesna Coldbrook", "coach");
    await openSwing(page, await evenSwing());
    expect(await missed(page, 40, 3)).toEqual([]);
    await expect(page.getByText("This browser does not show frame")).toHaveCount(0);

    await page.evaluate(() => {
      const own = HTMLVideoElement.prototype.requestVideoFrameCallback;
      HTMLVideoElement.prototype.requestVideoFrameCallback = function (done) {
        return own.call(this, (now, seen) => done(now, { ...seen, mediaTime: seen.mediaTime - 1 / 240 }));
      };
    });
    await page.keyboard.press("Shift+ArrowLeft");
    await expect(page.getByText("This browser does not show frame")).toBeVisible();
  });
});

test.describe("a film that does not come whole", () => {
  test.use({ allowedComplaint: "404|ERR_|Failed to load resource" });
  const address = /\/api\/media\/clips\/[^/]+\/stepping$/;

  test("a stepping copy that is not there is said, what is placed is kept, and trying again brings it", async ({ page }) => {
    await signIn(page, "Vesna Coldbrook", "coach");
    await page.route(address, (route) => route.fulfill({ status: 404, body: "" }));
    await page.goto(`/swings/${await evenSwing()}`);
    await expect(page.getByText("The stepping copy of this clip is not there")).toBeVisible({ timeout: 30_000 });
    await expect(page.getByRole("button", { name: /contact/i }).first()).toContainText("0.000");
    await look(page, "swing-no-copy-1440");
    await expectAccessible(page);
    await page.unroute(address);
    await page.getByRole("button", { name: "Try again" }).click();
    await expect(stage(page)).toBeVisible({ timeout: 30_000 });
  });

  test("a line that breaks while the film comes is taken up again, and a line that is lost afterwards does not stop the stepping", async ({ page, context }) => {
    await signIn(page, "Vesna Coldbrook", "coach");
    let broken = 0;
    await page.route(address, (route) => (broken++ < 2 ? route.abort("connectionreset") : route.continue()));
    await openSwing(page, await evenSwing());
    expect(broken).toBeGreaterThan(2);
    await context.setOffline(true);
    expect(await missed(page, 12, 5)).toEqual([]);
    await context.setOffline(false);
  });

  test("a clip that stops decoding midway names the frames that are lost, and all others are shown", async ({ page }) => {
    await signIn(page, "Vesna Coldbrook", "coach");
    await page.route(address, async (route) => {
      const answer = await route.fetch();
      const body = await answer.body();
      body.fill(0, Math.floor(body.length * 0.5), Math.floor(body.length * 0.54));
      await route.fulfill({ response: answer, body });
    });
    await openSwing(page, await evenSwing());
    await page.locator(".bench .frame").first().focus();
    await page.keyboard.press("Home");
    const notice = page.getByText(/of this clip cannot be decoded/);
    await expect(async () => {
      await page.keyboard.press("Shift+ArrowRight");
      await expect(notice).toBeVisible({ timeout: 300 });
    }).toPass({ timeout: 40_000 });
    await look(page, "swing-broken-1440");
    await page.keyboard.press("End");
    const last = await shownNow(page);
    expect([last.named, last.drawn]).toEqual([last.asked, last.asked]);
    await page.keyboard.press("Home");
    expect(await shownNow(page)).toEqual({ asked: 0, named: 0, drawn: 0 });
  });
});
