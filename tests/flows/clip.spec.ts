import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "@playwright/test";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

const folder = mkdtempSync(path.join(tmpdir(), "cagebook-flow-"));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A short film made elsewhere: a moving picture, a quiet room, one crack. The seed makes every one unlike the others. */
function film(name: string, seed: number): string {
  const file = path.join(folder, name);
  const crack = "0.002*(random(0)-0.5)+if(gte(t,1),0.8*exp(-(t-1)/0.01)*(2*random(1)-1),0)";
  execFileSync("ffmpeg", [
    "-v", "error", "-y", "-f", "lavfi", "-i", `testsrc=size=640x360:rate=240,hue=h=${seed}`, "-f", "lavfi", "-i", `aevalsrc='${crack}':s=48000`,
    "-t", "1.5", "-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p", "-c:a", "aac", file,
  ]);
  return file;
}

/** A player of Marlow's who may be filmed. */
async function playerOfMarlow(): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `SELECT p."id" FROM "Player" p JOIN "Assignment" a ON a."playerId" = p."id" JOIN "User" u ON u."id" = a."userId" JOIN "Permit" c ON c."playerId" = p."id"
     WHERE u."displayName" = 'Marlow Tessen' AND a."until" IS NULL AND c."use" = 'lesson' AND c."validUntil" > DATE '2026-11-26' AND p."leftAt" IS NULL ORDER BY p."id" LIMIT 1`,
  );
  if (!row) throw new Error("the demo has no player of Marlow's who may be filmed");
  return row.id;
}

async function send(page: Page, files: readonly string[]): Promise<void> {
  // A file that is chosen before the page listens is not heard.
  await page.waitForLoadState("networkidle");
  await page.getByLabel("Choose videos").setInputFiles([...files]);
  await page.getByRole("button", { name: /^Send / }).click();
}

test.beforeEach(async ({ page }) => signIn(page, "Marlow Tessen", "coach"));

test("a coach sends a film, finds contact suggested from the sound, sets events by key, places a point and draws", async ({ page }) => {
  await page.goto(`/players/${await playerOfMarlow()}/clips/new`);
  await page.getByLabel("Choose videos").setInputFiles(film(`${Date.now()}.mp4`, Date.now() % 360));
  await expect(page.getByText("1.5 s, 240 frames a second")).toBeVisible();
  await look(page, "add-clips-1440");
  await expectAccessible(page);
  const ready = page.getByRole("link", { name: "Open the swing" });
  const before = await ready.count();
  await page.getByRole("button", { name: "Send one clip" }).click();
  await expect(ready).toHaveCount(before + 1, { timeout: 60_000 });
  await ready.first().click();

  await expect(page.getByRole("heading", { name: "Swing view" })).toBeVisible({ timeout: 30_000 });
  const contact = page.getByRole("button", { name: /contact/i }).first();
  await expect(contact).toContainText("0.000", { timeout: 20_000 });
  const stage = page.locator(".bench .frame").first();
  await stage.focus();
  await expect(page.getByRole("group", { name: "Suggested event" })).toContainText("heard in the sound");
  await page.keyboard.press("y");
  await expect(page.getByRole("group", { name: "Suggested event" })).toHaveCount(0);
  await expect(contact).not.toContainText("suggested");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("p");
  await expect(page.getByRole("button", { name: /plant/i }).first()).toContainText("−0.042");
  await expect(page.getByRole("heading", { name: "Readings" })).toBeVisible();

  const place = page.getByRole("button", { name: "Place here" });
  await expect(place).toBeVisible({ timeout: 20_000 });
  const asked = ((await page.getByRole("heading", { name: /^Place the / }).textContent()) ?? "").replace("Place the ", "the ");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: `Move ${asked}`, exact: true })).toBeVisible();
  await page.getByRole("button", { name: "Line", exact: true }).click();
  const box = await stage.boundingBox();
  if (!box) throw new Error("the picture is not there");
  await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.4);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.7, { steps: 5 });
  await page.mouse.up();
  const marks = page.getByRole("heading", { name: "Marks on this frame" }).locator("..");
  await expect(marks.getByRole("listitem").first()).toContainText("Line");

  const at = (across: number, down: number) => [box.x + box.width * across, box.y + box.height * down] as const;
  await page.getByRole("button", { name: "Angle", exact: true }).click();
  await page.mouse.move(...at(0.5, 0.3));
  await page.mouse.down();
  await page.mouse.move(...at(0.5, 0.6), { steps: 5 });
  await page.mouse.up();
  await page.mouse.click(...at(0.7, 0.6));
  await expect(marks.getByRole("listitem").filter({ hasText: /^Angle \d+, (8[89]|9[012]) degrees/ })).toHaveCount(1);
  await page.getByRole("button", { name: "Pen", exact: true }).click();
  await page.mouse.move(...at(0.3, 0.3));
  await page.mouse.down();
  await page.mouse.move(...at(0.35, 0.4), { steps: 5 });
  await page.mouse.move(...at(0.3, 0.5), { steps: 5 });
  await page.mouse.up();
  await expect(marks.getByRole("listitem").filter({ hasText: /^Pen \d+/ })).toHaveCount(1);
  await look(page, "swing-view-1440");
  await expectAccessible(page);

  await page.reload();
  await expect(page.getByRole("button", { name: /plant/i }).first()).toContainText("−0.042", { timeout: 20_000 });
  await page.locator(".bench .frame").first().focus();
  await page.keyboard.press("Shift+p");
  for (const name of ["Line", "Angle", "Pen"]) await expect(marks.getByRole("listitem").filter({ hasText: name })).toHaveCount(1);
  await page.setViewportSize(PHONE);
  await look(page, "swing-view-390");
});

