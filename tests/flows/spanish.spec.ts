import type { Locator, Page } from "@playwright/test";
import { CHILD_EASE, readingEase } from "../support/reading-ease-es";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** A family reads in Spanish: a mother chooses it, a player does a drill and says that it hurts, by keys and by names alone. */
test.describe.configure({ mode: "serial" });

const GUARDIAN = "Clara Montoro";
const PLAYER = "Luz Montoro";
const idOf = async (givenName: string) => (await ask<{ id: string }>(`SELECT "id" FROM "Player" WHERE "givenName" = $1`, [givenName]))[0]?.id ?? "";

/** A copy of rows with other values in some columns: a family of this story's own, so that others walk through theirs undisturbed. */
const copy = (table: string, where: string, other: string) => `INSERT INTO "${table}" SELECT (jsonb_populate_record(r, ${other})).* FROM "${table}" r WHERE ${where};`;

test.beforeAll(async () => {
  const [ines] = await ask<{ id: string; userId: string; motherId: string; noteId: string; planId: string; focusId: string }>(
    `SELECT p."id", p."userId", g."userId" AS "motherId", n."id" AS "noteId", n."planId", l."focusId" FROM "Player" p JOIN "Guardianship" g ON g."playerId" = p."id" JOIN "User" u ON u."id" = g."userId"
     JOIN "Note" n ON n."playerId" = p."id" AND n."sentAt" IS NOT NULL JOIN "Plan" l ON l."id" = n."planId" WHERE p."givenName" = 'Ines' AND u."displayName" = 'Odile Corvane' ORDER BY n."sentAt" DESC LIMIT 1`,
  );
  if (!ines) throw new Error("the demo has no Ines");
  const id = () => crypto.randomUUID();
  const [mother, user, player, focus, plan, note] = [id(), id(), id(), id(), id(), id()];
  const values = (given: Readonly<Record<string, unknown>>) => `'${JSON.stringify(given)}'::jsonb`;
  const fresh = (given: Readonly<Record<string, unknown>>) => `${values(given)} || jsonb_build_object('id', gen_random_uuid())`;
  await ask(`
    SET session_replication_role = replica;
    ${copy("User", `r."id" = '${ines.motherId}'`, values({ id: mother, displayName: GUARDIAN, email: "clara@example.test", language: null }))}
    ${copy("User", `r."id" = '${ines.userId}'`, values({ id: user, displayName: PLAYER, userName: "luz.m", email: null, language: null }))}
    ${copy("RoleGrant", `r."userId" = '${ines.motherId}' AND r."role" = 'guardian'`, fresh({ userId: mother }))}
    ${copy("RoleGrant", `r."userId" = '${ines.userId}' AND r."role" = 'player'`, fresh({ userId: user }))}
    ${copy("Player", `r."id" = '${ines.id}'`, values({ id: player, userId: user, givenName: "Luz", familyName: "Montoro" }))}
    ${copy("Guardianship", `r."playerId" = '${ines.id}' AND r."userId" = '${ines.motherId}'`, fresh({ playerId: player, userId: mother }))}
    ${copy("Assignment", `r."playerId" = '${ines.id}'`, fresh({ playerId: player }))}
    ${copy("BattingSide", `r."playerId" = '${ines.id}'`, values({ playerId: player }))}
    ${copy("Focus", `r."id" = '${ines.focusId}'`, values({ id: focus, playerId: player }))}
    ${copy("Plan", `r."id" = '${ines.planId}'`, values({ id: plan, playerId: player, focusId: focus }))}
    ${copy("PlanDrill", `r."planId" = '${ines.planId}'`, fresh({ planId: plan }))}
    ${copy("Note", `r."id" = '${ines.noteId}'`, values({ id: note, playerId: player, planId: plan, clipId: null, frameIndex: null }))}
    SET session_replication_role = DEFAULT;`);
});

test.beforeEach(async ({ page }) => page.setViewportSize(PHONE));

