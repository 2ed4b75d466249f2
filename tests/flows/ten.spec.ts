import { readdir, readFile } from "node:fs/promises";
import type { Locator, Page } from "@playwright/test";
import { CHILD_GRADE, readingGrade } from "../support/reading-grade";
import { canaryOf } from "../support/private-columns";
import { ask, expect, expectAccessible, look, PHONE, signIn, test } from "./fixtures";

/** From the focus to the portal for a child of ten, and the child's own way through it. Pell's films are looked at elsewhere, the notes are of here only. */
test.describe.configure({ mode: "serial" });

/** Seconds of a hand and a mind: press after a thought, and a letter typed (keystroke-level model: M 1.35 + P 1.1, K 0.28; Card, Moran and Newell, Commun ACM 1980;23:396-410). */
const PRESS_S = 1.35 + 1.1;
const LETTER_S = 0.28;

/** What a person would need: every press and letter is counted, and the house's own answers are added as they were. */
function stopwatch() {
  let hands = 0;
  const began = Date.now();
  return {
    press: async (what: Locator) => {
      hands += PRESS_S;
      await what.click();
    },
    type: async (what: Locator, words: string) => {
      hands += PRESS_S + words.length * LETTER_S;
      await what.fill(words);
    },
    seconds: () => hands + (Date.now() - began) / 1000,
  };
}

const idOf = async (givenName: string) => (await ask<{ id: string }>(`SELECT "id" FROM "Player" WHERE "givenName" = $1`, [givenName]))[0]?.id ?? "";
const NOTE = {
  keptWell: "Pell, your head stays still from start to finish. Keep that.",
  why: "When the turn waits for the foot, the bat meets more balls.",
  forFamily: "Three short days are enough. Count with Pell, and let Pell say the cue.",
};

test("a coach comes from the focus to a sent note in under three minutes, and is told about words while writing", async ({ page }) => {
  await signIn(page, "Vesna Coldbrook", "coach");
  const playerId = await idOf("Pell");
  await page.goto(`/players/${playerId}/what-first?side=right`);
  await page.waitForLoadState("networkidle");
  await page.getByText("Choose something else as the focus").click();
  await page.getByLabel("Which one").selectOption({ label: "No load into the back hip" });
  await page.getByRole("button", { name: "Make this the focus", exact: true }).click();
  await expect(page.getByText("Nothing is in focus yet.")).toHaveCount(0);

  const watch = stopwatch();
  await page.goto(`/players/${playerId}/plan?side=right`);
  await expect(async () => {
    await page.getByRole("button", { name: "Begin the plan" }).click({ timeout: 2_000 });
    await expect(page.getByRole("button", { name: "Suggest a plan" })).toBeVisible();
  }).toPass();
  const letter = page.getByRole("article", { name: "The note as the family will see it" });
  await watch.press(page.getByRole("button", { name: "Suggest a plan" }));
  await expect(page.locator(".set > li").first()).toBeVisible();
  await watch.press(page.getByRole("group", { name: "Choose the cue" }).locator("label").first());
  await watch.press(page.getByRole("button", { name: "Keep the cue" }));
  await watch.type(page.getByLabel("What was kept well"), NOTE.keptWell);
  await watch.type(page.getByRole("textbox", { name: /^For the family/ }), NOTE.forFamily);

  // Looked at while it is written: nothing was sent to the house.
  const why = page.getByLabel("Why", { exact: true });
  await why.fill("You are slow. Turn 10 degrees later.");
  await expect(page.getByText(/“You are slow” names the person\. Say what the swing does/).first()).toBeVisible();
  await expect(page.getByText(/No numbers for a player under 11: “10”/).first()).toBeVisible();
  await expect(why).toHaveAttribute("aria-invalid", "true");
  await expect(page.getByText(/^\d+ of 150 words, with the cue\./)).toBeVisible();
  await why.fill("ball ".repeat(160));
  await expect(page.getByText(/^\d+ of 150 words: \d+ too many/)).toBeVisible();
  await look(page, "note-too-long");
  await watch.type(why, NOTE.why);
  await expect(why).not.toHaveAttribute("aria-invalid");
  await watch.press(page.getByRole("button", { name: "Keep the note" }));
  await expect(letter).toContainText("the bat meets more balls");
  await watch.press(page.getByRole("button", { name: /^Send/ }));
  await expect(page.getByRole("heading", { name: /^Sent on/ })).toBeVisible();
  console.info(`focus to sent note: ${watch.seconds().toFixed(0)} s`);
  expect(watch.seconds()).toBeLessThan(180);
});

