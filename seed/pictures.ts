import { mkdir } from "node:fs/promises";
import path from "node:path";
import { chromium, type Page } from "@playwright/test";
import { ensureChromium } from "@/lib/start/media-tools";
import { DEMO_PASSWORD } from "./demo/people";

// Takes the README's pictures of a house that runs with its demo: npm start, then npm run pictures [address].
const OUT = path.resolve("public/pictures");
const LAPTOP = { width: 1280, height: 800 };
const PHONE = { width: 390, height: 844 };

interface Visit {
  readonly who: string;
  readonly viewport: { readonly width: number; readonly height: number };
  readonly shots: readonly { readonly name: string; readonly go: (page: Page) => Promise<unknown> }[];
}

const inesPage = async (page: Page) => {
  await page.goto("/players");
  await page.getByRole("link", { name: "Ines Corvane", exact: true }).click();
  await page.waitForURL(/\/players\/./);
};

const VISITS: readonly Visit[] = [
  {
    who: "marlow@quillet.example",
    viewport: LAPTOP,
    shots: [
      { name: "cage-day", go: (page) => page.goto("/cage-day") },
      {
        name: "swing-view",
        go: async (page) => {
          await inesPage(page);
          await page.locator('a[href^="/swings/"]').last().click();
          await page.locator("canvas[data-frame-index]").waitFor();
        },
      },
      {
        name: "what-first",
        go: async (page) => {
          await inesPage(page);
          await page.getByRole("link", { name: "What first" }).first().click();
          await page.waitForURL(/what-first/);
        },
      },
    ],
  },
  { who: "ines.c", viewport: PHONE, shots: [{ name: "today", go: (page) => page.goto("/today") }] },
];

async function main(base: string): Promise<void> {
  await mkdir(OUT, { recursive: true });
  const browser = await chromium.launch({ executablePath: ensureChromium(undefined), args: ["--no-sandbox", "--disable-gpu"] });
  for (const { who, viewport, shots } of VISITS) {
    const page = await browser.newPage({ baseURL: base, viewport, colorScheme: "light" });
    await page.goto("/sign-in");
    await page.getByLabel("Mail address or user name").fill(who);
    await page.getByLabel("Password", { exact: true }).fill(DEMO_PASSWORD);
    await page.getByRole("button", { name: "Sign in" }).click();
    await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
    for (const { name, go } of shots) {
      await go(page);
      await page.waitForTimeout(2500);
      await page.screenshot({ path: path.join(OUT, `${name}.jpg`), type: "jpeg", quality: 82 });
      console.log(`public/pictures/${name}.jpg`);
    }
    await page.close();
  }
  await browser.close();
}

main(process.argv[2] ?? "http://localhost:3000").catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
