import type { Locator, Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** Tamsin's swing from the side: points beside its events, and none between them. No other flow visits it. */
async function tamsinsSwing(): Promise<string> {
  const [row] = await ask<{ id: string }>(`SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" WHERE p."givenName" = 'Tamsin' ORDER BY s."createdAt" LIMIT 1`);
  if (!row) throw new Error("the demo has no swing of Tamsin's");
  return row.id;
}

const frameShown = (page: Page): Locator => page.getByRole("img", { name: /^Frame \d+ of \d+/ });
const onFrame = (page: Page): Locator => page.getByRole("region", { name: "Points on this frame" }).locator("summary");
const several = (page: Page): Locator => page.getByRole("region", { name: "Several points at once" });

const best = (page: Page): Locator => page.getByRole("region", { name: "Between placed frames" });
const betweenDrawn = (page: Page): Locator => page.locator('.ov [data-source="between"]');
/** Places every point that is asked for on the frame in hand, where the cross stands. */
const placeAll = async (page: Page, place: () => Promise<void>) => {
  const left = async () => Number(/^(\d+|One)/.exec((await best(page).getByRole("status").textContent()) ?? "")?.[1]?.replace("One", "1"));
  await expect(best(page).getByRole("status")).toHaveText(/to place on this frame\.$/);
  for (let waiting = await left(); waiting > 0; waiting--) {
    await place();
    await expect(best(page).getByRole("status")).toHaveText(waiting === 1 ? /^(?!.* to place on this frame)/ : waiting === 2 ? /^One point to place/ : new RegExp(`^${waiting - 1} points to place`));
  }
};

/** Keys are heard once the pictures are there. */
const opened = async (page: Page) => {
  await expect(frameShown(page)).toBeVisible({ timeout: 30_000 });
  await page.waitForLoadState("networkidle");
};

test.beforeEach(async ({ page }) => {
  await signIn(page, "Ottoline Brack", "coach");
  await page.goto(`/swings/${await tamsinsSwing()}`);
  await opened(page);
});

test("by keyboard the points of the frame before are copied, front and back exchanged, and each is taken back in one step", async ({ page }) => {
  const { keyboard } = page;
  await page.locator(".bench .frame").first().focus();
  await keyboard.press("Shift+C");
  for (let i = 0; i < 4; i++) await keyboard.press("ArrowRight");
  await expect(onFrame(page)).toHaveText(/^0 points placed, 0 suggested/);
  await keyboard.press("b");
  await expect(several(page).getByRole("status")).toHaveText(/^\d+ points copied\. Move what has moved\.$/);
  await expect(onFrame(page)).toHaveText(/^2\d points placed/);
  await onFrame(page).click();
  await page.locator(".bench .frame").first().focus();
  const spotOf = async (point: string) => (await page.locator(`.ov [data-point="${point}"] circle`).first().getAttribute("cx")) ?? "";
  const [front, back] = [await spotOf("kn_f"), await spotOf("kn_b")];
  expect(front).not.toBe(back);
  await keyboard.press("x");
  await expect(several(page).getByRole("status")).toHaveText("Front and back of 9 pairs are exchanged.");
  expect([await spotOf("kn_f"), await spotOf("kn_b")]).toEqual([back, front]);
  await look(page, "points-several-1440");
  await expectAccessible(page);
  await keyboard.press("Control+z");
  expect([await spotOf("kn_f"), await spotOf("kn_b")]).toEqual([front, back]);
  await keyboard.press("Control+z");
  await expect(onFrame(page)).toHaveText(/^0 points placed/);
  await expect(page.locator(".bench")).toHaveAttribute("data-unsent", "0");
  await page.reload();
  await opened(page);
  await page.locator(".bench .frame").first().focus();
  await keyboard.press("Shift+C");
  for (let i = 0; i < 4; i++) await keyboard.press("ArrowRight");
  await expect(onFrame(page)).toHaveText(/^0 points placed/);
});

test.describe("by touch", () => {
  test.use({ hasTouch: true, viewport: PHONE });

  test("one tap goes to the next best frame, and its points are placed by the thumb", async ({ page }) => {
    await best(page).getByRole("button", { name: /^(Next best frame|Place this frame)/ }).tap();
    await placeAll(page, async () => page.getByRole("button", { name: "Place here" }).tap());
    await expect(onFrame(page)).not.toHaveText(/^0 points placed/);
  });

  test("points are copied from the frame after, one limb is exchanged, and Undo takes both back", async ({ page }) => {
    // It opens at contact, which has points on its frame and the two before it.
    for (let i = 0; i < 5; i++) await page.getByRole("button", { name: "One frame back" }).tap();
    await expect(onFrame(page)).toHaveText(/^0 points placed/);
    await several(page).getByRole("button", { name: /^Copy \d+ points from 3 frames after$/ }).tap();
    await expect(onFrame(page)).toHaveText(/^2\d points placed/);
    await several(page).getByText("Exchange front and back").tap();
    await several(page).getByRole("button", { name: "Exchange front and back: legs" }).tap();
    await expect(several(page).getByRole("status")).toHaveText("Front and back of 4 pairs are exchanged.");
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await look(page, `points-several-390-${colorScheme}`);
      await expectAccessible(page);
    }
    await page.getByRole("button", { name: "Undo" }).tap();
    await page.getByRole("button", { name: "Undo" }).tap();
    await expect(onFrame(page)).toHaveText(/^0 points placed/);
  });
});

test("by keyboard the next best frame is gone to and placed, and the frames between it and its neighbour are worked out", async ({ page }) => {
  const { keyboard } = page;
  const stage = page.locator(".bench .frame").first();
  await expect(best(page).getByRole("status")).toHaveText(/\d+ more frames, this one first, and every stretch can be read/);
  const wanted = async () => Number(/(\d+) more frames/.exec((await best(page).getByRole("status").textContent()) ?? "")?.[1]);
  const before = await wanted();
  for (let i = 0; i < 2; i++) {
    await stage.focus();
    await keyboard.press("n");
    await placeAll(page, async () => {
      await stage.focus();
      await keyboard.press("Enter");
    });
  }
  expect(await wanted()).toBeLessThan(before);
  await stage.focus();
  // Somewhere beside the frame that was placed last there is one that is worked out.
  await keyboard.press("ArrowLeft");
  if ((await betweenDrawn(page).count()) === 0) for (let i = 0; i < 2; i++) await keyboard.press("ArrowRight");
  await expect(betweenDrawn(page).first()).toBeVisible();
  await expect(best(page)).toContainText("worked out between placed frames");
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await look(page, `points-between-1440-${colorScheme}`);
    await expectAccessible(page);
  }
  await page.setViewportSize(PHONE);
  await look(page, "points-between-390");
});