/** Words that stand in nearly every English sentence and in no Spanish one. */
const ENGLISH = /\b(?:the|and|your|you|with|this|that|what|when|from|have|not|are|was|will|nothing|before|until|here|is|it|of|to)\b/i;

/** Every text on the page, hidden ones and names for the ear too, that is not marked as English. */
async function wordsOf(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    for (const details of document.querySelectorAll("details")) details.open = true;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node instanceof Element ? node : node.parentElement;
      if (!element || element.closest('[lang="en"], script, style, template, [data-nextjs-dev-overlay], next-route-announcer')) continue;
      if (node instanceof Element) found.push(...["aria-label", "alt", "title", "placeholder", "aria-valuetext"].map((name) => node.getAttribute(name) ?? ""));
      else found.push(node.textContent ?? "");
    }
    return found.map((text) => text.trim()).filter(Boolean);
  });
}

async function expectSpanish(page: Page, where: string): Promise<void> {
  await expect(page.locator("html")).toHaveAttribute("lang", "es");
  const words = await wordsOf(page);
  expect(words.length, where).toBeGreaterThan(8);
  expect(words.filter((text) => ENGLISH.test(text)), where).toEqual([]);
}

async function tabTo(page: Page, what: Locator): Promise<void> {
  for (let presses = 0; presses < 90; presses++) {
    await page.keyboard.press("Tab");
    if (await what.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error("never reached by Tab");
}

test("a mother chooses Spanish on the page by key, and the house says everything in it; the player still reads English", async ({ page }) => {
  await signIn(page, GUARDIAN, "guardian");
  const playerId = await idOf("Luz");
  await page.goto(`/family/${playerId}/today`);
  await page.waitForLoadState("networkidle");
  await expect(page.locator("html")).toHaveAttribute("lang", "en");
  const spanish = page.getByRole("button", { name: "Español" });
  await expect(spanish).toHaveAttribute("lang", "es");
  await tabTo(page, spanish);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Hoy, /);
  // Whoever goes by key stays where the other language is.
  await expect(page.getByRole("button", { name: "English" })).toBeFocused();
  await expect(page.locator("html")).toHaveAttribute("lang", "es");
  await expectSpanish(page, "today");
  await expect(page).toHaveTitle(/^Hoy/);
  await look(page, "es-today-390");
  await expectAccessible(page);
  const [note] = await ask<{ id: string }>(`SELECT "id" FROM "Note" WHERE "playerId" = $1 AND "sentAt" IS NOT NULL`, [playerId]);
  for (const name of ["notes", `notes/${note?.id}`, "swing", "clips", "messages", "parents", "hurts", "sheet"]) {
    await page.goto(`/family/${playerId}/${name}`);
    await page.waitForLoadState("networkidle");
    await expectSpanish(page, name);
    await look(page, `es-${name.replace(/\/.*/, "-one")}-390`);
    await expectAccessible(page);
  }
  await page.context().clearCookies();
  await signIn(page, PLAYER, "player");
  await page.goto("/today");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Today, /);
  await expect(page.locator("html")).toHaveAttribute("lang", "en");
});

test("what the coach wrote stays in the coach's words and is marked as English", async ({ page }) => {
  await signIn(page, GUARDIAN, "guardian");
  await page.goto(`/family/${await idOf("Luz")}/today`);
  const [note] = await ask<{ keptWell: string }>(`SELECT "keptWell" FROM "Note" WHERE "playerId" = $1 AND "sentAt" IS NOT NULL ORDER BY "sentAt" DESC LIMIT 1`, [await idOf("Luz")]);
  const kept = page.getByText(note?.keptWell ?? "", { exact: true }).first();
  await expect(kept).toBeVisible();
  expect(await kept.evaluate((element) => element.closest("[lang]")?.getAttribute("lang"))).toBe("en");
});