/** Every line that a child reads on a page, with all that can be unfolded. */
async function linesOf(page: Page): Promise<string[]> {
  return page.locator("#main").evaluate((main) => {
    for (const details of main.querySelectorAll("details")) details.open = true;
    return [...main.querySelectorAll<HTMLElement>("h1, h2, h3, p, li:not(:has(p, li)), summary, figcaption")].map((element) => element.innerText.trim()).filter(Boolean);
  });
}

test("every page of a child of ten is read with ease", async ({ page }) => {
  await page.setViewportSize(PHONE);
  await signIn(page, "pell.c", "player");
  const playerId = await idOf("Pell");
  const [note] = await ask<{ id: string }>(`SELECT "id" FROM "Note" WHERE "playerId" = $1 AND "sentAt" IS NOT NULL`, [playerId]);
  for (const name of ["today", "notes", `notes/${note?.id}`, "hurts"]) {
    await page.goto(`/family/${playerId}/${name}`);
    await page.waitForLoadState("networkidle");
    const { grade, words } = readingGrade(await linesOf(page));
    console.info(`${name.replace(/[0-9a-f-]{36}/, "…")}: grade ${grade.toFixed(1)}, ${words} words`);
    expect(words, name).toBeGreaterThan(15);
    expect(grade, name).toBeLessThanOrEqual(CHILD_GRADE);
  }
});

test("a child opens today, reads one thing, does a drill, and is done in under fifteen seconds", async ({ page }) => {
  await page.setViewportSize(PHONE);
  await signIn(page, "pell.c", "player");
  await page.goto("/");
  await page.waitForLoadState("networkidle");
  const main = page.getByRole("main");
  await expect(main.getByRole("region", { name: "Kept well" })).toContainText("your head stays still");
  const one = main.getByRole("region").filter({ has: page.getByRole("heading", { level: 2 }) }).first();
  expect((await one.getByRole("heading", { level: 2 }).innerText()).split(/\s+/).length).toBeLessThanOrEqual(25);
  await expect(main.getByText(/\d+ (minutes|swings in)/)).toHaveCount(0);
  const done = main.getByRole("button", { name: /^Done: / }).first();
  const name = ((await done.getAttribute("aria-label")) ?? "").replace("Done: ", "");
  const watch = stopwatch();
  await watch.press(done);
  await expect(main.getByRole("group", { name }).getByText(/^Done, \d+ counted$/)).toBeVisible();
  await expect(main.getByText("This week you did your drills on one day.")).toBeVisible();
  console.info(`counted in ${watch.seconds().toFixed(1)} s`);
  expect(watch.seconds()).toBeLessThan(15);
  await expect(page.locator(".thumbs").getByRole("link", { name: "It hurts" })).toBeInViewport();
  await look(page, "ten-today-390");
  await page.emulateMedia({ colorScheme: "dark" });
  await look(page, "ten-today-390-dark");
  await expectAccessible(page);
});

