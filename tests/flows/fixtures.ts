import { readFileSync } from "node:fs";
import path from "node:path";
import AxeBuilder from "@axe-core/playwright";
import { test as base, expect, type Page } from "@playwright/test";
import { encode } from "next-auth/jwt";
import pg from "pg";

const environment = () => JSON.parse(readFileSync(path.resolve(".data/flows/environment.json"), "utf8")) as Record<string, string>;

/** Reads the flow's database: to find where things are, never to claim that a page works. */
export async function ask<Row extends Record<string, unknown>>(sql: string, values: unknown[] = []): Promise<Row[]> {
  const client = new pg.Client({ connectionString: environment().DATABASE_URL });
  await client.connect();
  try {
    return (await client.query<Row>(sql, values)).rows;
  } finally {
    await client.end();
  }
}

/** Signs somebody in by writing a session row, in the role named or the first one they hold. */
export async function signIn(page: Page, name: string, role?: string): Promise<void> {
  const [user] = await ask<{ id: string; academyId: string; role: string }>(
    `SELECT u."id", u."academyId", g."role" FROM "User" u JOIN "RoleGrant" g ON g."userId" = u."id"
     WHERE (u."email" = $1 OR u."userName" = $1 OR u."displayName" = $1) AND ($2::text IS NULL OR g."role" = $2) LIMIT 1`,
    [name, role ?? null],
  );
  if (!user) throw new Error(`nobody is called ${name}`);
  const sid = crypto.randomUUID();
  await ask(`INSERT INTO "Session" ("id", "academyId", "userId", "activeRole", "device", "expiresAt") VALUES ($1, $2, $3, $4, 'a flow', now() + interval '30 days')`, [
    sid, user.academyId, user.id, user.role,
  ]);
  const value = await encode({ token: { sid }, secret: environment().AUTH_SECRET ?? "" });
  await page.context().addCookies([{ name: "cagebook.session", value, url: environment().APP_URL ?? "", httpOnly: true, sameSite: "Lax" }]);
}

/** No accessibility rule of WCAG 2.2 AA is broken on the page once it has come to rest. */
export async function expectAccessible(page: Page): Promise<void> {
  await expect(async () => {
    const result = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]).analyze();
    expect(result.violations.map((violation) => `${violation.id}: ${violation.nodes.map((node) => node.target.join(" ")).join(", ")}`)).toEqual([]);
  }).toPass({ timeout: 30_000 });
}

/** A check that nothing sticks out sideways, and a picture for people to look at (where nobody looks, CI, none is painted). */
export async function look(page: Page, name: string): Promise<void> {
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(overflow, `${name} sticks out sideways`).toBeLessThanOrEqual(1);
  if (!process.env.CI) await page.screenshot({ path: `test-results/looks/${name}.png`, fullPage: true });
}

export const PHONE = { width: 390, height: 844 };

/** Every flow fails on a console error or an unhandled rejection. */
export const test = base.extend<{ quietConsole: void; allowedComplaint: string }>({
  // A pattern of the one complaint that a flow provokes on purpose (a refusal's status).
  allowedComplaint: ["", { option: true }],
  quietConsole: [
    async ({ page, allowedComplaint }, use) => {
      const complaints: string[] = [];
      page.on("console", (message) => {
        if (message.type() === "error") complaints.push(`${message.text()} (${message.location().url})`);
      });
      page.on("pageerror", (error) => complaints.push(String(error)));
      await use();
      expect(complaints.filter((line) => !allowedComplaint || !new RegExp(allowedComplaint).test(line))).toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };
