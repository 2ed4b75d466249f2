import type { Page } from "@playwright/test";
import config from "../../playwright.config";
import { namesInZip } from "../support/zip-names";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

const launch = config.use?.launchOptions ?? {};
test.use({ launchOptions: { ...launch, args: [...(launch.args ?? []), "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", "--autoplay-policy=no-user-gesture-required"] } });

/** Two of Noor's swings; here they are only looked at. */
async function twoClips(): Promise<{ playerId: string; swingId: string; clipId: string; otherId: string }> {
  const [first, second] = await ask<{ playerId: string; swingId: string; clipId: string }>(
    `SELECT p."id" AS "playerId", s."id" AS "swingId", c."id" AS "clipId" FROM "Player" p JOIN "Swing" s ON s."playerId" = p."id" JOIN "Clip" c ON c."swingId" = s."id"
     WHERE p."givenName" = 'Noor' AND c."view" = 'side' AND EXISTS (SELECT 1 FROM "SwingEvent" e WHERE e."clipId" = c."id" AND e."event" = 'contact') ORDER BY s."filmedOn" DESC LIMIT 2`,
  );
  if (!first || !second) throw new Error("the demo has no two clips of Noor");
  return { ...first, otherId: second.clipId };
}

const pictures = (page: Page) => page.locator(".talk .pair .frame");
const canvases = (page: Page) => page.locator(".talk .pair canvas[data-frame-index]");
const framesNamed = (page: Page) => canvases(page).evaluateAll((all) => all.map((it) => Number((it as HTMLElement).dataset.frameIndex)));
const msShown = async (page: Page) => Number(await page.locator(".talk").getAttribute("data-ms"));

async function openTalk(page: Page): Promise<Awaited<ReturnType<typeof twoClips>>> {
  const clips = await twoClips();
  await page.goto(`/swings/${clips.swingId}/talk?clip=${clips.clipId}&with=${clips.otherId}`);
  await expect(canvases(page)).toHaveCount(2, { timeout: 30_000 });
  return clips;
}

test("a talk over two swings is recorded, sent, heard and stepped by the family on a phone, and taken away", async ({ page }) => {
  await signIn(page, "Adair Linsky", "head-coach");
  const { playerId } = await openTalk(page);
  await expectAccessible(page);
  await look(page, "talk-record-1440");
  await pictures(page).first().focus();
  const contact = await framesNamed(page);

  await page.getByRole("button", { name: "Record", exact: true }).click();
  await expect(page.locator('.talk[data-phase="recording"]')).toBeVisible();
  await page.getByLabel("What the talk is about now").selectOption({ index: 1 });
  await pictures(page).first().focus();
  await page.keyboard.press("Shift+ArrowLeft");
  await expect.poll(async () => (await framesNamed(page))[0]).toBe((contact[0] ?? 0) - 10);
  await page.getByRole("button", { name: "Ring" }).click();
  const box = await pictures(page).first().boundingBox();
  if (!box) throw new Error("no picture");
  await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.4);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.65, { steps: 8 });
  await page.mouse.up();
  await expect(page.locator('.talk [data-kind="ring"]')).toHaveCount(1);
  await page.getByRole("button", { name: "Words" }).click();
  await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.2);
  await page.getByLabel("Words for the picture").fill("Hands wait here");
  await page.keyboard.press("Enter");
  await expect(page.locator('.talk [data-kind="words"]')).toHaveCount(1);
  await page.getByRole("button", { name: "Words" }).click();
  await look(page, "talk-recording-1440");
  await page.waitForTimeout(17_000);
  await page.getByRole("button", { name: "Pause" }).click();
  await expect(page.getByRole("timer")).toContainText("Paused");
  await page.waitForTimeout(700);
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByLabel("What the talk is about now").selectOption({ index: 2 });
  await pictures(page).first().focus();
  await page.keyboard.press("Space");
  await page.waitForTimeout(1500);
  await page.keyboard.press("Space");
  await page.waitForTimeout(17_000);
  // Once the pictures have come to rest.
  await page.waitForTimeout(1200);
  const held = await framesNamed(page);
  await page.getByRole("button", { name: "End and keep" }).click();
  await page.getByRole("link", { name: "Look at it" }).click();

  // The coach hears it once, writes words and sends it.
  await expect(canvases(page)).toHaveCount(2, { timeout: 30_000 });
  const chapters = page.getByRole("complementary", { name: "Chapters" }).locator("ol li");
  await expect(chapters).toHaveCount(2);
  const [take] = await ask<{ voiceMs: number; durationMs: number; list: unknown }>(`SELECT t."voiceMs", t."durationMs", t."list" FROM "WalkthroughTake" t JOIN "Walkthrough" w ON w."id" = t."walkthroughId" WHERE w."playerId" = $1`, [playerId]);
  expect(take?.voiceMs).toBeGreaterThan(38_000);
  // A pause is in neither: the voice is as long as the take.
  expect(Math.abs((take?.voiceMs ?? 0) - (take?.durationMs ?? 0))).toBeLessThan(500);
  await page.getByLabel("Where the talk stands").focus();
  await page.keyboard.press("End");
  await expect.poll(() => framesNamed(page)).toEqual(held);
  await page.getByLabel("Words with their times, as WebVTT").fill("WEBVTT\n\n00:00.000 --> 00:02.500\nSee where the <b>hands</b> are.");
  await page.getByRole("button", { name: "Keep the captions" }).click();
  await expect(page.getByText("One line of captions is kept.")).toBeVisible();
  await page.getByLabel("What the family reads first").fill("We look at your hands before contact.");
  await page.getByRole("button", { name: "Keep the paragraph" }).click();
  await expect(page.getByText("The summary is kept.")).toBeVisible();
  await look(page, "talk-desk-1440");
  await expectAccessible(page);
  await page.getByLabel("With which note").selectOption("");
  await page.getByRole("button", { name: "Send to the family" }).click();
  await expect(page.getByRole("button", { name: "Take it back" })).toBeVisible();

  // The player, on a phone.
  await page.setViewportSize(PHONE);
  await signIn(page, "noor.c", "player");
  await page.goto(`/family/${playerId}/notes`);
  await page.getByRole("region", { name: "Told over your film" }).or(page.locator(".talk-rows")).getByRole("link").first().click();
  await expect(canvases(page)).toHaveCount(2, { timeout: 30_000 });
  await expect(page.getByText("We look at your hands before contact.")).toBeVisible();
  await look(page, "talk-family-390");
  // The first picture of each clip, and the styles by which it is seen, come within the page: nothing else is waited for.
  const html = () => page.request.get(page.url()).then((answer) => answer.text());
  await expect.poll(async () => (await html()).match(/<img[^>]+src="data:image\/webp;base64,/g)?.length ?? 0).toBe(2);
  expect(await html()).not.toContain('rel="stylesheet"');
  await expectAccessible(page);
  await page.getByRole("button", { name: "Play", exact: true }).click();
  await expect.poll(() => msShown(page)).toBeGreaterThan(1200);
  await expect(page.locator(".talk .said")).toHaveText("See where the hands are.");
  const apart = await page.evaluate(() => Math.abs((document.querySelector("audio")?.currentTime ?? 0) * 1000 - Number((document.querySelector(".talk") as HTMLElement).dataset.ms)));
  expect(apart).toBeLessThan(200);
  // It comes when it was drawn, sooner or later by how quick the machine was then, and stands while the talk holds.
  await expect(page.locator('.talk [data-kind="ring"]')).toHaveCount(1);
  await page.getByRole("button", { name: "Hold" }).click();
  const stood = await msShown(page);
  await expect(page.locator('.talk [data-kind="ring"]')).toHaveCount(1);
  const before = await framesNamed(page);
  await page.getByRole("button", { name: "One frame on ›" }).click();
  await expect.poll(async () => (await framesNamed(page))[0]).toBe((before[0] ?? 0) + 1);
  await expect(page.locator('.talk[data-by-hand="true"]')).toBeVisible();
  await look(page, "talk-family-by-hand-390");
  await page.getByRole("button", { name: "Go on" }).click();
  await expect.poll(() => msShown(page)).toBeGreaterThan(stood + 300);
  await page.getByRole("button", { name: "Hold" }).click();
  await page.getByLabel("Where the talk stands").fill("14000");
  await expect(page.locator('.talk [data-kind="words"]')).toHaveCount(1);
  await page.emulateMedia({ colorScheme: "dark" });
  await look(page, "talk-family-dark-390");

  const href = await page.getByRole("link", { name: "Voice, words and stills" }).getAttribute("href");
  const parcel = await page.request.get(href ?? "");
  expect(parcel.status()).toBe(200);
  const names = namesInZip(await parcel.body());
  for (const name of ["voice.webm", "captions.vtt", "walkthrough.json", "README.txt"]) expect(names).toContain(name);
  expect(names.filter((name) => name.startsWith("stills/")).length).toBeGreaterThan(1);
});