test("a film from another camera joins a swing that is here: nothing is asked that the swing knows, and its events are shared", async ({ page }) => {
  const playerId = await playerOfMarlow();
  const [swing] = await ask<{ id: string }>(
    `SELECT s."id" FROM "Swing" s JOIN "SwingEvent" e ON e."swingId" = s."id" WHERE s."playerId" = $1 AND e."event" = 'plant' ORDER BY s."createdAt" DESC LIMIT 1`,
    [playerId],
  );
  await page.goto(`/swings/${swing?.id}`);
  await page.getByRole("link", { name: "Another camera" }).click();
  await expect(page.getByLabel("Which swing is it?")).toHaveValue(swing?.id ?? "");
  await expect(page.getByLabel("What was hit")).toHaveCount(0);
  await expect(page.getByLabel("From where")).toHaveValue("rear");
  await page.getByLabel("From where").selectOption("side");
  await expect(page.getByText("There is a side clip of this swing already")).toBeVisible();
  await page.getByLabel("From where").selectOption("rear");
  await look(page, "add-camera-1440");
  await expectAccessible(page);
  const ready = page.getByRole("link", { name: "Open the swing" });
  const before = await ready.count();
  await send(page, [film(`${Date.now()}-rear.mp4`, (Date.now() + 45) % 360)]);
  await expect(ready).toHaveCount(before + 1, { timeout: 60_000 });
  await ready.first().click();
  const which = page.getByRole("navigation", { name: "Which clip" });
  await which.getByRole("link", { name: "Behind" }).click();
  await expect(page.getByRole("button", { name: /plant/i }).first()).toContainText("side clip", { timeout: 30_000 });
});

test("a text file, half a film and a film that is there already each get a sentence, and no half-made clip stays", async ({ page }) => {
  const playerId = await playerOfMarlow();
  const good = film(`${Date.now()}-good.mp4`, (Date.now() + 90) % 360);
  const text = path.join(folder, "notes.mp4");
  writeFileSync(text, "stay back on it\n".repeat(20));
  const half = path.join(folder, "half.mp4");
  const bytes = readFileSync(good);
  writeFileSync(half, bytes.subarray(0, bytes.length >> 1));

  await page.setViewportSize(PHONE);
  await page.goto(`/players/${playerId}/clips/new`);
  await send(page, [text, half, good]);
  await expect(page.getByText("This is a text file and not a video")).toBeVisible({ timeout: 60_000 });
  await expect(page.getByText("The file ends too soon")).toBeVisible({ timeout: 60_000 });
  await expect(page.getByText("A clip now").first()).toBeVisible({ timeout: 60_000 });
  await look(page, "add-clips-390");
  await expectAccessible(page);

  await page.reload();
  await send(page, [good]);
  await expect(page.getByText("The same video was here already", { exact: false }).first()).toBeVisible({ timeout: 60_000 });
  const refused = page.getByRole("button", { name: "Put away" });
  const before = await refused.count();
  expect(before).toBeGreaterThanOrEqual(2);
  await refused.first().click();
  await expect(refused).toHaveCount(before - 1);
});
