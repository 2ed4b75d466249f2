import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** Rafa is of age, and no other flow works on his swing. */
async function swingOfRafa(): Promise<string> {
  const [row] = await ask<{ id: string }>(`SELECT s."id" FROM "Swing" s JOIN "Player" p ON p."id" = s."playerId" WHERE p."givenName" = 'Rafa' ORDER BY s."createdAt" LIMIT 1`);
  if (!row) throw new Error("the demo has no swing of Rafa");
  return row.id;
}

/** The office keeps what Rafa signed. */
async function consentOfRafa(): Promise<void> {
  await ask(
    `INSERT INTO "Consent" ("id", "academyId", "playerId", "use", "recordedById", "method", "wordsVersion", "givenOn", "validUntil")
     SELECT gen_random_uuid(), p."academyId", p."id", 'staff-training', (SELECT "userId" FROM "RoleGrant" WHERE "role" = 'admin' AND "academyId" = p."academyId" LIMIT 1), 'paper', '1', '2026-11-01', '2027-10-01'
     FROM "Player" p WHERE p."givenName" = 'Rafa'`,
  );
}

const listed = (page: Page, label: string) => page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: label }) });

test("the head coach keeps a swing as a model with its right, and takes it back with undo", async ({ page }) => {
  await signIn(page, "Adair Linsky", "head-coach");
  const swingId = await swingOfRafa();
  await page.goto(`/swings/${swingId}`);
  await page.getByRole("link", { name: "Keep as a model" }).click();
  await expect(page.getByRole("heading", { name: /No consent to show clips of Rafa Quintelo to coaches/ })).toBeVisible();
  await look(page, "model-hindered-1440");
  await expectAccessible(page);

  await consentOfRafa();
  await page.reload();
  await page.getByLabel("What coaches see it called").fill("Rafa's best");
  await page.getByLabel("Whose right it is").fill("the hitter");
  await page.getByLabel("What the right rests on").selectOption({ label: "The hitter's own consent" });
  await page.getByLabel("Until").fill("2027-05-01");
  await page.getByRole("button", { name: "Keep as a model" }).click();
  await expect(page.getByText("This is the hitter's own name.").first()).toBeVisible();
  await look(page, "model-form-1440");
  await expectAccessible(page);
  await page.getByLabel("What coaches see it called").fill("Quick hands from the left");
  await page.getByRole("button", { name: "Keep as a model" }).click();

  await expect(page.getByText("“Quick hands from the left” is kept as a model.")).toBeVisible();
  await expect(listed(page, "Quick hands from the left")).toContainText("157 more days");
  await expect(listed(page, "Left-hander, long levers")).toContainText("Bats left, baseball, 1.80 m");
  await page.getByRole("button", { name: "Withdraw Quick hands from the left" }).click();
  await expect(page.getByText("is withdrawn. It is shown nowhere from now on.")).toBeVisible();
  await page.getByRole("button", { name: "Undo the withdrawal of Quick hands from the left" }).click();
  await expect(listed(page, "Quick hands from the left")).toContainText("Shown to coaches");
  for (const [size, name] of [[PHONE, "390"], [{ width: 1440, height: 900 }, "1440"]] as const) {
    await page.setViewportSize(size);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await look(page, `models-${name}-${colorScheme}`);
      await expectAccessible(page);
    }
  }
  await listed(page, "Quick hands from the left").getByRole("link", { name: /^Tags and right/ }).click();
  await page.getByLabel("Note").fill("Signed in March.");
  await page.getByRole("button", { name: "Keep the changes" }).click();
  await expect(page.getByText("Kept, and the right is recorded in your name as of today.")).toBeVisible();
});

test("only the head coach keeps models: a coach finds neither the list nor the way to it", async ({ page }) => {
  await signIn(page, "Marlow Tessen", "coach");
  await page.goto("/library");
  await expect(page.getByRole("link", { name: "Editions" })).toBeVisible();
  await expect(page.getByRole("link", { name: "Model swings" })).toHaveCount(0);
  await page.goto(`/swings/${await swingOfRafa()}`);
  await expect(page.getByRole("link", { name: "Another camera" })).toBeVisible();
  await expect(page.getByRole("link", { name: "Keep as a model" })).toHaveCount(0);
});
