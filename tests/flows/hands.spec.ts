import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Locator, Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

const folder = mkdtempSync(path.join(tmpdir(), "cagebook-flow-"));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Truth {
  readonly contactFrame: number;
  readonly spec: { readonly framesPerSecond: number };
  readonly events: Readonly<Record<string, number>>;
  readonly frames: readonly { readonly points: Readonly<Record<string, { readonly picture: { readonly x: number; readonly y: number } }>> }[];
}

/** A drawn swing that nobody has marked, with where everything truly is: what a person would see by looking. */
function drawnFilm(name: string): { readonly file: string; readonly truth: Truth } {
  const file = path.join(folder, `${name}.mp4`);
  const truth = path.join(folder, `${name}.json`);
  const seed = String(1000 + (Date.now() % 90_000));
  execFileSync("npx", ["tsx", "seed/media/cli.ts", file, "--size", "640x360", "--fps", "120", "--seconds", "1.7", "--body", "teen", "--seed", seed, "--truth", truth]);
  return { file, truth: JSON.parse(readFileSync(truth, "utf8")) as Truth };
}

/** Sends the film for a player of whom the small demo has none, and gives the way to its swing. */
async function filmed(page: Page, file: string): Promise<Locator> {
  await signIn(page, "Ottoline Brack", "coach");
  const [player] = await ask<{ id: string }>(`SELECT "id" FROM "Player" WHERE "givenName" = 'Tamsin'`);
  await page.goto(`/players/${player?.id}/clips/new`);
  await page.waitForLoadState("networkidle");
  await page.getByLabel("Choose videos").setInputFiles(file);
  const ready = page.getByRole("link", { name: "Open the swing" });
  const before = await ready.count();
  await page.getByRole("button", { name: "Send one clip" }).click();
  await expect(ready).toHaveCount(before + 1, { timeout: 60_000 });
  return ready.first();
}

const picture = (page: Page) => page.getByRole("img", { name: /^Frame \d+ of \d+/ });
const frameShown = async (page: Page) => Number(/^Frame (\d+)/.exec((await picture(page).getAttribute("aria-label")) ?? "")?.[1]) - 1;
const theView = (page: Page) => page.getByRole("group", { name: /^This swing\. Arrow keys step/ });
const eventButton = (page: Page, name: string) => page.getByRole("button", { name: new RegExp(`^Set ${name} here`) });
const readings = (page: Page) => page.getByRole("region", { name: "Readings" });
const knownReadings = (page: Page) => readings(page).locator("details.reading").count();

const sheet = (page: Page) => page.getByRole("table", { name: /Events across, clips down/ });
const nameOfAReading = async (page: Page) => (await readings(page).locator("details.reading .what").first().evaluate((it) => it.firstChild?.textContent)) ?? "no reading";

/** The worker keeps the readings a moment after the last change: whoever opens the sheet then finds them in it. */
async function sheetSays(page: Page, name: string): Promise<void> {
  await expect(page.getByRole("heading", { level: 1, name: "Checkpoint sheet" })).toBeVisible({ timeout: 30_000 });
  await expect(async () => {
    await page.reload();
    await expect(sheet(page)).toContainText(name, { timeout: 2000 });
  }).toPass({ timeout: 40_000 });
}

/** The names of points as the page says them, to their place in the truth. */
const POINTS: Readonly<Record<string, string>> = {
  nose: "nose", "front ear": "ear_f", "back ear": "ear_b", "front shoulder": "sh_f", "back shoulder": "sh_b", "front elbow": "el_f", "back elbow": "el_b",
  "front wrist": "wr_f", "back wrist": "wr_b", "front hip": "hip_f", "back hip": "hip_b", "front knee": "kn_f", "back knee": "kn_b", "front ankle": "an_f",
  "back ankle": "an_b", "front heel": "heel_f", "back heel": "heel_b", "front toe": "toe_f", "back toe": "toe_b", "knob of the bat": "knob", "tip of the bat": "tip",
  "middle of the helmet": "helmet",
};

/** Which point is asked for on the frame shown, where the cross stands, and where the eye sees the point. */
async function asked(page: Page, truth: Truth) {
  const words = (await page.getByRole("status").filter({ hasText: /^Place the / }).textContent()) ?? "";
  const [, name = "", x, y] = /^Place the (.+)\. The cross is (\d+) across, (\d+) down/.exec(words) ?? [];
  const seen = truth.frames[await frameShown(page)]?.points[POINTS[name] ?? ""]?.picture;
  if (!seen) throw new Error(`nobody can see “${name}” here: ${words}`);
  return { name, cross: { x: Number(x), y: Number(y) }, seen };
}

