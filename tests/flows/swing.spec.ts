import { readFileSync } from "node:fs";
import type { Locator, Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

interface LibraryCheckpoint {
  readonly name: string;
  readonly scope: string;
  readonly views: { readonly measured: readonly string[] };
  readonly minFps: number;
  readonly maxCameraOffDeg: number | null;
}
const { checkpoints } = JSON.parse(readFileSync("seed/library/checkpoints.json", "utf8")) as { checkpoints: readonly LibraryCheckpoint[] };
const namesOf = (holds: (it: LibraryCheckpoint) => boolean) => checkpoints.filter(holds).map(({ name }) => name);

/** The clips of Pell's films and of Wren's slow one, as the demo made them. */
async function swingOf(givenName: string, sql: string): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" JOIN "Clip" c ON c."swingId" = s."id" WHERE p."givenName" = $1 AND ${sql} ORDER BY c."createdAt" LIMIT 1`,
    [givenName],
  );
  if (!row) throw new Error(`the demo has no such swing of ${givenName}`);
  return row.id;
}

const readings = (page: Page): Locator => page.getByRole("region", { name: "Readings" });
const openSwing = async (page: Page, swingId: string) => {
  await page.goto(`/swings/${swingId}`);
  await expect(page.getByRole("img", { name: /^Frame \d+ of \d+/ })).toBeVisible({ timeout: 30_000 });
};
/** The names of the readings that stand in the list with these words beside them. */
const namesWith = async (page: Page, words: string) =>
  (await readings(page).locator("details.reading", { hasText: words }).locator(".what").evaluateAll((all) => all.map((it) => it.firstChild?.textContent ?? ""))).sort();

// First, while both are as the demo marked them.
test("a mirrored film of a left-hander reads in the same words and numbers as its right-handed twin", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  const wordsOf = async (swingId: string) => {
    await openSwing(page, swingId);
    return readings(page).locator(".reading-group").evaluateAll((all) => all.map((it) => it.textContent));
  };
  const left = await wordsOf(await swingOf("Pell", `s."side" = 'left' AND c."isMirrored"`));
  await look(page, "swing-mirrored-1440");
  const right = await wordsOf(await swingOf("Pell", `s."side" = 'right' AND c."cameraOffDeg" = 0 AND c."view" = 'side'`));
  expect(left.join(" ").length).toBeGreaterThan(500);
  expect(left).toEqual(right);
});

test("nobody leaves a swing while a change is on its way: a pressed link waits until it is kept, and the browser asks before the page is closed", async ({ page }) => {
  await signIn(page, "Marlow Tessen", "coach");
  const swingId = await swingOf("Rafa", `s."task" = 'tee'`);
  await openSwing(page, swingId);
  let letThrough = () => {};
  const held = new Promise<void>((resolve) => (letThrough = resolve));
  await page.route(`**/swings/${swingId}`, async (route) => {
    if (route.request().method() === "POST") await held;
    await route.continue();
  });
  await page.locator(".bench .frame").first().focus();
  await page.keyboard.press("Shift+T");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("t");
  await expect(page.locator(".bench")).toHaveAttribute("data-unsent", "1");
  const link = page.getByRole("link", { name: "Checkpoint sheet" });
  await link.click();
  const waits = page.getByText("The last change is not kept yet. The page is left as soon as it is.");
  await expect(waits).toBeVisible();
  await page.getByRole("button", { name: "Stay here" }).click();
  await expect(waits).toBeHidden();
  const asked = page.waitForEvent("dialog");
  void page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe("beforeunload");
  await dialog.dismiss();

  await link.click();
  await expect(waits).toBeVisible();
  expect(new URL(page.url()).pathname).toBe(`/swings/${swingId}`);
  letThrough();
  await expect(page.getByRole("heading", { level: 1, name: "Checkpoint sheet" })).toBeVisible({ timeout: 30_000 });
  const [kept] = await ask<{ setAt: Date }>(`SELECT "setAt" FROM "SwingEvent" WHERE "swingId" = $1 AND "event" = 'toe' AND "source" = 'placed' AND "setById" IS NOT NULL ORDER BY "setAt" DESC LIMIT 1`, [swingId]);
  expect(kept).toBeDefined();
});

test.describe("on a phone", () => {
  test.use({ viewport: PHONE });

  test("the ways on from a swing stand in one row and a menu", async ({ page }) => {
    await signIn(page, "Marlow Tessen", "coach");
    await openSwing(page, await swingOf("Rafa", `s."task" = 'tee'`));
    const [title, way, more] = [page.getByRole("heading", { level: 1, name: "Swing view" }), page.getByRole("link", { name: "Checkpoint sheet" }), page.getByText("More", { exact: true })];
    const middles = await Promise.all([title, way, more].map(async (it) => it.boundingBox().then((box) => (box ? box.y + box.height / 2 : NaN))));
    expect(Math.max(...middles) - Math.min(...middles)).toBeLessThan(12);
    await more.click();
    await expect(page.getByRole("link", { name: "Another camera" })).toBeVisible();
    await look(page, "swing-menu-390");
    await expectAccessible(page);
    await page.getByRole("link", { name: "Beside another" }).click();
    await expect(page.getByRole("heading", { name: "One camera on one clock" })).toBeVisible({ timeout: 30_000 });
  });
});

