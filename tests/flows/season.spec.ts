import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** Idris, taught by Ottoline, whom no other flow visits. */
async function idris(): Promise<{ playerId: string; side: string }> {
  const [row] = await ask<{ playerId: string; side: string }>(
    `SELECT p."id" AS "playerId", b."side" FROM "Player" p JOIN "BattingSide" b ON b."playerId" = p."id" WHERE p."givenName" = 'Idris' AND p."familyName" = 'Fennimore'`,
  );
  if (!row) throw new Error("the demo has no Idris");
  return row;
}

/** Opens a page and waits until its scripts are there. */
async function open(page: Page, address: string): Promise<void> {
  await page.goto(address, { waitUntil: "networkidle" });
}

const FAULT = "Over-spinning the back foot";

test("in season a new change of the movement waits for the head coach's yes, whose reason stands on the page", async ({ page }) => {
  const { playerId, side } = await idris();
  const whatFirst = `/players/${playerId}/what-first?side=${side}`;
  await signIn(page, "Adair Linsky", "head-coach");
  await open(page, "/players");
  await page.getByRole("link", { name: "Seasons" }).click();
  await page.getByRole("checkbox", { name: /Idris Fennimore/ }).check();
  await page.getByLabel("Part of the year").selectOption({ label: "In season: keep and compete" });
  await page.getByRole("button", { name: "Keep for those ticked" }).click();
  await expect(page.getByText("Kept for one player. In season: keep and compete.")).toBeVisible();
  await expect(page.getByRole("checkbox", { name: /Idris Fennimore.*In season: keep and compete/ })).toBeVisible();
  await expectAccessible(page);
  await look(page, "seasons-laptop");

  await signIn(page, "Ottoline Brack", "coach");
  await page.setViewportSize(PHONE);
  await open(page, whatFirst);
  const season = page.getByRole("region", { name: "The season" });
  await expect(season).toContainText("In season no new change of the movement begins. The head coach may agree otherwise, with a reason.");
  await expect(season).toContainText("The head coach can agree on this page");
  await page.getByText("Choose something else as the focus").click();
  await expect(page.getByLabel("Which one").getByRole("option", { name: FAULT })).toHaveCount(0);
  await look(page, "season-waits-phone");

  await signIn(page, "Adair Linsky", "head-coach");
  await open(page, whatFirst);
  await season.getByText("Agree to one, with a reason").click();
  await season.getByLabel("Which one").selectOption({ label: FAULT });
  await season.getByLabel("Why now, in season?").fill("His knee has asked for it");
  await look(page, "season-agree-phone");
  await season.getByRole("button", { name: "Agree" }).click();
  await expect(season).toContainText(`${FAULT} may be worked on: Adair Linsky agreed, “His knee has asked for it”.`);

  await signIn(page, "Ottoline Brack", "coach");
  await open(page, whatFirst);
  await page.getByText("Choose something else as the focus").click();
  await page.getByLabel("Which one").selectOption({ label: FAULT });
  await page.getByRole("button", { name: "Make this the focus", exact: true }).click();
  await expect(page.getByRole("region", { name: "Focus" })).toContainText(FAULT);
});

test("a blow to the head that a coach notes stops swings everywhere until a coach, and the family with a clinician's yes, clear it", async ({ page }) => {
  const { playerId } = await idris();
  await signIn(page, "Ottoline Brack", "coach");
  await page.setViewportSize(PHONE);
  await open(page, `/players/${playerId}`);
  await look(page, "player-season-phone");
  await page.getByText("Note an incident").click();
  await page.getByText("Blow to the head", { exact: true }).click();
  await expect(page.getByText("Call the emergency services at once when the player:")).toBeVisible();
  await page.getByLabel("What happened").fill("A ball came off the frame and met the helmet.");
  await expectAccessible(page);
  await look(page, "incident-form-phone");
  await page.getByRole("button", { name: "Keep it and pause swings" }).click();
  const paused = page.getByRole("region", { name: "Swings are paused" });
  await expect(paused).toContainText("Blow to the head: swings are paused.");
  await paused.getByRole("button", { name: "Clear it as coach" }).click();
  await expect(paused).not.toContainText("wait for a coach");
  await look(page, "incident-player-phone");

  await signIn(page, "Rosalind Teague", "admin");
  await open(page, "/incidents");
  await expect(page.getByRole("region", { name: "Blow to the head, Idris Fennimore" })).toContainText("Swings are paused until the family clears it");
  await expectAccessible(page);
  await page.setViewportSize({ width: 1440, height: 900 });
  await look(page, "incidents-laptop");

  await signIn(page, "Salome Fennimore", "guardian");
  await page.setViewportSize(PHONE);
  await open(page, `/family/${playerId}/today`);
  await expect(page.getByRole("heading", { name: "Stop. Tell an adult." })).toBeVisible();
  await expect(page.getByText("“A ball came off the frame and met the helmet.”")).toBeVisible();
  await expectAccessible(page);
  await look(page, "incident-family-phone");
  const clear = page.getByRole("button", { name: "Swings may begin again, for the family" });
  await clear.click();
  await expect(page.getByText("After a blow to the head a licensed clinician says yes first.").first()).toBeVisible();
  await page.getByLabel("A licensed clinician said on this day").fill("2026-11-25");
  await clear.click();
  await expect(page.getByRole("heading", { name: "Stop. Tell an adult." })).toHaveCount(0);
});