/** Goes on with the tab key until the thing has the focus, as who has no mouse does. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  await expect(target).toBeVisible({ timeout: 30_000 });
  for (let press = 0; press < 150; press += 1) {
    if (await target.evaluate((it) => it === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`the tab key does not come to ${target}`);
}

async function press(page: Page, key: string, times: number): Promise<void> {
  for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
}

test("two people at one clip: who comes later is told who was faster, sees theirs, and can keep the own", async ({ page, browser }) => {
  const { file, truth } = drawnFilm("two");
  await (await filmed(page, file)).click();
  await expect(eventButton(page, "contact")).toContainText("suggested", { timeout: 30_000 });
  const other = await (await browser.newContext()).newPage();
  await signIn(other, "Ottoline Brack", "coach");
  await other.goto(page.url());
  await expect(picture(other)).toBeVisible({ timeout: 30_000 });

  await page.keyboard.press("y");
  await expect(eventButton(page, "contact")).not.toContainText("suggested");
  await expect(page.locator(".bench")).toHaveAttribute("data-unsent", "0");
  await tabTo(other, theView(other));
  await other.keyboard.press("ArrowLeft");
  await other.keyboard.press("c");
  const told = other.getByRole("alert").filter({ hasText: "Contact was not kept as you had it. In another window you set it on another frame at" });
  await expect(told).toBeVisible();
  await look(other, "overtaken-1440");
  await expectAccessible(other);
  await expect(eventButton(other, "contact")).not.toContainText("suggested");
  await expect(eventButton(other, "contact")).not.toContainText("here");
  await told.getByRole("button", { name: "Keep mine instead" }).click();
  await expect(told).toHaveCount(0);
  await expect(eventButton(other, "contact")).toHaveAttribute("aria-label", /0\.000, here/);
  await expect(other.locator(".bench")).toHaveAttribute("data-unsent", "0");
  await page.reload();
  await expect(picture(page)).toBeVisible({ timeout: 30_000 });
  expect(await frameShown(page)).toBe((await frameShown(other)));
  expect(Math.abs((await frameShown(page)) - truth.contactFrame)).toBeLessThanOrEqual(3);
  await other.context().close();
});

test("a stranger marks a swing with the keyboard alone: contact, landing, points under the glass, taken back and done again", async ({ page }) => {
  test.slow();
  const { file, truth } = drawnFilm("keys");
  const ready = await filmed(page, file);
  await tabTo(page, ready);
  await page.keyboard.press("Enter");
  await expect(eventButton(page, "contact")).toContainText("suggested", { timeout: 30_000 });
  await expect(picture(page)).toBeVisible({ timeout: 30_000 });
  await expect(theView(page)).toBeFocused();
  const begun = Date.now();
  await page.keyboard.press("y");
  await expect(eventButton(page, "contact")).toHaveAttribute("aria-label", /0\.000, here/);
  expect(Date.now() - begun, "contact takes less than ten seconds").toBeLessThan(10_000);

  const back = Math.round(-(truth.events.plant ?? 0) * truth.spec.framesPerSecond);
  await press(page, "Shift+ArrowLeft", Math.floor(back / 10));
  await press(page, "ArrowLeft", back % 10);
  await page.keyboard.press("p");
  await expect(eventButton(page, "plant")).toHaveAttribute("aria-label", /, here/);

  const before = await knownReadings(page);
  await tabTo(page, page.getByRole("group", { name: /^Magnifier: / }));
  for (let placed = 0; placed < 45 && (await knownReadings(page)) < before + 2; placed += 1) {
    const { name, cross, seen } = await asked(page, truth);
    for (const [less, more, by] of [["ArrowLeft", "ArrowRight", seen.x - cross.x], ["ArrowUp", "ArrowDown", seen.y - cross.y]] as const) {
      const far = Math.round(Math.abs(by));
      await press(page, `Shift+${by < 0 ? less : more}`, Math.floor(far / 10));
      await press(page, by < 0 ? less : more, far % 10);
    }
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { name: `Place the ${name}`, exact: true })).toHaveCount(0);
    const next = page.getByRole("button", { name: /^Go to (contact|plant)$/ });
    if (await next.count()) {
      await tabTo(page, next);
      await page.keyboard.press("Enter");
      await tabTo(page, page.getByRole("group", { name: /^Magnifier: / }));
    }
  }
  expect(await knownReadings(page)).toBeGreaterThanOrEqual(before + 2);
  const stand = page.getByText(/^\d+ points? placed, \d+ suggested/);
  const count = (await stand.textContent()) ?? "";
  await page.keyboard.press("Control+z");
  await expect(stand).not.toHaveText(count);
  await page.keyboard.press("Control+Shift+z");
  await expect(stand).toHaveText(count);
  await look(page, "hands-keys-1440");

  const name = await nameOfAReading(page);
  await tabTo(page, page.getByRole("link", { name: "Checkpoint sheet" }));
  await page.keyboard.press("Enter");
  await sheetSays(page, name);
  await tabTo(page, sheet(page).locator(".cell[tabindex='0']"));
  await page.keyboard.press("Home");
  await press(page, "ArrowRight", 4);
  await expect(sheet(page).getByRole("link", { name: /^This swing, contact, 0\.00 seconds/ })).toBeFocused();
  await page.keyboard.press("n");
  await expect(sheet(page).locator(".number").first()).toContainText(/\d/);
  await look(page, "hands-keys-sheet-1440");
  await page.keyboard.press("Enter");
  await expect(picture(page)).toHaveAttribute("aria-label", / 0\.000 s from contact/, { timeout: 30_000 });
  await page.keyboard.press("Escape");
  await expect(sheet(page).getByRole("link", { name: /^This swing, contact/ })).toBeFocused({ timeout: 30_000 });
});

test.describe("on a phone", () => {
  test.use({ viewport: PHONE, hasTouch: true, isMobile: true });

  test("a stranger marks a swing with one thumb: contact taken, landing found on the clock, points tapped and placed", async ({ page }) => {
    test.slow();
    const { file, truth } = drawnFilm("thumb");
    await (await filmed(page, file)).tap();
    await page.getByRole("button", { name: "Take contact" }).tap({ timeout: 30_000 });
    await expect(eventButton(page, "contact")).toHaveAttribute("aria-label", /0\.000, here/);

    const landing = (await frameShown(page)) + Math.round((truth.events.plant ?? 0) * truth.spec.framesPerSecond);
    await thumbOnClock(page, landing);
    for (let steps = 0; steps < 30 && (await frameShown(page)) !== landing; steps += 1)
      await page.getByRole("button", { name: (await frameShown(page)) > landing ? "One frame back" : "One frame on" }).tap();
    // The row of events may still be rolling: then the first tap only holds it.
    await expect(async () => {
      await eventButton(page, "plant").tap();
      await expect(eventButton(page, "plant")).toHaveAttribute("aria-label", /, here/, { timeout: 1000 });
    }).toPass({ timeout: 30_000 });
  
    const before = await knownReadings(page);
    for (let placed = 0; placed < 45 && (await knownReadings(page)) < before + 2; placed += 1) {
      const { name, seen } = await asked(page, truth);
      await picture(page).scrollIntoViewIfNeeded();
      const box = await picture(page).boundingBox();
      if (!box) throw new Error("the picture is not there");
      const scale = Math.min(box.width / 640, box.height / 360);
      await page.touchscreen.tap(box.x + box.width / 2 + (seen.x - 320) * scale, box.y + box.height / 2 + (seen.y - 180) * scale);
      await page.getByRole("button", { name: "Place here" }).tap();
      await expect(page.getByRole("heading", { name: `Place the ${name}`, exact: true })).toHaveCount(0);
      const next = page.getByRole("button", { name: /^Go to (contact|plant)$/ });
      if (await next.count()) await next.tap();
    }
    expect(await knownReadings(page)).toBeGreaterThanOrEqual(before + 2);
    await page.getByRole("button", { name: "Undo" }).tap();
    await page.getByRole("button", { name: "Redo" }).tap();
    await look(page, "hands-thumb-390");
    await expectAccessible(page);

    const name = await nameOfAReading(page);
    await page.getByRole("link", { name: "Checkpoint sheet" }).tap();
    await sheetSays(page, name);
    const events = page.getByRole("navigation", { name: "Event" });
    // The row of events may still be rolling under the thumb.
    await expect(async () => {
      await events.getByRole("button", { name: "Contact" }).tap();
      await expect(sheet(page).getByRole("link", { name: /^This swing, contact, 0\.00 seconds/ })).toBeVisible({ timeout: 2000 });
    }).toPass({ timeout: 30_000 });
    await page.getByRole("button", { name: "Numbers" }).tap();
    await look(page, "hands-thumb-sheet-390");
  });
});

/** Drags a finger along the swing clock until the frame is near. */
async function thumbOnClock(page: Page, frame: number): Promise<void> {
  const clock = page.getByRole("slider", { name: /^Swing clock/ });
  await clock.scrollIntoViewIfNeeded();
  const box = await clock.boundingBox();
  if (!box) throw new Error("the clock is not there");
  const finger = await page.context().newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", x: number) =>
    finger.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y: box.y + box.height / 2 }] });
  let x = box.x + box.width / 2;
  await touch("touchStart", x);
  for (let moves = 0; moves < 40 && (await frameShown(page)) > frame; moves += 1) {
    x = Math.max(box.x + 30, x - 6);
    await touch("touchMove", x);
  }
  await touch("touchEnd", x);
}
