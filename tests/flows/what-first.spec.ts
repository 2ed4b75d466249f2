import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** A player of Marlow's who was filmed and of whom nothing is called or chosen yet. */
async function untouched(skip: number): Promise<string> {
  const rows = await ask<{ playerId: string; side: string }>(
    `SELECT DISTINCT s."playerId", s."side" FROM "Swing" s JOIN "Assignment" a ON a."playerId" = s."playerId" JOIN "User" u ON u."id" = a."userId"
     WHERE u."displayName" = 'Marlow Tessen' AND a."until" IS NULL AND s."swingKind" = 'power'
       AND NOT EXISTS (SELECT 1 FROM "Focus" f WHERE f."playerId" = s."playerId" AND f."side" = s."side")
       AND NOT EXISTS (SELECT 1 FROM "Observation" o JOIN "Swing" x ON x."id" = o."swingId" WHERE x."playerId" = s."playerId" AND x."side" = s."side")
     ORDER BY 1, 2`,
  );
  const row = rows[skip % Math.max(1, rows.length)];
  if (!row) throw new Error("the demo has no filmed player without calls");
  return `/players/${row.playerId}/what-first?side=${row.side}`;
}

const call = (page: Page, name: string, answer: string) => page.getByRole("group", { name: `${name}: your call` }).getByRole("button", { name: answer, exact: true });
const candidate = (page: Page, name: string) => page.getByRole("article").filter({ has: page.getByRole("heading", { name, exact: true }) });

async function say(page: Page, name: string, answer: string): Promise<void> {
  await call(page, name, answer).click();
  await expect(call(page, name, answer)).toHaveAttribute("aria-pressed", "true");
}

/** The same page on a phone, and in the dark. */
async function lookElsewhere(page: Page): Promise<void> {
  await page.emulateMedia({ colorScheme: "dark" });
  await look(page, "what-first-1440-dark");
  await page.setViewportSize(PHONE);
  await look(page, "what-first-390-dark");
  await page.emulateMedia({ colorScheme: "light" });
  await page.setViewportSize({ width: 1440, height: 900 });
}

test.beforeEach(async ({ page }) => signIn(page, "Marlow Tessen", "coach"));

test("a coach calls what is seen, reads why one thing comes first, overrules, chooses, and is asked which to park", async ({ page }) => {
  await page.goto(await untouched(0));
  await expect(page.getByRole("heading", { name: "What first" })).toBeVisible();
  await say(page, "Over-spinning the back foot", "seen");
  await say(page, "Front side / chest flies open early", "seen");
  await say(page, "Front leg stays soft", "not seen");
  await say(page, "Stepping away from the plate", "not visible");

  const first = candidate(page, "Over-spinning the back foot");
  // Readings without calls make it wide: then the worker does it, and the page looks again.
  await expect(first).toContainText(/explains .*chest flies open early/i, { timeout: 60_000 });
  await expect(first.getByRole("region", { name: /^Chain for/ }).getByRole("listitem").first()).toContainText("leads to");
  // What the readings propose is taken over: the order narrows until it says what raised it and what is worth asking.
  await expect(async () => {
    const more = page.getByRole("button", { name: /^As read/ });
    if ((await more.count()) > 0) await more.first().click();
    await expect(page.getByRole("article").first().getByText("Raised by")).toBeVisible({ timeout: 2000 });
  }).toPass({ timeout: 90_000 });
  await look(page, "what-first-1440");
  await expectAccessible(page);
  await lookElsewhere(page);

  const asked = page.getByRole("region", { name: "Worth asking now" });
  const question = await asked.locator(".said").innerText();
  await asked.getByRole("button").first().click();
  await expect(page.getByRole("region", { name: "Asked and answered" })).toContainText(question);
  await expect(asked.locator(".said").filter({ hasText: question })).toHaveCount(0);

  await first.getByText("Overrule, with a reason").click();
  await first.getByLabel("Why not this one?").fill("not this");
  await first.getByRole("button", { name: "Overrule", exact: true }).click();
  await expect(first.getByText("Write why, in three words or more.").first()).toBeVisible();
  await first.getByLabel("Why not this one?").fill("the shoe slipped on turf");
  await first.getByRole("button", { name: "Overrule", exact: true }).click();
  await expect(page.getByRole("region", { name: "Overruled" })).toContainText("the shoe slipped on turf");
  await expect(first).toHaveCount(0);
  await page.getByRole("button", { name: /^Count it again/ }).click();
  await expect(first).toBeVisible();

  await first.getByRole("button", { name: /^Make this the focus/ }).click();
  await expect(first).toContainText("This is in focus.");
  const choose = async (label: string, button: RegExp) => {
    const form = page.locator("details", { hasText: "Choose something else as the focus" });
    if ((await form.getAttribute("open")) === null) await form.getByText("Choose something else as the focus").click();
    await form.getByLabel("Which one").selectOption({ label });
    await form.getByRole("button", { name: button }).click();
  };
  const dock = page.getByRole("region", { name: "Focus" });
  await choose("Barrel drags behind the hands", /^Make this the focus/);
  await expect(dock).toContainText("Barrel drags behind the hands");
  await choose("Trunk folds at the waist", /^Park “Barrel drags behind the hands”/);
  await expect(dock).toContainText(/Trunk folds at the waist.*Parked.*Barrel drags behind the hands/s);
});

