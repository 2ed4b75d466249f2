import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** A minor whom Marlow teaches, with a guardian and a home set-up, for whom nothing was ever in focus on either side: the portal's story stays its own. */
async function playerWithHome(): Promise<{ playerId: string; side: string; givenName: string; guardian: string }> {
  const [row] = await ask<{ playerId: string; side: string; givenName: string; guardian: string }>(
    `SELECT p."id" AS "playerId", b."side", p."givenName", g."displayName" AS "guardian" FROM "Player" p
     JOIN "HomeSetup" h ON h."playerId" = p."id" JOIN "BattingSide" b ON b."playerId" = p."id" AND p."bats" IN (b."side", 'both')
     JOIN "Assignment" a ON a."playerId" = p."id" AND a."until" IS NULL JOIN "User" u ON u."id" = a."userId" AND u."displayName" = 'Marlow Tessen'
     JOIN "Guardianship" s ON s."playerId" = p."id" AND s."until" IS NULL JOIN "User" g ON g."id" = s."userId"
     JOIN "Swing" w ON w."playerId" = p."id" AND w."side" = b."side"
     WHERE p."birthDate" > '2012-11-25' AND p."leftAt" IS NULL
       AND NOT EXISTS (SELECT 1 FROM "Pause" x WHERE x."playerId" = p."id" AND x."endedAt" IS NULL)
       AND NOT EXISTS (SELECT 1 FROM "Focus" f WHERE f."playerId" = p."id")
     ORDER BY 1, 2, 4 LIMIT 1`,
  );
  if (!row) throw new Error("the demo has no such player");
  return row;
}

async function takeFirst(page: Page): Promise<void> {
  const taken = await page.locator(".set > li").count();
  await page.getByRole("button", { name: /^Take (?!.* out$)/ }).first().click();
  await expect(page.locator(".set > li")).toHaveCount(taken + 1);
}

test("a coach comes from the focus to a sent note, and what is shown before is what is sent", async ({ page }) => {
  await signIn(page, "Marlow Tessen", "coach");
  const { playerId, side, givenName, guardian } = await playerWithHome();
  await page.goto(`/players/${playerId}/plan?side=${side}`);
  await expect(page.getByRole("heading", { name: "A note needs a focus" })).toBeVisible();
  // The page is alive: its links then lead on without a new document, whose own waking would lose what is chosen.
  await page.waitForLoadState("networkidle");
  await page.getByRole("main").getByRole("link", { name: "What first" }).click();
  await page.getByText("Choose something else as the focus").click();
  await page.getByLabel("Which one").selectOption({ label: "Over-spinning the back foot" });
  await page.getByRole("button", { name: "Make this the focus", exact: true }).click();
  await expect(page.getByText("Nothing is in focus yet.")).toHaveCount(0);

  await page.goto(`/players/${playerId}/plan?side=${side}`);
  await page.getByRole("button", { name: "Begin the plan" }).click();
  const letter = page.getByRole("article", { name: "The note as the family will see it" });
  await expect(letter).toBeVisible();
  await expect(page.getByRole("button", { name: /^Send/ })).toHaveCount(0);
  await expect(page.getByText("team 1 × 20, games 1 × 15")).toBeVisible();
  await page.getByRole("button", { name: "Suggest a plan" }).click();
  await expect(page.locator(".set > li").first()).toContainText("The easy one to begin with.");
  expect(await page.locator(".set > li").count()).toBeGreaterThan(1);
  // A suggestion is the coach's to change: one drill out, another in.
  const before = await page.locator(".set > li").count();
  await page.getByRole("button", { name: /^Take .* out$/ }).last().click();
  await expect(page.locator(".set > li")).toHaveCount(before - 1);
  await takeFirst(page);
  await expect(letter.getByRole("img", { name: /^Seen from above/ }).first()).toBeVisible();
  await page.getByText("“Send your belt at the pitcher first”").first().click();
  await page.getByRole("button", { name: "Keep the cue" }).click();
  await expect(letter).toContainText("“Send your belt at the pitcher first”");

  await page.getByLabel("What was kept well").fill(`${givenName}, your load is quiet. Keep that.`);
  await page.getByLabel("Why", { exact: true }).fill("Your foot is wrong.");
  await page.getByRole("button", { name: "Keep the note" }).click();
  await expect(page.getByText("“wrong” stays out of what a family reads.").first()).toBeVisible();
  await expect(page.getByLabel("What was kept well")).toHaveValue(`${givenName}, your load is quiet. Keep that.`);
  await page.getByLabel("Why", { exact: true }).fill("Then your chest stays closed a blink longer.");
  await page.getByRole("button", { name: "Keep the note" }).click();
  await expect(letter).toContainText("a blink longer");
  await page.getByLabel(/For staff only/).fill("A cousin taught the twist.");
  await page.getByRole("button", { name: "Keep for staff" }).click();
  await expect(page.getByText("Kept for coaches only.")).toBeVisible();
  await expect(letter).not.toContainText("cousin");
  await expectAccessible(page);
  await look(page, "plan");
  await page.setViewportSize(PHONE);
  await look(page, "plan-phone");

  const shown = await letter.innerText();
  await page.getByRole("button", { name: /^Send/ }).click();
  await expect(page.getByRole("heading", { name: /^Sent on/ })).toBeVisible();
  expect(await page.getByRole("article", { name: /^Note of/ }).innerText()).toBe(shown);

  await signIn(page, guardian, "guardian");
  await page.goto(`/family/${playerId}/today`);
  await expect(page.getByText("Send your belt at the pitcher first").first()).toBeVisible();
  await expect(page.getByText("cousin")).toHaveCount(0);
});

