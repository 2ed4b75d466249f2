import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";
import { readStrip } from "./strip";

/** Only looked at here: the films of Pell, and Wren's of sixty frames a second. */
async function clipOf(givenName: string, sql: string): Promise<{ clipId: string; swingId: string }> {
  const [row] = await ask<{ clipId: string; swingId: string }>(
    `SELECT c."id" AS "clipId", s."id" AS "swingId" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" JOIN "Clip" c ON c."swingId" = s."id" WHERE p."givenName" = $1 AND ${sql} ORDER BY c."createdAt" LIMIT 1`,
    [givenName],
  );
  if (!row) throw new Error(`the demo has no such clip of ${givenName}`);
  return row;
}
const pellSide = () => clipOf("Pell", `s."side" = 'right' AND c."cameraOffDeg" = 0 AND c."view" = 'side'`);

const pictures = (page: Page) => page.locator(".beside .pair .frame");
const times = (page: Page) => page.locator(".beside .pair .at").allInnerTexts();
const seconds = (words: string) => Number(words.replace("−", "-").match(/[-+]?\d+\.\d{3}/)?.[0]);

/** Waits until every picture is there and stands on the frame that its words say, and reads the number drawn in its corner. */
async function numbersShown(page: Page, count: number): Promise<number[]> {
  await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(count, { timeout: 30_000 });
  const canvases = await page.locator(".beside .pair canvas").all();
  return Promise.all(canvases.map(async (canvas) => {
    const named = Number(await canvas.getAttribute("data-frame-index"));
    const said = Number(/frame (\d+) of/.exec((await canvas.getAttribute("aria-label")) ?? "")?.[1]) - 1;
    expect(said).toBe(named);
    expect(await canvas.evaluate(readStrip)).toBe(named);
    return named;
  }));
}

/** The number in the corner is seen where the whole picture is. */
async function showWhole(page: Page, count: number): Promise<void> {
  for (let i = 1; i <= count; i++) {
    await pictures(page).nth(i - 1).focus();
    const whole = page.getByRole("button", { name: "Whole picture" });
    if (await whole.isEnabled()) await whole.click();
  }
}

test.beforeEach(async ({ page }) => signIn(page, "Adair Linsky", "head-coach"));