test("a microphone that is refused or goes away, and a page that is closed while somebody talks: what was said is kept and offered", async ({ page }) => {
  await page.addInitScript(() => {
    const open = MediaDevices.prototype.getUserMedia;
    MediaDevices.prototype.getUserMedia = async function (given) {
      if (sessionStorage.getItem("refuse")) throw new DOMException("no", "NotAllowedError");
      const stream = await open.call(this, given);
      Object.assign(window, { loseMicrophone: () => stream.getAudioTracks()[0]?.dispatchEvent(new Event("ended")) });
      return stream;
    };
  });
  page.on("dialog", (dialog) => void dialog.accept());
  await signIn(page, "Adair Linsky", "head-coach");
  await openTalk(page);
  await page.evaluate(() => sessionStorage.setItem("refuse", "1"));
  await page.getByRole("button", { name: "Record", exact: true }).click();
  await expect(page.getByRole("alert").filter({ hasText: "The microphone was refused" })).toBeVisible();
  await page.evaluate(() => sessionStorage.removeItem("refuse"));
  await page.getByRole("button", { name: "Record", exact: true }).click();
  await expect(page.locator('.talk[data-phase="recording"]')).toBeVisible();
  await pictures(page).first().focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(2500);
  await page.evaluate(() => (window as unknown as { loseMicrophone(): void }).loseMicrophone());
  await expect(page.getByRole("alert").filter({ hasText: "The microphone went away" })).toBeVisible();
  await expect(page.getByRole("timer")).toContainText("Recording");
  await page.waitForTimeout(2200);
  await page.reload();
  const offered = page.getByRole("region", { name: "Kept on this device" });
  await expect(offered).toContainText("was not sent");
  await offered.getByRole("button", { name: "Keep it now" }).click();
  await page.getByRole("link", { name: "Look at it" }).click();
  await expect(canvases(page)).toHaveCount(2, { timeout: 30_000 });
  const [take] = await ask<{ voiceMs: number; durationMs: number }>(`SELECT "voiceMs", "durationMs" FROM "WalkthroughTake" ORDER BY "recordedAt" DESC LIMIT 1`);
  expect(take?.voiceMs).toBeGreaterThan(1000);
  expect(take?.durationMs).toBeGreaterThan(take?.voiceMs ?? 0);
});