test("everything can be called by keyboard and asked and answered on a phone", async ({ page }) => {
  await page.setViewportSize(PHONE);
  await page.goto(await untouched(1));
  const seen = call(page, "Over-spinning the back foot", "seen");
  await seen.focus();
  await page.keyboard.press("Enter");
  await expect(seen).toHaveAttribute("aria-pressed", "true");
  const asked = page.getByRole("group", { name: /^Answer:/ }).first();
  await expect(asked).toBeVisible({ timeout: 60_000 });
  const name = await asked.getAttribute("aria-label");
  await asked.getByRole("button", { name: "No", exact: true }).click();
  await expect(page.getByRole("region", { name: "Asked and answered" }).getByRole("group", { name: name ?? "" }).getByRole("button", { name: "No", exact: true })).toHaveAttribute("aria-pressed", "true");
  await look(page, "what-first-390");
  await expectAccessible(page);
});

test("balls are counted on a phone, and they alone make an order", async ({ page }) => {
  await page.setViewportSize(PHONE);
  const whatFirst = await untouched(3);
  await page.goto(whatFirst.replace("/what-first", "/tally"));
  await page.getByText("The pitch:").click();
  await page.getByRole("radiogroup").or(page.getByRole("group", { name: "Height of the pitch" })).getByText("High", { exact: true }).first().click();
  for (let count = 1; count <= 8; count++) {
    await page.getByRole("button", { name: count <= 5 ? "Missed" : "Hard", exact: true }).click();
    await expect(page.getByRole("heading", { name: count === 1 ? "One ball noted" : `${count} balls noted` })).toBeVisible();
    if (count === 1) await page.getByText("The pitch:").waitFor();
  }
  await expect(page.getByText("5 of 8: misses among swings at high pitches")).toBeVisible();
  await look(page, "tally-390");
  await expectAccessible(page);
  await page.getByRole("link", { name: "What first", exact: true }).click();
  await expect(page.getByRole("region", { name: "What the ball does" })).toContainText("Swings under / misses pitches up");
  await expect(page.getByRole("article").first()).toBeVisible({ timeout: 30_000 });
  await look(page, "what-first-ball-390");
});

test("without script the calls are kept as well", async ({ browser, page }) => {
  const address = await untouched(2);
  const plain = await browser.newContext({ javaScriptEnabled: false, storageState: await page.context().storageState() });
  const bare = await plain.newPage();
  await bare.goto(address);
  await call(bare, "Barrel drags behind the hands", "not seen").click();
  await expect(call(bare, "Barrel drags behind the hands", "not seen")).toHaveAttribute("aria-pressed", "true");
  await plain.close();
});

test("cage day and player show the focus before the player walks in", async ({ page }) => {
  await page.goto("/cage-day");
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await expectAccessible(page);
  await look(page, "cage-day-1440");
  await page.getByRole("link", { name: "Ines Corvane", exact: true }).click();
  await expect(page.getByRole("region", { name: "At a glance" })).toBeInViewport();
  await expectAccessible(page);
  await look(page, "player-1440");
  await page.getByRole("link", { name: /^Bats left/ }).click();
  await expect(page).toHaveURL(/side=left/);
});