/** Goes on by Tab until what has the name is focused. */
async function tabTo(page: Page, what: Locator): Promise<void> {
  for (let presses = 0; presses < 60; presses++) {
    await page.keyboard.press("Tab");
    if (await what.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error("never reached by Tab");
}

test("the same is done with keys alone, as far as saying where it hurts", async ({ page }) => {
  await page.setViewportSize(PHONE);
  await signIn(page, "pell.c", "player");
  await page.goto("/today");
  await page.waitForLoadState("networkidle");
  const main = page.getByRole("main");
  const undo = main.getByRole("button", { name: /^Undo: / }).first();
  const name = ((await undo.getAttribute("aria-label")) ?? "").replace("Undo: ", "");
  await tabTo(page, undo);
  await page.keyboard.press("Enter");
  const done = main.getByRole("button", { name: `Done: ${name}` });
  await expect(done).toBeVisible();
  // Whoever goes by key stays at the drill: one Tab leads to its button.
  await expect(main.getByRole("group", { name })).toBeFocused();
  await page.keyboard.press("Tab");
  await expect(done).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(main.getByRole("group", { name }).getByText(/^Done, \d+ counted$/)).toBeVisible();
  await tabTo(page, page.locator(".thumbs").getByRole("link", { name: "It hurts" }));
  await page.keyboard.press("Enter");
  await expect(page).toHaveURL(/\/hurts$/);
  await page.waitForLoadState("networkidle");
  const part = page.getByRole("main").getByRole("radio").first();
  await tabTo(page, part);
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Space");
  await expect(page.getByRole("main").getByRole("radio", { checked: true })).toHaveCount(1);
  await tabTo(page, page.getByRole("button", { name: "Tell them" }));
});

test("a parent reads on one page of paper what was found, what is done at home and what is left to the coach", async ({ page }) => {
  await signIn(page, "Piers Castellane", "guardian");
  const playerId = await idOf("Pell");
  await page.goto(`/family/${playerId}/parents`);
  await page.waitForLoadState("networkidle");
  const summary = page.getByRole("article");
  const words = (await summary.innerText()).split(/\s+/).length;
  expect(words, "two minutes at 200 words a minute").toBeLessThanOrEqual(400);
  await expect(summary.getByRole("heading", { name: "The one thing" })).toBeVisible();
  await expect(summary).toContainText(NOTE.why);
  const listUnder = (name: string) => summary.locator("section").filter({ has: page.getByRole("heading", { name }) }).getByRole("listitem");
  expect(await listUnder("How to help at home").count()).toBeGreaterThanOrEqual(3);
  expect(await listUnder("Please leave to us").count()).toBeGreaterThanOrEqual(2);
  await expect(summary.getByRole("heading", { name: "If something hurts" })).toBeVisible();
  await expect(summary).toContainText("One day with homework");
  for (const format of ["A4", "Letter"]) {
    const paper = (await page.pdf({ format })).toString("latin1");
    expect(paper.match(/\/Type\s*\/Page(?!s)/g)?.length, format).toBe(1);
  }
  await expectAccessible(page);
});

test("what one child was told is on no page of the sibling, with the same sign-in", async ({ page }) => {
  await signIn(page, "Piers Castellane", "guardian");
  await page.goto(`/family/${await idOf("Pell")}/today`);
  await expect(page.getByRole("main")).toContainText("your head stays still");
  await page.getByRole("navigation", { name: "Whose pages" }).getByRole("link", { name: "Noor" }).click();
  await expect(page).toHaveURL(`/family/${await idOf("Noor")}/today`);
  await expect(page.getByRole("heading", { name: "There is no homework yet" })).toBeVisible();
  for (const name of ["today", "notes", "parents", "hurts"]) {
    const html = await (await page.request.get(`/family/${await idOf("Noor")}/${name}`)).text();
    for (const told of [NOTE.keptWell, NOTE.why, NOTE.forFamily]) expect(html, name).not.toContain(told);
  }
});

/** Words that only the academy reads, in Pell's rows; the house's own triggers are not asked. */
async function plantCanaries(playerId: string, noteId: string): Promise<string[]> {
  const own = `(SELECT "academyId" FROM "Player" WHERE "id" = '${playerId}')`;
  const coach = `(SELECT "id" FROM "User" WHERE "displayName" = 'Vesna Coldbrook')`;
  const word = canaryOf;
  await ask(`
    SET session_replication_role = replica;
    INSERT INTO "PrivateNote" ("academyId", "noteId", "words") VALUES (${own}, '${noteId}', '${word("PrivateNote", "words")}') ON CONFLICT ("academyId", "noteId") DO UPDATE SET "words" = EXCLUDED."words";
    INSERT INTO "PainReport" ("id", "academyId", "playerId", "part", "level", "words", "reportedById") VALUES (gen_random_uuid(), ${own}, '${playerId}', 'foot', 1, '${word("PainReport", "words")}', ${coach});
    INSERT INTO "Pause" ("id", "academyId", "playerId", "painReportId") SELECT gen_random_uuid(), "academyId", "playerId", "id" FROM "PainReport" WHERE "words" = '${word("PainReport", "words")}';
    INSERT INTO "RankingRun" ("id", "academyId", "playerId", "side", "editionId", "engineVersion", "ranById", "input", "output")
      VALUES (gen_random_uuid(), ${own}, '${playerId}', 'right', gen_random_uuid(), 'x', ${coach}, '{"canary":"${word("RankingRun", "input")}"}', '{"canary":"${word("RankingRun", "output")}"}');
    INSERT INTO "Overrule" ("id", "academyId", "playerId", "side", "rankingRunId", "faultId", "reason", "byId")
      SELECT gen_random_uuid(), "academyId", "playerId", 'right', "id", 'barrel-drag', '${word("Overrule", "reason")}', ${coach} FROM "RankingRun" WHERE "engineVersion" = 'x';
    UPDATE "PlanDrill" SET "why" = '${word("PlanDrill", "why")}' WHERE "planId" = (SELECT "planId" FROM "Note" WHERE "id" = '${noteId}');
    SET session_replication_role = DEFAULT;`);
  return [word("PrivateNote", "words"), word("PainReport", "words"), word("RankingRun", "input"), word("RankingRun", "output"), word("Overrule", "reason"), word("PlanDrill", "why")];
}

test.describe("what only the academy reads", () => {
  test.use({ allowedComplaint: "status of 404" });

  test("is in no page, no payload beneath it, no refusal and no letter of the family", async ({ page }) => {
    const playerId = await idOf("Pell");
    const [note] = await ask<{ id: string; planId: string }>(`SELECT "id", "planId" FROM "Note" WHERE "playerId" = $1 AND "sentAt" IS NOT NULL`, [playerId]);
    const canaries = await plantCanaries(playerId, note?.id ?? "");
    const found: string[] = [];
    const look = (from: string, text: string) => found.push(...canaries.filter((canary) => text.includes(canary)).map((canary) => `${canary} in ${from}`));
    for (const [who, role] of [["pell.c", "player"], ["Piers Castellane", "guardian"]] as const) {
      await page.context().clearCookies();
      await signIn(page, who, role);
      const family = ["today", "notes", `notes/${note?.id}`, "hurts", "sheet", ...(role === "guardian" ? ["parents"] : [])].map((name) => `/family/${playerId}/${name}`);
      const refused = [`/notes/${note?.id}`, `/players/${playerId}`, `/players/${playerId}/plan?side=right`, `/players/${playerId}/what-first?side=right`, `/family/${playerId}/notes/${playerId}`, "/audit", "/library/overruled"];
      for (const address of [...family, ...refused, "/account"]) {
        for (const headers of [{}, { rsc: "1" }]) {
          const answer = await page.request.get(address, { headers: headers as Record<string, string> });
          if (family.includes(address)) expect(answer.status(), address).toBe(200);
          look(`${address} as ${role}`, await answer.text());
        }
      }
    }
    const letters = `.data/flows/mail`;
    for (const name of await readdir(letters).catch(() => [])) look(`the letter ${name}`, await readFile(`${letters}/${name}`, "utf8"));
    await ask(`UPDATE "Pause" SET "endedAt" = now() WHERE "endedAt" IS NULL AND "playerId" = $1`, [playerId]);
    expect(found).toEqual([]);
    // They would be found: the coach's page of the same note holds one.
    await page.context().clearCookies();
    await signIn(page, "Vesna Coldbrook", "coach");
    expect(await (await page.request.get(`/notes/${note?.id}`)).text()).toContain(canaries[0]);
  });
});