test("four clips of three rates and two cameras stand on one clock: all read 0.000 at contact, and one moves the others in seconds", async ({ page }) => {
  const { swingId, clipId } = await pellSide();
  await page.goto(`/swings/${swingId}`);
  await page.getByRole("link", { name: "Beside another" }).click();
  await expect(page.getByRole("heading", { name: "One camera on one clock" })).toBeVisible();
  const choices = page.getByRole("complementary", { name: "Clips" });
  await choices.getByRole("link", { name: /from behind$/ }).first().click();
  await expect(pictures(page)).toHaveCount(2);
  await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(2, { timeout: 30_000 });
  await look(page, "beside-two-1440");
  await showWhole(page, 2);
  await numbersShown(page, 2);
  expect(await times(page)).toEqual(["0.000 s", "0.000 s"]);
  await expect(choices.getByRole("note")).toContainText("Filmed from behind, the first one filmed from the side");
  await expectAccessible(page);

  const rear = await clipOf("Pell", `c."view" = 'rear'`);
  const off = await clipOf("Pell", `c."cameraOffDeg" = 10`);
  const wren = await clipOf("Wren", `c."view" = 'side'`);
  await page.goto(`/swings/${swingId}/beside?clip=${clipId}&with=${rear.clipId},${wren.clipId},${off.clipId}`);
  await expect(pictures(page)).toHaveCount(4);
  await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(4, { timeout: 30_000 });
  await showWhole(page, 4);
  await numbersShown(page, 4);
  expect(await times(page)).toEqual(["0.000 s", "0.000 s", "0.000 s", "0.000 s"]);
  await expect(choices.getByRole("note").filter({ hasText: "Another player" })).toHaveCount(1);

  await pictures(page).first().focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("Shift+ArrowLeft");
  await expect(pictures(page).first().locator(".at")).toHaveText("−0.125 s");
  await numbersShown(page, 4);
  for (const shown of await times(page)) expect(Math.abs(seconds(shown) + 0.125)).toBeLessThanOrEqual(1 / 120 + 0.001);

  // The slow clip in hand: it steps by its own frames, and the fast ones come to the frame nearest in time.
  await page.keyboard.press("3");
  const before = await numbersShown(page, 4);
  await page.keyboard.press("ArrowRight");
  await expect.poll(async () => (await numbersShown(page, 4))[2]).toBe((before[2] ?? 0) + 1);
  const after = await numbersShown(page, 4);
  const [one, two, slow, four] = (await times(page)).map(seconds);
  for (const fast of [one, two, four]) expect(Math.abs((fast ?? NaN) - (slow ?? NaN))).toBeLessThanOrEqual(1 / 480 + 0.001);

  await page.getByRole("checkbox", { name: "Locked together" }).uncheck();
  await pictures(page).nth(1).focus();
  await page.keyboard.press("Home");
  await expect.poll(async () => numbersShown(page, 4)).toEqual([after[0], 0, after[2], after[3]]);
  await page.getByRole("checkbox", { name: "Locked together" }).check();
  await pictures(page).first().focus();
  await page.keyboard.press("c");
  await expect.poll(async () => times(page)).toEqual(["0.000 s", "0.000 s", "0.000 s", "0.000 s"]);
  await look(page, "beside-four-1440");

  // Scrubbed with the mouse: at rest every picture is the one that is asked for.
  const tape = page.getByRole("slider", { name: /^Swing clock/ });
  const box = await tape.boundingBox();
  if (!box) throw new Error("the clock is not there");
  await page.mouse.move(box.x + box.width * 0.5, box.y + 60);
  await page.mouse.down();
  for (let i = 0; i < 40; i++) await page.mouse.move(box.x + box.width * (0.5 + 0.3 * Math.sin(i / 4)), box.y + 60);
  await page.mouse.up();
  const at = Number(await tape.getAttribute("aria-valuenow")) / 1000;
  await expect.poll(async () => Math.max(...(await times(page)).map((it) => Math.abs(seconds(it) - at)))).toBeLessThanOrEqual(1 / 120 + 0.002);
  await numbersShown(page, 4);
  await expectAccessible(page);
});

test("clips laid over one another lie torso on torso and foot on foot, flipped or where a finger taps, and stretched only when asked", async ({ page }) => {
  const { swingId, clipId } = await pellSide();
  const left = await clipOf("Pell", `s."side" = 'left'`);
  await page.goto(`/swings/${swingId}/beside?clip=${clipId}&with=${left.clipId}`);
  await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(2, { timeout: 30_000 });
  const aside = page.getByRole("complementary", { name: "Clips" });
  await expect(aside.getByRole("note")).toContainText("From the left, the first one from the right");
  await aside.getByRole("checkbox", { name: "Points and lines" }).check();
  const point = page.locator(".beside .pair .frame").nth(1).locator('[data-point="tip"] circle').first();
  const plain = Number(await point.getAttribute("cx"));
  const width = (await pictures(page).nth(1).boundingBox())?.width ?? 0;
  await aside.getByRole("button", { name: /^Flip / }).nth(1).click();
  await expect(pictures(page).nth(1).locator(".cap")).toContainText("flipped");
  expect(Math.abs(Number(await point.getAttribute("cx")) - (width - plain))).toBeLessThan(1);
  await look(page, "beside-flipped-1440");

  await page.getByRole("button", { name: "Laid over" }).click();
  await expect(page.locator(".beside canvas[data-frames]")).toHaveCount(1);
  await expect(aside.getByText("As large as makes the torso equally long at the stance.")).toBeVisible();
  await expect(aside.getByText("Hips on hips, as at the stance.")).toBeVisible();
  await look(page, "beside-over-1440");
  await expectAccessible(page);
  await aside.getByRole("radio", { name: "Back foot" }).check();
  await expect(aside.getByText("Back foot on back foot, as at the stance.")).toBeVisible();

  await aside.getByRole("radio", { name: "Where I tap" }).check();
  await expect(pictures(page)).toHaveCount(1);
  await pictures(page).first().click({ position: { x: 200, y: 150 } });
  await expect(aside.getByText(/^Tap the place in ‘/)).not.toContainText("This swing");
  await page.keyboard.press("Escape");
  await expect(aside.getByText("Back foot on back foot, as at the stance.")).toBeVisible();
  await aside.getByRole("radio", { name: "Where I tap" }).check();
  await pictures(page).first().click({ position: { x: 200, y: 150 } });
  await pictures(page).first().focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await expect(aside.getByText("Where you tapped lies on where you tapped.")).toBeVisible();

  const stretched = aside.getByRole("checkbox", { name: "Stretched to match" });
  await expect(stretched).not.toBeChecked();
  await stretched.check();
  await expect(page.getByText("how long things took cannot be seen").first()).toBeVisible();
  await expect(page.getByRole("slider", { name: /stretched to match/ })).toBeVisible();
});

