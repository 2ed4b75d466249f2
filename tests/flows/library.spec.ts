import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** Somebody who holds a role in the demo, without knowing the demo's names. */
async function inRole(role: string): Promise<string> {
  const [found] = await ask<{ id: string }>(
    `SELECT coalesce(u."email"::text, u."userName"::text) AS id FROM "User" u JOIN "RoleGrant" g ON g."userId" = u."id"
     WHERE g."role" = $1 AND g."until" IS NULL AND u."deactivatedAt" IS NULL ORDER BY u."displayName" LIMIT 1`,
    [role],
  );
  if (!found) throw new Error(`the demo has no ${role}`);
  return found.id;
}

test("a coach finds a fault by a synonym, proposes a change of a drill, and the head coach approves it into a new edition", async ({ page, browser }) => {
  await signIn(page, await inRole("coach"), "coach");
  await page.goto("/library");
  await expectAccessible(page);
  await look(page, "library");
  await page.getByLabel("Find a fault or a drill").pressSequentially("squashing the bug");
  await expect(page).toHaveURL(/text=squashing/);
  await expect(page.getByText("found by “squashing the bug”")).toBeVisible();
  await page.getByRole("link", { name: "Over-spinning the back foot" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Over-spinning the back foot" })).toBeVisible();
  await expectAccessible(page);
  await look(page, "library-fault");
  await page.getByRole("link", { name: "Sideways push and stop" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Sideways push and stop" })).toBeVisible();
  await look(page, "library-drill");

  await page.getByRole("link", { name: "Propose a change" }).click();
  const purpose = page.getByLabel("What it is for");
  await purpose.fill("Feel the push through the inside of the back foot, and stop.");
  await page.getByLabel("Why", { exact: true }).fill("Shorter");
  await page.getByRole("button", { name: "Propose it" }).click();
  await expect(page.getByText("Please say in at least three words why.").first()).toBeVisible();
  await expect(purpose).toHaveValue("Feel the push through the inside of the back foot, and stop.");
  await page.getByLabel("Why", { exact: true }).fill("Shorter words for the ten-year-olds");
  await page.getByRole("button", { name: "Propose it" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Change: Sideways push and stop" })).toBeVisible();
  await expect(page.getByRole("button", { name: /Approve/ })).toHaveCount(0);
  await expectAccessible(page);

  const head = await (await browser.newContext({ viewport: PHONE })).newPage();
  await signIn(head, await inRole("head-coach"), "head-coach");
  await head.goto("/library/proposals");
  await head.getByRole("link", { name: "Sideways push and stop" }).first().click();
  await expect(head.locator("ins").first()).toBeVisible();
  await expectAccessible(head);
  await look(head, "library-proposal-phone");
  await head.getByRole("button", { name: "Approve as a new edition" }).click();
  await expect(head.getByText(/in force since edition \d+/)).toBeVisible();
  await head.goto("/library/editions");
  await expect(head.getByText("in force").first()).toBeVisible();
  await look(head, "library-editions-phone");
  await head.context().close();

  await page.goto("/library?text=sideways+push");
  await page.getByRole("link", { name: "Sideways push and stop" }).click();
  await expect(page.getByText("Feel the push through the inside of the back foot, and stop.")).toBeVisible();
});

test("without a script the search is a form that goes to its results, and a family is not let in", async ({ browser }) => {
  const page = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await signIn(page, await inRole("coach"), "coach");
  await page.goto("/library");
  await page.getByLabel("Find a fault or a drill").fill("spinning out");
  await page.getByRole("button", { name: "Find" }).click();
  await expect(page.getByRole("link", { name: "Over-spinning the back foot" })).toBeVisible();
  await page.context().close();

  const family = await (await browser.newContext()).newPage();
  await signIn(family, await inRole("guardian"), "guardian");
  await family.goto("/library/faults/back-foot-overspin");
  await expect(family.getByText("Over-spinning the back foot")).toHaveCount(0);
  await family.context().close();
});
