import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** The house itself: the doors, the office, and who may not come in. Everything is pressed and typed, nothing is written past the pages. */
const stamp = String(Date.now()).slice(-7);
const PASSWORD = "three plain words";

async function adminName(): Promise<string> {
  const [row] = await ask<{ name: string }>(
    `SELECT u."email" AS name FROM "User" u JOIN "RoleGrant" g ON g."userId" = u."id" WHERE g."role" = 'admin' AND g."until" IS NULL AND u."deactivatedAt" IS NULL AND u."email" IS NOT NULL ORDER BY u."createdAt" LIMIT 1`,
  );
  return row?.name ?? "";
}

async function nameWithOnly(role: string): Promise<string> {
  const [row] = await ask<{ name: string }>(
    `SELECT COALESCE(u."email", u."userName")::text AS name FROM "User" u JOIN "RoleGrant" g ON g."userId" = u."id"
     WHERE g."role" = $1 AND g."until" IS NULL AND u."deactivatedAt" IS NULL AND NOT EXISTS (SELECT 1 FROM "RoleGrant" o WHERE o."userId" = u."id" AND o."role" = 'admin') LIMIT 1`,
    [role],
  );
  return row?.name ?? "";
}

test.describe("the door", () => {
  test.use({ allowedComplaint: "status of 40[14]" });

  test("refuses in words, and the sign-in page stands on a phone", async ({ page }) => {
    await page.setViewportSize(PHONE);
    await page.goto("/");
    await expect(page).toHaveURL(/\/sign-in$/);
    await page.getByLabel("Mail address or user name").fill(`nobody${stamp}@example.test`);
    await page.getByLabel("Password").fill("not a password");
    await page.getByRole("button", { name: "Sign in" }).click();
    await expect(page.getByText("do not belong together")).toBeVisible();
    await expectAccessible(page);
    await look(page, "sign-in-refused-390");
  });

  for (const role of ["coach", "head-coach", "player", "guardian"]) {
    test(`sends a ${role} who asks for the office's pages elsewhere`, async ({ page }) => {
      await signIn(page, await nameWithOnly(role), role);
      for (const path of ["/roster", "/roster/new", "/people", "/people/new", "/audit"]) {
        await page.goto(path);
        await expect(page).not.toHaveURL(new RegExp(`${path}$`));
        await expect(page.getByRole("heading", { level: 1 })).not.toHaveText(/Roster|People|Audit|Add a player|Invite somebody/);
      }
    });
  }
});

test("the office adds a player, a guardian and a consent, and assigns a coach", async ({ page }) => {
  await signIn(page, await adminName(), "admin");
  await page.goto("/roster");
  await expectAccessible(page);
  await look(page, "roster-1440");
  await page.getByRole("link", { name: "Add a player" }).click();
  await page.getByLabel("Given name").fill("Wren");
  await page.getByLabel("Family name").fill(`Testfield${stamp}`);
  await page.getByLabel("Birth date").fill("2027-01-01");
  await page.getByText("both sides", { exact: true }).click();
  await page.getByRole("button", { name: "Add player" }).click();
  await expect(page.getByText("lies in the future").first()).toBeVisible();
  await expect(page.getByLabel("Given name")).toHaveValue("Wren");
  await page.getByLabel("Birth date").fill("2014-03-03");
  await page.getByRole("button", { name: "Add player" }).click();
  await expect(page.getByRole("heading", { level: 1, name: `Wren Testfield${stamp}` })).toBeVisible();

  const guardians = page.getByRole("region", { name: /Guardians/ });
  await guardians.getByLabel("Name", { exact: true }).fill("Sam Testfield");
  await guardians.getByLabel("Mail address").fill(`sam${stamp}@example.test`);
  await guardians.getByRole("button", { name: "Add guardian" }).click();
  await expect(guardians.getByText(`sam${stamp}@example.test`)).toBeVisible();

  const consents = page.getByRole("region", { name: /Consents/ });
  await consents.getByRole("button", { name: "Keep this consent" }).click();
  await expect(consents.getByRole("row", { name: /Filming for lessons.*Sam Testfield, on paper/ })).toBeVisible();

  const coaches = page.getByRole("region", { name: /Coaches/ });
  await coaches.getByLabel("Coach", { exact: true }).selectOption({ index: 1 });
  await coaches.getByRole("button", { name: "Assign" }).click();
  await expect(coaches.getByRole("button", { name: /End today/ })).toBeVisible();
  await expectAccessible(page);
  await look(page, "player-record-1440");
  await page.setViewportSize(PHONE);
  await look(page, "player-record-390");

  await page.goto(`/roster?q=testfield${stamp}`);
  await expect(page.getByRole("row", { name: /Wren/ })).toContainText("allowed");
  await page.goto("/audit");
  await expect(page.getByText("Record consent").first()).toBeVisible();
  await expect(page.locator("main")).not.toContainText("Testfield");
  await expectAccessible(page);
});

test("an invited coach follows the letter, chooses a password, signs in by typing and signs out", async ({ page }) => {
  await signIn(page, await adminName(), "admin");
  await page.goto("/people/new");
  await page.getByLabel("Name", { exact: true }).fill(`Newcomer ${stamp}`);
  await page.getByLabel("Mail address").fill(`new${stamp}@example.test`);
  await page.getByRole("button", { name: "Invite" }).click();
  await expect(page.getByText("Invited, not yet here")).toBeVisible();
  await expectAccessible(page);
  await page.context().clearCookies();

  await expect(async () => {
    await page.goto("/post");
    await expect(page.getByRole("region", { name: new RegExp(`new${stamp}`) })).toBeVisible({ timeout: 500 });
  }).toPass({ timeout: 30_000 });
  await page.getByRole("region", { name: new RegExp(`new${stamp}`) }).getByRole("link", { name: "Open the link of this letter" }).click();
  await expectAccessible(page);
  await page.getByLabel("Your new password").fill(PASSWORD);
  await page.getByRole("button", { name: "Keep this password" }).click();
  await expect(page.getByText("Your password is kept")).toBeVisible();
  await page.getByLabel("Mail address or user name").fill(`NEW${stamp}@example.test`);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await expect(page).toHaveURL(/\/cage-day$/);

  await page.goto("/account");
  await expect(page.getByText("this one")).toBeVisible();
  await expectAccessible(page);
  await look(page, "account-1440");
  await page.getByRole("button", { name: "Sign out", exact: true }).click();
  await expect(page).toHaveURL(/\/sign-in$/);
  await page.goto("/cage-day");
  await expect(page).toHaveURL(/\/sign-in$/);
});

test("a sign-in that is closed ends at once, on every device", async ({ page, browser }) => {
  await signIn(page, await adminName(), "admin");
  const name = `new${stamp}@example.test`;
  const context = await browser.newContext();
  const other = await context.newPage();
  await signIn(other, name, "coach");
  await other.goto("/account");
  await expect(other.getByRole("heading", { level: 1, name: `Newcomer ${stamp}` })).toBeVisible();

  await page.goto("/people");
  await page.getByRole("link", { name: `Newcomer ${stamp}` }).click();
  await page.getByRole("button", { name: "Close the sign-in" }).click();
  await page.getByRole("button", { name: "Close it now" }).click();
  await expect(page.getByText("The sign-in is closed.")).toBeVisible();
  await other.goto("/account");
  await expect(other).toHaveURL(/\/sign-in$/);
  await context.close();
});