test("two coaches write one note at once: the later is told by whom, sees both, and nothing of either is lost", async ({ page, browser }) => {
  const [draft] = await ask<{ playerId: string; side: string }>(`SELECT o."playerId", o."side" FROM "Plan" o JOIN "Player" p ON p."id" = o."playerId" WHERE p."givenName" = 'Tobin' AND o."state" = 'draft' LIMIT 1`);
  const address = `/players/${draft?.playerId}/plan?side=${draft?.side}`;
  const elsewhere = await browser.newContext();
  const other = await elsewhere.newPage();
  await signIn(page, "Marlow Tessen", "coach");
  await signIn(other, "Adair Linsky", "head-coach");
  for (const one of [page, other]) {
    await one.goto(address);
    await one.waitForLoadState("networkidle");
  }
  await other.getByLabel("What was kept well").fill("Your feet are quiet. Keep that.");
  await other.getByLabel("Why", { exact: true }).fill("Then the barrel has time.");
  await other.getByRole("button", { name: "Keep the note" }).click();
  await expect(other.getByText("Kept as a draft.").first()).toBeVisible();

  await page.getByLabel("What was kept well").fill("Your eyes stay on the ball.");
  await page.getByRole("textbox", { name: /^For the family/ }).fill("Short beats long.");
  await page.getByRole("button", { name: "Keep the note" }).click();
  await expect(page.getByText(/Adair Linsky was faster with “What was kept well”/)).toBeVisible();
  const both = page.getByRole("group", { name: "What was kept well: Adair Linsky was faster" });
  await expect(both).toContainText("Your feet are quiet. Keep that.");
  await expect(page.getByLabel("What was kept well", { exact: true })).toHaveValue("Your eyes stay on the ball.");
  // What only the other wrote stands in its box by now, and the letter shows it.
  await expect(page.getByLabel("Why", { exact: true })).toHaveValue("Then the barrel has time.");
  await expectAccessible(page);
  await look(page, "plan-two-coaches");
  await page.setViewportSize(PHONE);
  await look(page, "plan-two-coaches-390");
  await both.getByRole("button", { name: "What was kept well: put mine over them" }).click();
  await page.getByRole("button", { name: "Keep the note" }).click();
  const letter = page.getByRole("article", { name: "The note as the family will see it" });
  await expect(letter).toContainText("Your eyes stay on the ball.");
  await expect(letter).toContainText("Then the barrel has time.");
  await expect(letter).toContainText("Short beats long.");
  await elsewhere.close();
});
