import type { Locator, Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

const LABEL = "Tall right-hander, quiet head";
const sheet = (page: Page): Locator => page.getByRole("table", { name: /Events across, clips down/ });
const picker = (page: Page): Locator => page.locator("details.choose").filter({ has: page.locator("ul.models") });
/** Stills come as they come near: the lowest row is brought into sight. */
async function stillsAreThere(page: Page): Promise<void> {
  await sheet(page).locator("tfoot").scrollIntoViewIfNeeded();
  await expect.poll(() => sheet(page).locator("img:visible").evaluateAll((all) => all.length > 0 && all.every((it) => it instanceof HTMLImageElement && it.complete && it.naturalWidth > 0)), { timeout: 30_000 }).toBe(true);
}
const canvases = (page: Page) => page.locator(".beside .pair canvas[data-frame-index]");

async function swingOf(givenName: string, side: string): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" WHERE p."givenName" = $1 AND s."side" = $2 AND s."task" = 'tee' ORDER BY s."filmedOn" DESC LIMIT 1`,
    [givenName, side],
  );
  if (!row) throw new Error(`the demo has no such swing of ${givenName}`);
  return row.id;
}

test("a head coach keeps a model with its right, another coach lays it beside a child's swing and on the sheet, and once withdrawn it is gone everywhere", async ({ page, browser, baseURL }) => {
  await signIn(page, "Adair Linsky", "head-coach");
  await page.goto("/library/models");
  await page.getByRole("button", { name: "Withdraw Right-hander, long levers" }).click();
  await expect(page.getByText("“Right-hander, long levers” is withdrawn. It is shown nowhere from now on.")).toBeVisible();

  await page.goto(`/swings/${await swingOf("Brannick", "right")}`);
  await page.getByRole("link", { name: "Keep as a model" }).click();
  await page.getByLabel("What coaches see it called").fill(LABEL);
  await page.getByLabel("Whose right it is").fill("the hitter");
  await page.getByLabel("What the right rests on").selectOption("written-consent");
  await page.getByLabel("Until").fill("2027-05-01");
  await page.getByRole("button", { name: "Keep as a model" }).click();
  await expect(page.getByText(`“${LABEL}” is kept as a model.`)).toBeVisible();
  const row = page.getByRole("listitem").filter({ hasText: LABEL });
  await expect(row).toContainText("Bats right, baseball, 1.80 m (5′11″), a grown hitter.");
  await expect(row).toContainText("Own film, with written consent; the right is with the hitter. Recorded by Adair Linsky on 25 November 2026.");
  await look(page, "models-list-1440");

  const context = await browser.newContext({ baseURL, viewport: { width: 1440, height: 900 }, locale: "en-US", timezoneId: "America/Chicago" });
  const coach = await context.newPage();
  const complaints: string[] = [];
  coach.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  await signIn(coach, "Ottoline Brack", "coach");
  const swingId = await swingOf("Noor", "right");
  await coach.goto(`/swings/${swingId}/sheet`);
  await picker(coach).locator("summary").click();
  await expect(picker(coach).getByRole("note")).toContainText("No model matches: none is a right-handed softball hitter about 1.60 m");
  await look(coach, "models-picker-1440");
  await expectAccessible(coach);
  await picker(coach).getByRole("link", { name: `Lay “${LABEL}” beside it` }).click();
  const head = sheet(coach).getByRole("rowheader", { name: /^Model/ });
  await expect(head).toContainText(LABEL);
  await expect(head).toContainText("levers and timing differ");
  await expect(head).not.toContainText("Brannick");
  await stillsAreThere(coach);
  await expectAccessible(coach);
  for (const [size, name] of [[{ width: 1440, height: 900 }, "1440"], [PHONE, "390"]] as const) {
    await coach.setViewportSize(size);
    for (const colorScheme of ["light", "dark"] as const) {
      await coach.emulateMedia({ colorScheme });
      await look(coach, `models-sheet-${name}-${colorScheme}`);
    }
  }
  await coach.setViewportSize({ width: 1440, height: 900 });
  await coach.emulateMedia({ colorScheme: "light" });
  const pdf = await coach.pdf({ format: "A4", landscape: true, printBackground: true });
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g)).toHaveLength(1);

  const contact = sheet(coach).getByRole("link", { name: "Model, contact, 0.00 seconds from contact. Open it beside this swing." });
  await contact.click();
  await expect(coach.getByRole("heading", { name: "Two clips on one clock" })).toBeVisible({ timeout: 30_000 });
  await expect(canvases(coach)).toHaveCount(2, { timeout: 30_000 });
  await expect(coach.locator(".beside .pair .at")).toHaveText(["0.000 s", "0.000 s"]);
  await expect(coach.locator(".beside .pair .cap").nth(1)).toHaveText(`2 · Model: ${LABEL}`);
  const address = coach.url();
  await coach.locator(".beside .pair .frame").first().focus();
  await coach.keyboard.press("Escape");
  await expect(contact).toBeFocused({ timeout: 30_000 });

  // A left-hander beside a right-hander looks the same way at once.
  await picker(coach).locator("summary").click();
  await picker(coach).getByRole("link", { name: "Lay “Left-hander, long levers” beside it" }).click();
  await expect(head).toContainText("bats left, shown mirrored");
  await stillsAreThere(coach);
  await look(coach, "models-sheet-left-1440");
  await sheet(coach).getByRole("link", { name: /^Model, contact/ }).click();
  await expect(canvases(coach)).toHaveCount(2, { timeout: 30_000 });
  await expect(coach.locator(".beside .pair .cap").nth(1)).toHaveText("2 · Model: Left-hander, long levers, flipped");
  await look(coach, "models-beside-left-1440");

  await page.getByRole("button", { name: `Withdraw ${LABEL}` }).click();
  await expect(page.getByText(`“${LABEL}” is withdrawn.`)).toBeVisible();
  const [{ id: modelId } = { id: "" }] = await ask<{ id: string }>(`SELECT "id" FROM "ModelSwing" WHERE "label" = $1`, [LABEL]);
  await coach.goto(`/swings/${swingId}/sheet?model=${modelId}`);
  await expect(coach.getByText("This model may no longer be shown.")).toBeVisible();
  await expect(sheet(coach).getByRole("rowheader", { name: /^Model/ })).toHaveCount(0);
  await expect(coach.getByText(LABEL)).toHaveCount(0);
  await coach.goto(address);
  await expect(coach.getByText("This model may no longer be shown.")).toBeVisible();
  await expect(coach.locator(".beside .pair .frame")).toHaveCount(1);
  await expect(coach.getByText(LABEL)).toHaveCount(0);
  expect(complaints).toEqual([]);
  await context.close();
});