test("a player who reads Spanish does a drill by key, and what the page says is read with ease", async ({ page }) => {
  await ask(`UPDATE "User" SET "language" = 'es' WHERE "displayName" = $1`, [PLAYER]);
  await signIn(page, PLAYER, "player");
  await page.goto("/today");
  await page.waitForLoadState("networkidle");
  const main = page.getByRole("main");
  const done = main.getByRole("button", { name: /^Hecho: / }).first();
  const name = ((await done.getAttribute("aria-label")) ?? "").replace("Hecho: ", "");
  await tabTo(page, done);
  await page.keyboard.press("Enter");
  const group = main.getByRole("group", { name });
  await expect(group.getByText(/^Hecho: van \d+$/)).toBeVisible();
  await expect(group).toBeFocused();
  await page.keyboard.press("Tab");
  await expect(group.getByRole("button", { name: `Deshacer: ${name}` })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(done).toBeVisible();
  for (const address of ["today", "notes", "hurts"]) {
    await page.goto(`/family/${await idOf("Luz")}/${address}`);
    await page.waitForLoadState("networkidle");
    const lines = await page.locator("#main").evaluate((mainPart) => {
      for (const details of mainPart.querySelectorAll("details")) details.open = true;
      return [...mainPart.querySelectorAll<HTMLElement>("h1, h2, h3, p, li:not(:has(p, li)), summary, figcaption")].filter((element) => !element.closest('[lang="en"]')).map((element) => element.innerText.trim()).filter(Boolean);
    });
    const { ease, words } = readingEase(lines);
    console.info(`${address} in Spanish: ease ${ease.toFixed(1)} (Szigriszt-Pazos), ${words} words`);
    expect(ease, address).toBeGreaterThanOrEqual(CHILD_EASE);
  }
});

test("a player says in Spanish that it hurts, by key, and reads what happens now", async ({ page }) => {
  await signIn(page, PLAYER, "player");
  await page.goto("/today");
  await page.waitForLoadState("networkidle");
  await tabTo(page, page.locator(".thumbs").getByRole("link", { name: "Me duele" }));
  await page.keyboard.press("Enter");
  await expect(page).toHaveURL(/\/hurts$/);
  await page.waitForLoadState("networkidle");
  const main = page.getByRole("main");
  await tabTo(page, main.getByRole("radio", { name: "Rodilla" }));
  await page.keyboard.press("Space");
  await tabTo(page, main.getByRole("radiogroup", { name: /¿Cuánto\?/ }).getByRole("radio").first());
  await page.keyboard.press("ArrowRight");
  await tabTo(page, main.getByRole("button", { name: "Avisar" }));
  await page.keyboard.press("Enter");
  await expect(main.getByRole("heading", { name: "Detente. Avísale a un adulto." })).toBeVisible();
  await expect(main.getByText("Los swings están en pausa. Estuvo bien decirlo. Nadie está enojado.")).toBeVisible();
  await expectSpanish(page, "hurts, paused");
  await look(page, "es-stop-390");
  await expectAccessible(page);
  await page.goto("/today");
  await page.waitForLoadState("networkidle");
  await expectSpanish(page, "today, paused");
  await look(page, "es-today-paused-390");
  await page.emulateMedia({ colorScheme: "dark" });
  await look(page, "es-today-paused-390-dark");
});

test.describe("before the sign-in", () => {
  test.use({ locale: "es-MX" });

  test("a browser that asks for Spanish gets it, and a choice is kept", async ({ page }) => {
    await page.goto("/sign-in");
    await page.waitForLoadState("networkidle");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Entrar");
    await expectSpanish(page, "sign-in");
    await look(page, "es-sign-in-390");
    await expectAccessible(page);
    await page.getByRole("button", { name: "English" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Sign in");
    await page.reload();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Sign in");
  });

  test.describe("without script", () => {
    test.use({ javaScriptEnabled: false });

    test("the language is chosen by a form", async ({ page }) => {
      await page.goto("/sign-in");
      await page.getByRole("button", { name: "English" }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText("Sign in");
      await expect(page.locator("html")).toHaveAttribute("lang", "en");
    });
  });
});
