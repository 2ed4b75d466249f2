import type { Locator, Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** Noor's swings off a tee, the newest first; no other flow visits her. */
async function swingsOfNoor(): Promise<string[]> {
  const rows = await ask<{ id: string }>(`SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" WHERE p."givenName" = 'Noor' AND s."task" = 'tee' ORDER BY s."filmedOn" DESC`);
  if (rows.length < 2) throw new Error("the demo has not two swings of Noor off a tee");
  return rows.map(({ id }) => id);
}

const EVENTS = ["Load", "Toe", "Plant", "Launch", "Contact", "Extension", "Finish"];
const sheet = (page: Page): Locator => page.getByRole("table", { name: /Events across, clips down/ });
const cell = (page: Page, row: string, event: string): Locator => sheet(page).getByRole("link", { name: new RegExp(`^${row}, ${event}, .* Open the frame\\.$`) });
const stillsAreThere = (page: Page) =>
  expect.poll(() => sheet(page).locator("img:visible").evaluateAll((all) => all.length > 0 && all.every((it) => it instanceof HTMLImageElement && it.complete && it.naturalWidth > 0)), { timeout: 30_000 }).toBe(true);

test.beforeEach(async ({ page }) => signIn(page, "Ottoline Brack", "coach"));

test("a coach reads the sheet by keyboard only: walks the grid, opens a frame, comes back to the same cell", async ({ page }) => {
  const [swingId] = await swingsOfNoor();
  await page.goto(`/swings/${swingId}`);
  await page.getByRole("link", { name: "Checkpoint sheet" }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: "Checkpoint sheet" })).toBeVisible();
  await expect(sheet(page).getByRole("columnheader").filter({ hasText: /^(Load|Toe|Plant|Launch|Contact|Extension|Finish)$/ })).toHaveText(EVENTS);
  await expect(sheet(page).getByRole("rowheader", { name: /^This swing/ })).toBeVisible();
  await expect(sheet(page).getByRole("rowheader", { name: /^Another swing/ })).toBeVisible();
  await stillsAreThere(page);

  await sheet(page).locator(".cell[tabindex='0']").focus();
  await page.keyboard.press("Home");
  await expect(cell(page, "This swing", "load")).toBeFocused();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowDown");
  const plant = cell(page, "Another swing", "plant");
  await expect(plant).toBeFocused();
  await look(page, "sheet-1440-light");

  await expect(sheet(page).locator(".number")).toHaveCount(0);
  await page.keyboard.press("n");
  await expect(page.getByRole("button", { name: "Numbers" })).toHaveAttribute("aria-pressed", "true");
  await expect(sheet(page).locator(".number").first()).toContainText(/\d/);

  const frame = Number(new URL((await plant.getAttribute("href")) ?? "", "http://cage.test").searchParams.get("frame"));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Swing view" })).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole("img", { name: new RegExp(`^Frame ${frame + 1} of \\d+`) })).toBeVisible({ timeout: 30_000 });
  await page.locator(".bench .frame").first().focus();
  await page.keyboard.press("Escape");
  await expect(cell(page, "Another swing", "plant")).toBeFocused({ timeout: 30_000 });
  await expect(page.getByRole("button", { name: "Numbers" })).toHaveAttribute("aria-pressed", "true");
});

test("a coach reads the sheet by touch only: one event at a time, pushed or tapped, with numbers and lines", async ({ browser, baseURL }) => {
  const context = await browser.newContext({ viewport: PHONE, hasTouch: true, isMobile: true, baseURL, locale: "en-US", timezoneId: "America/Chicago" });
  const page = await context.newPage();
  await signIn(page, "Ottoline Brack", "coach");
  const [swingId] = await swingsOfNoor();
  await page.goto(`/swings/${swingId}/sheet`);
  const events = page.getByRole("navigation", { name: "Event" });
  // A tap before the page has woken is lost, as a finger's would be.
  await expect(async () => {
    await events.getByRole("button", { name: "Plant" }).tap();
    await expect(cell(page, "This swing", "plant")).toBeVisible({ timeout: 2_000 });
  }).toPass();
  await expect(cell(page, "Another swing", "plant")).toBeVisible();
  await expect(cell(page, "This swing", "launch")).toBeHidden();

  const box = await cell(page, "This swing", "plant").boundingBox();
  if (!box) throw new Error("the cell is not there");
  const client = await context.newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", x: number) =>
    client.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y: box.y + box.height / 2 }] });
  await touch("touchStart", box.x + 140);
  for (const x of [110, 80, 50, 20]) await touch("touchMove", box.x + x);
  await touch("touchEnd", box.x + 20);
  await expect(events.getByRole("button", { name: "Launch" })).toHaveAttribute("aria-current", "true");
  await expect(cell(page, "This swing", "launch")).toBeVisible();

  const line = sheet(page).locator(".line:visible").first();
  await line.tap();
  await expect(sheet(page).locator(".number:visible")).toHaveCount(1);
  await expect(line).toHaveAttribute("aria-expanded", "true");
  await line.tap();
  await expect(sheet(page).locator(".number")).toHaveCount(0);

  await page.getByText("Lines, all").tap();
  await expect(sheet(page).locator("svg.body-lines:visible")).toHaveCount(2);
  await page.getByRole("button", { name: "Numbers" }).tap();
  await expect(sheet(page).locator(".number:visible").first()).toContainText(/\d/);
  await stillsAreThere(page);
  await look(page, "sheet-390-light");
  await expectAccessible(page);
  await cell(page, "Another swing", "launch").tap();
  await expect(page.getByRole("heading", { name: "Swing view" })).toBeVisible({ timeout: 30_000 });
  await page.getByRole("link", { name: "Back to the sheet" }).tap();
  await expect(events.getByRole("button", { name: "Launch" })).toHaveAttribute("aria-current", "true", { timeout: 30_000 });
  await context.close();
});