test("it stands in the hand, one over another and with one thumb, in the light and in a dim cage", async ({ page }) => {
  const { swingId, clipId } = await pellSide();
  const rear = await clipOf("Pell", `c."view" = 'rear'`);
  for (const [size, name] of [[PHONE, "390"], [{ width: 1440, height: 900 }, "1440"]] as const) {
    await page.setViewportSize(size);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(`/swings/${swingId}/beside?clip=${clipId}&with=${rear.clipId}`);
      await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(2, { timeout: 30_000 });
      await look(page, `beside-${name}-${colorScheme}`);
      await expectAccessible(page);
      await page.getByRole("button", { name: "Laid over" }).click();
      await expect(page.locator(".beside canvas[data-frames]")).toHaveCount(1);
      await look(page, `beside-over-${name}-${colorScheme}`);
    }
  }
});

test.describe("with one thumb", () => {
  test.use({ hasTouch: true, viewport: PHONE });

  test("two clips are stepped, scrubbed, locked, pinched and laid over by touch alone, and points stay on their places in the picture", async ({ page }) => {
    const { swingId, clipId } = await pellSide();
    const off = await clipOf("Pell", `c."cameraOffDeg" = 10`);
    await page.goto(`/swings/${swingId}/beside?clip=${clipId}&with=${off.clipId}`);
    await expect(page.locator(".beside .pair canvas[data-frame-index]")).toHaveCount(2, { timeout: 30_000 });
    await page.getByRole("button", { name: "One frame on" }).tap();
    await expect.poll(() => times(page)).toEqual(["+0.004 s", "+0.004 s"]);
    await page.getByRole("button", { name: "One frame back" }).tap();
    await page.getByRole("checkbox", { name: "Points and lines" }).tap();
    const first = pictures(page).first();
    await first.scrollIntoViewIfNeeded();
    const apart = async () => {
      const at = async (point: string) => Number(await first.locator(`[data-point="${point}"] circle`).first().getAttribute("cx"));
      return Math.abs((await at("an_f")) - (await at("an_b")));
    };
    const before = await apart();
    const box = await first.boundingBox();
    if (!box) throw new Error("the picture is not there");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const fingers = async (type: "touchStart" | "touchMove" | "touchEnd", spread: number) =>
      client.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: x - spread, y, id: 0 }, { x: x + spread, y, id: 1 }] });
    const client = await page.context().newCDPSession(page);
    await fingers("touchStart", 30);
    for (const spread of [40, 50, 60]) await fingers("touchMove", spread);
    await fingers("touchEnd", 60);
    await expect.poll(async () => (await apart()) / before).toBeGreaterThan(1.9);
    expect((await apart()) / before).toBeLessThan(2.1);
    await look(page, "beside-pinched-390");

    await page.getByRole("slider", { name: /^Swing clock/ }).tap({ position: { x: 120, y: 60 } });
    await expect.poll(async () => (await times(page)).every((it) => seconds(it) < -0.05)).toBe(true);
    await page.getByRole("button", { name: "Laid over" }).tap();
    await page.getByRole("radio", { name: "Where I tap" }).tap();
    for (let i = 0; i < 2; i++) await pictures(page).first().tap({ position: { x: 150, y: 90 } });
    await expect(page.getByText("Where you tapped lies on where you tapped.")).toBeVisible();
    await page.getByRole("button", { name: "Play", exact: true }).tap();
    await expect(page.getByRole("button", { name: "Hold" })).toBeVisible();
    await page.getByRole("button", { name: "Hold" }).tap();
  });
});
