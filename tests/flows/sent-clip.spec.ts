import type { Page } from "@playwright/test";
import { filmRoom } from "../domains/video-files";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";
import { ownCoach } from "./lesson-story";

const room = filmRoom();
test.afterAll(room.remove);

const [COACH, PLAYER, MOTHER] = ["coach", "player", "mother"].map((who) => `sent-${who}-${Date.now()}`) as [string, string, string];
let playerId = "";
test.beforeAll(async () => {
  [playerId = ""] = (await ownCoach(COACH, ["Ilse"])).playerIds;
  const [{ academyId } = { academyId: "" }] = await ask<{ academyId: string }>(`SELECT "academyId" FROM "Player" WHERE "id" = $1`, [playerId]);
  for (const [userName, role, name] of [[PLAYER, "player", "Ilse Orlewick"], [MOTHER, "guardian", "Maud Orlewick"]]) {
    const userId = crypto.randomUUID();
    await ask(`INSERT INTO "User" ("id", "academyId", "displayName", "userName") VALUES ($1, $2, $3, $4)`, [userId, academyId, name, userName]);
    await ask(`INSERT INTO "RoleGrant" ("id", "academyId", "userId", "role", "from") VALUES ($1, $2, $3, $4, DATE '2026-01-01')`, [crypto.randomUUID(), academyId, userId, role]);
    if (role === "player") await ask(`UPDATE "Player" SET "userId" = $2 WHERE "id" = $1`, [playerId, userId]);
    else await ask(`INSERT INTO "Guardianship" ("id", "academyId", "playerId", "userId", "relation", "from") VALUES ($1, $2, $3, $4, 'mother', DATE '2026-01-01')`, [crypto.randomUUID(), academyId, playerId, userId]);
  }
});

async function lookAllOver(page: Page, name: string, size: { width: number; height: number }): Promise<void> {
  if (process.env.CI) return look(page, name);
  for (const colorScheme of ["dark", "light"] as const) {
    await page.emulateMedia({ colorScheme });
    for (const at of [{ width: 1440, height: 900 }, PHONE]) {
      await page.setViewportSize(at);
      await look(page, `${name}-${at.width}-${colorScheme}`);
    }
  }
  await page.setViewportSize(size);
}

test("a player sends a clip from a phone, the coach answers on a frame, and the answer opens at that frame", async ({ page }) => {
  await page.setViewportSize(PHONE);
  await signIn(page, PLAYER, "player");
  await page.goto(`/family/${playerId}/clips`);
  await page.waitForLoadState("networkidle");
  await expect(page.getByText("You have sent nothing yet")).toBeVisible();
  await page.getByRole("button", { name: "Send it" }).click();
  await expect(page.getByText("Choose a video first, or film one.")).toBeVisible();
  await page.getByLabel("Choose a video").setInputFiles(room.crack("mine.mp4"));
  await page.getByText("Behind", { exact: true }).click();
  await page.getByLabel("What shall your coach look at?").fill("Is my belt first now?");
  await expectAccessible(page);
  await lookAllOver(page, "sent-form", PHONE);
  await page.getByRole("button", { name: "Send it" }).click();
  await expect(page.getByText("Received. Your coach has not looked yet.")).toBeVisible({ timeout: 40_000 });
  await expect(page.getByText("“Is my belt first now?”")).toBeVisible();

  await page.context().clearCookies();
  await signIn(page, COACH, "coach");
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto("/cage-day");
  const waiting = page.getByRole("region", { name: "Clips that wait" });
  await expect(waiting).toContainText("Ilse Orlewick");
  await expect(waiting).toContainText("“Is my belt first now?”");
  await expectAccessible(page);
  await lookAllOver(page, "sent-cage-day", { width: 1440, height: 900 });
  await waiting.getByRole("link", { name: "Ilse Orlewick" }).click();
  await page.waitForURL(/\/swings\//);
  await page.waitForLoadState("networkidle");
  const answering = page.getByRole("link", { name: "Answer with this frame" });
  await lookAllOver(page, "sent-swing", { width: 1440, height: 900 });
  const frameOf = async () => Number(new URL((await answering.getAttribute("href")) ?? "", "http://x").searchParams.get("frame"));
  const before = await frameOf();
  await expect(async () => {
    await page.getByRole("button", { name: "One frame on" }).click();
    expect(await frameOf()).toBeGreaterThan(before);
  }).toPass();
  const chosen = await frameOf();
  await answering.click();
  await page.waitForURL(/\/answer\?/);
  await page.getByLabel("What you write").fill("Yes. Belt first, and the foot comes along.");
  await expectAccessible(page);
  await lookAllOver(page, "sent-answering", { width: 1440, height: 900 });
  await page.waitForLoadState("networkidle");
  await page.getByRole("button", { name: "Send the answer" }).click();
  await expect(page.getByText("Sent to Ilse Orlewick, Maud Orlewick.")).toBeVisible();
  await page.goto("/cage-day");
  await expect(page.getByRole("region", { name: "Clips that wait" })).toHaveCount(0);

  await page.context().clearCookies();
  await signIn(page, MOTHER, "guardian");
  await page.setViewportSize(PHONE);
  await page.goto(`/family/${playerId}/clips`);
  await expect(page.getByText("Answered by Tamsin Orle")).toBeVisible();
  await lookAllOver(page, "sent-list", PHONE);
  await page.getByRole("link", { name: /^Open the answer/ }).click();
  await expect(page.getByText("Yes. Belt first, and the foot comes along.")).toBeVisible();
  const still = page.getByRole("img", { name: /picture that the answer is about/ });
  expect(await still.locator("image").getAttribute("href")).toMatch(new RegExp(`/stills/${chosen}$`));
  await expect(page.getByLabel("The clip that you sent")).toHaveAttribute("src", /\/stepping$/);
  await expectAccessible(page);
  await lookAllOver(page, "sent-answer", PHONE);
});

test("a family looks at its own swing then and now", async ({ page }) => {
  // What Noor's coach filmed counts as sent by her, for as long as this looks at it.
  const noor = `FROM "Upload" u JOIN "Player" p ON p."id" = u."playerId" WHERE p."givenName" = 'Noor' AND u."state" = 'ready' AND u."clipId" IS NOT NULL`;
  const [{ id } = { id: "" }] = await ask<{ id: string }>(`SELECT p."id" ${noor} LIMIT 1`);
  await ask(`INSERT INTO "SentClip" ("id", "academyId", "playerId", "uploadId", "sentById", "words", "lookedAt", "answeredAt", "answeredById", "answer") SELECT gen_random_uuid(), u."academyId", u."playerId", u."id", u."userId", '', now(), now(), u."userId", 'Good.' ${noor}`);
  try {
    await page.setViewportSize(PHONE);
    await signIn(page, "Piers Castellane", "guardian");
    await page.goto(`/family/${id}/swing`);
    await page.waitForLoadState("networkidle");
    await expect(page.getByRole("heading", { name: "Then and now" })).toBeVisible();
    for (const when of ["Then", "Now"]) {
      const still = page.getByRole("img", { name: new RegExp(`^${when}, .*when bat and ball meet$`) });
      await expect(still).toBeVisible();
      expect((await page.request.get((await still.getAttribute("src")) ?? "")).headers()["content-type"]).toBe("image/jpeg");
    }
    await expectAccessible(page);
    await lookAllOver(page, "my-swing", PHONE);
  } finally {
    await ask(`DELETE FROM "SentClip" WHERE "playerId" = $1`, [id]);
  }
});
