import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** One thread as its people use it on a phone: Juno, thirteen, her father and her coach. One story. */
test.describe.configure({ mode: "serial" });

const SCRIPT = "<img src=x onerror=alert(1)> is <b>text</b>";
const junoId = async () => (await ask<{ id: string }>(`SELECT "id" FROM "Player" WHERE "givenName" = 'Juno'`))[0]?.id ?? "";

async function visit(page: Page, path: string): Promise<void> {
  await page.goto(path, { waitUntil: "networkidle" });
  await expect(page.locator("#main")).toBeVisible();
}

async function write(page: Page, label: RegExp, words: string): Promise<void> {
  await page.getByLabel(label).fill(words);
  await page.getByRole("button", { name: "Send" }).click();
  await expect(page.locator(".message-words").first()).toHaveText(words);
  await expect(page.getByLabel(label)).toHaveValue("");
}

test.beforeEach(async ({ page }) => page.setViewportSize(PHONE));

test("a coach writes to a family, and the guardian stands by name above what is written", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  await visit(page, `/players/${await junoId()}`);
  await page.getByRole("link", { name: "Messages", exact: true }).click();
  const inThread = page.getByRole("region", { name: "Who is in this thread" });
  await expect(inThread).toContainText("Anselm Pallisor");
  await write(page, /^Write to Juno/, "Lesson moves to five on Thursday. Is that fine?");
  await write(page, /^Write to Juno/, SCRIPT);
  await look(page, "messages-coach-390");
  await expectAccessible(page);
  await page.setViewportSize({ width: 1440, height: 900 });
  await look(page, "messages-coach-1440");
});

test("the guardian finds it without being told where, and what looks like a program is text", async ({ page }) => {
  await signIn(page, "Anselm Pallisor", "guardian");
  await visit(page, "/today");
  await page.locator(".thumbs").getByRole("link", { name: "Messages (2)" }).click();
  await expect(page.getByRole("region", { name: /Vesna Coldbrook, coach/ }).first()).toContainText(SCRIPT);
  await expect(page.locator("#main img")).toHaveCount(0);
  await expect(page.getByRole("region", { name: "Who is in this thread" })).toContainText("Anselm Pallisor (you)");
  await expect(page.locator(".thumbs").getByRole("link", { name: "Messages", exact: true })).toBeVisible();
  await look(page, "messages-guardian-390");
  await expectAccessible(page);
});

test("the player answers, without any script too, and the guardian reads it", async ({ browser }) => {
  const bare = await browser.newContext({ javaScriptEnabled: false, viewport: PHONE });
  const page = await bare.newPage();
  await signIn(page, "juno.p", "player");
  await page.goto(`/family/${await junoId()}/messages`);
  await page.getByLabel("Write to the coach").fill("x".repeat(2001));
  await page.getByRole("button", { name: "Send" }).click();
  await expect(page.getByText("This has 2001 letters").first()).toBeVisible();
  await expect(page.getByLabel("Write to the coach")).toHaveValue("x".repeat(2001));
  await page.getByLabel("Write to the coach").fill("five is fine!");
  await page.getByRole("button", { name: "Send" }).click();
  await expect(page.locator(".message-words").first()).toHaveText("five is fine!");
  await signIn(page, "Anselm Pallisor", "guardian");
  await page.goto(`/family/${await junoId()}/messages`);
  await expect(page.getByRole("region", { name: /Juno Pallisor, player/ })).toContainText("five is fine!");
  await bare.close();
});

test("the coach sees whom to answer on the cage day and puts it away", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  await visit(page, "/cage-day");
  await expect(page.getByText("One family waits for a word from you.")).toBeVisible();
  await look(page, "messages-cage-day-390");
  await page.getByRole("link", { name: "Message to answer, Juno Pallisor" }).click();
  await expect(page.locator(".message-words").first()).toHaveText("five is fine!");
  await page.getByRole("button", { name: "Needs no answer" }).click();
  await expect(page.getByRole("button", { name: "Needs no answer" })).toHaveCount(0);
});

test("a guardian who is removed while the coach types closes the thread, and the typed text stays", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  await visit(page, `/players/${await junoId()}/messages`);
  await page.getByLabel(/^Write to Juno/).fill("One more thing about Thursday.");
  await ask(`UPDATE "Guardianship" SET "until" = '2026-11-25' WHERE "playerId" = $1`, [await junoId()]);
  try {
    await page.getByRole("button", { name: "Send" }).click();
    await expect(page.getByText(/No guardian of Juno is linked now.*Your text was not sent/)).toBeVisible();
    await expect(page.locator("textarea")).toHaveValue("One more thing about Thursday.");
    await look(page, "messages-closed-390");
    await visit(page, `/players/${await junoId()}/messages`);
    await expect(page.getByRole("button", { name: "Send" })).toHaveCount(0);
    await expect(page.locator(".message-words").first()).toHaveText("five is fine!");
  } finally {
    await ask(`UPDATE "Guardianship" SET "until" = NULL WHERE "playerId" = $1`, [await junoId()]);
  }
});

test("in quiet hours the coach reads when it goes and takes it back; the office says which hours", async ({ page }) => {
  await signIn(page, "Rosalind Teague", "admin");
  await visit(page, "/hours");
  const hours = page.getByRole("form", { name: "Hours for messages at The Yard" });
  const keep = async (from: string, until: string) => {
    await hours.getByLabel("Messages go out from").selectOption(from);
    await hours.getByLabel("until").selectOption(until);
    await hours.getByRole("button", { name: "Keep these hours" }).click();
    await expect(hours.getByText(`Kept. Messages go out from ${from} to ${until}.`)).toBeVisible();
  };
  await keep("8 PM", "10 PM");
  await look(page, "messages-hours-390");
  await expectAccessible(page);
  try {
    await page.context().clearCookies();
    await signIn(page, "Vesna Coldbrook", "coach");
    await visit(page, `/players/${await junoId()}/messages`);
    await write(page, /^Write to Juno/, "Too late for tonight?");
    await expect(page.getByText("Goes at 8:00 PM today").first()).toBeVisible();
    await look(page, "messages-quiet-390");
    await expectAccessible(page);
    await page.getByRole("button", { name: /^Take back the message/ }).click();
    await expect(page.locator(".message-words").first()).toHaveText("five is fine!");
  } finally {
    await ask(`DELETE FROM "ContactHours"`);
  }
});