test("a swing off a toss laid beside one off a tee is named as not like for like", async ({ page }) => {
  const [swingId] = await swingsOfNoor();
  await page.goto(`/swings/${swingId}/sheet`);
  await page.getByText("Choose swings").click();
  // Other flows film her today.
  await page.getByRole("checkbox", { name: /^7 Nov/ }).check();
  await page.getByRole("checkbox", { name: /^14 Nov/ }).check();
  await page.getByRole("button", { name: "Show these" }).click();
  await expect(sheet(page).getByRole("rowheader", { name: /Not like for like: at a tossed ball, this one off a tee/ })).toBeVisible();
  await expect(sheet(page).getByRole("rowheader", { name: /^Another swing/ })).toHaveCount(2);
});

test("the sheet stands in the light and in a dim cage, at the desk and in the hand", async ({ page }) => {
  const [swingId] = await swingsOfNoor();
  for (const [size, name] of [[{ width: 1440, height: 900 }, "1440"], [PHONE, "390"]] as const) {
    await page.setViewportSize(size);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(`/swings/${swingId}/sheet`);
      await stillsAreThere(page);
      await look(page, `sheet-${name}-${colorScheme}`);
      await expectAccessible(page);
    }
  }
});

test("with three rows it prints on one page, A4 or letter, in black and white", async ({ page }) => {
  const [swingId, other] = await swingsOfNoor();
  const [toss] = await ask<{ id: string }>(`SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" WHERE p."givenName" = 'Noor' AND s."task" = 'toss'`);
  await page.goto(`/swings/${swingId}/sheet?with=${other},${toss?.id}`);
  await stillsAreThere(page);
  await expect(sheet(page).getByRole("rowheader", { name: /^Another swing/ })).toHaveCount(2);
  for (const format of ["A4", "Letter"] as const) {
    const pdf = await page.pdf({ format, landscape: true, printBackground: true });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g), format).toHaveLength(1);
  }
  await page.setViewportSize({ width: 1062, height: 733 });
  await page.emulateMedia({ media: "print" });
  await page.screenshot({ path: "test-results/looks/sheet-print.png", fullPage: true });
});

test("a coach keeps a swing as own best, sees it as a row of the others, and takes it back by Undo", async ({ page }) => {
  const [swingId, other] = await swingsOfNoor();
  await page.goto(`/swings/${other}/sheet`);
  await page.getByRole("button", { name: "Keep as own best" }).click();
  await expect(page.getByRole("status").filter({ hasText: "Kept as own best." })).toBeVisible();
  await expect(page.getByRole("button", { name: "Take back as own best" })).toBeVisible();
  const undo = page.getByRole("button", { name: "Undo" });
  await page.context().newPage().then(async (second) => {
    await second.goto(`/swings/${swingId}/sheet`);
    await expect(sheet(second).getByRole("rowheader", { name: /^Own best/ })).toBeVisible();
    await second.close();
  });
  await undo.click();
  await expect(page.getByRole("button", { name: "Keep as own best" })).toBeVisible();
});

test.describe("where no still lies ready", () => {
  test.use({ allowedComplaint: "Failed to load resource" });

  test("the sheet makes it here; of a film that breaks off midway, and of one whose line is lost, it says which stills are missing and why, and makes them once it can", async ({ page }) => {
    const [swingId = "", other = ""] = await swingsOfNoor();
    const clips = await ask<{ id: string; swingId: string; contact: number; frames: number }>(
      `SELECT c."id", c."swingId", e."frameIndex" AS contact, t."frameCount" AS frames FROM "Clip" c JOIN "FileFrameTimes" t ON t."fileId" = c."fileId"
       JOIN "SwingEvent" e ON e."clipId" = c."id" AND e."event" = 'contact' AND e."source" = 'placed' WHERE c."swingId" = ANY($1)`,
      [[swingId, other]],
    );
    const [own, lost] = [swingId, other].map((id) => clips.find((it) => it.swingId === id));
    if (!own || !lost) throw new Error("Noor's clips have no contact");
    await page.route("**/cuts/**", (route) => route.abort());
    await page.route(`**/clips/${lost.id}/stepping`, (route) => route.abort("connectionreset"));
    await page.route(`**/clips/${own.id}/stepping`, async (route) => {
      const answer = await route.fetch();
      const body = await answer.body();
      const from = body.indexOf("mdat") + 4;
      const at = (part: number) => Math.floor(from + (body.length - from) * part);
      // About the pictures around contact; the load lies well before them.
      body.fill(0, at(own.contact / own.frames - 0.07), at(own.contact / own.frames + 0.07));
      await route.fulfill({ response: answer, body });
    });
    await page.goto(`/swings/${swingId}/sheet?with=${other}`);
    const broken = cell(page, "This swing", "contact");
    await expect(broken).toContainText("This part of the film cannot be decoded.", { timeout: 60_000 });
    await expect(cell(page, "This swing", "load").locator("img")).toHaveAttribute("src", /^blob:/);
    await expect(cell(page, "Another swing", "contact")).toContainText("The line was lost while the pictures came.", { timeout: 30_000 });
    await expect(page.getByText(/^\d+ stills are missing; each says why\. What was placed is kept\.$/)).toBeVisible();
    await look(page, "sheet-missing-1440");
    await expectAccessible(page);

    await page.unrouteAll();
    await page.getByRole("button", { name: "Try again" }).click();
    await expect(page.getByText(/stills? (is|are) missing/)).toHaveCount(0, { timeout: 30_000 });
    await stillsAreThere(page);
    await expect(sheet(page).locator("img[src^='blob:']")).toHaveCount(await sheet(page).locator("img").count());
  });
});