test("two cameras of one swing share its events: toe touch set on the side clip is timed on the clip from behind", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  await openSwing(page, await swingOf("Pell", `c."view" = 'rear'`));
  const which = page.getByRole("navigation", { name: "Which clip" });
  const toe = page.getByRole("button", { name: /toe/i }).first();
  await expect(toe).not.toContainText("clip");
  const before = Number(((await toe.textContent()) ?? "").match(/[−+]?\d\.\d{3}/)?.[0]?.replace("−", "-"));
  await page.locator(".bench .frame").first().focus();
  await page.keyboard.press("Shift+T");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("t");
  await expect(toe).toContainText(`−${Math.abs(before + 1 / 240).toFixed(3)}`);
  await look(page, "swing-side-1440");
  await expectAccessible(page);
  await page.waitForLoadState("networkidle");

  await which.getByRole("link", { name: "Behind" }).click();
  await expect(which.getByRole("link", { name: "Behind" })).toHaveAttribute("aria-current", "true");
  await expect(toe).toContainText(`−${Math.abs(before + 1 / 240).toFixed(3)}, side clip`);
  await expect(page.getByRole("button", { name: /contact/i }).first()).not.toContainText("side clip");
  await expect(readings(page).getByText("Hip turn at landing").first()).toBeVisible();
  await readings(page).getByText(/are not read, and what they wait for/).click();
  await expect(readings(page).getByRole("heading", { name: /^Need another view/ })).toBeVisible();

  await page.getByText("More readings want points frame by frame").click();
  const frameByFrame = page.getByRole("region", { name: "Frame by frame" });
  await look(page, "swing-runs-1440");
  await frameByFrame.getByRole("button").first().click();
  const open = async () => Number(/on (\d+) more frames/.exec((await frameByFrame.getByRole("status").textContent()) ?? "")?.[1]);
  const first = await open();
  const frame = page.getByRole("img", { name: /^Frame \d+ of \d+/ });
  const shown = await frame.getAttribute("aria-label");
  await page.locator(".bench .frame").first().focus();
  await page.keyboard.press("Enter");
  await expect.poll(open).toBe(first - 1);
  await expect(frame).not.toHaveAttribute("aria-label", shown ?? "");
  await frameByFrame.getByRole("button", { name: "Leave it for now" }).click();
  await look(page, "swing-rear-1440");
  await expectAccessible(page);
});

test("a clip filmed ten degrees off its line shows exactly the readings that bear six degrees grey, with the reason", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  await openSwing(page, await swingOf("Pell", `c."cameraOffDeg" = 10`));
  const narrow = namesOf(({ scope, views, maxCameraOffDeg }) => scope === "clip" && views.measured.includes("side") && maxCameraOffDeg === 6);
  expect(narrow.length).toBeGreaterThan(0);
  expect(await namesWith(page, "The camera stood too far off the line")).toEqual(narrow.sort());
  const one = readings(page).locator("details.reading", { hasText: narrow[0] });
  await one.locator("summary").click();
  await expect(one).toContainText(/±/);
  await look(page, "swing-off-line-1440");
});

test("a clip of sixty frames a second shows what wants more of them grey, with the reason, and nothing that does not", async ({ page }) => {
  await signIn(page, "Marlow Tessen", "coach");
  await openSwing(page, await swingOf("Wren", `c."view" = 'side'`));
  const slow = await namesWith(page, "Filmed at too few frames a second");
  expect(slow.length).toBeGreaterThan(3);
  const wantMore = namesOf(({ minFps }) => minFps > 60);
  expect(slow.filter((name) => !wantMore.includes(name))).toEqual([]);
  expect(await readings(page).locator("details.reading:not(.not-sure) .what").allInnerTexts()).toEqual(expect.not.arrayContaining(wantMore));
  await look(page, "swing-60-1440");
});

test("the swing view stands in the hand, in the light and in a dim cage", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  const swingId = await swingOf("Pell", `c."view" = 'rear'`);
  for (const [size, name] of [[PHONE, "390"], [{ width: 1440, height: 900 }, "1440"]] as const) {
    await page.setViewportSize(size);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await openSwing(page, swingId);
      await look(page, `swing-${name}-${colorScheme}`);
      await expectAccessible(page);
    }
  }
});
