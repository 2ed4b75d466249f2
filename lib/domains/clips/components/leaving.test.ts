import { describe, expect, test } from "vitest";
import { afterWaiting, leavesPage, type Press } from "./leaving";

const here = "http://cage.test/swings/a?clip=1";
const press = (href: string | null, more: Partial<Press> & { readonly target?: string; readonly isDownload?: boolean } = {}): Press => ({
  button: 0, hasModifier: false, ...more, link: href === null ? null : { href, target: more.target ?? "", isDownload: more.isDownload ?? false },
});

describe("leaving while a change is on its way", () => {
  test("a link to another page, another clip or another house leaves", () => {
    for (const href of ["/players/b", "/swings/a?clip=2", "/swings/a", "http://elsewhere.test/swings/a?clip=1"]) expect(leavesPage(press(href), here), href).toBe(true);
  });
  test("what stays on the page or opens elsewhere does not: a place of this page, a new window, a download, a letter, a press on nothing", () => {
    for (const one of [press("#marks"), press("/swings/a?clip=1#marks"), press("/players/b", { hasModifier: true }), press("/players/b", { button: 1 }), press("/players/b", { target: "_blank" }), press("/film", { isDownload: true }), press("mailto:a@cage.test"), press(null)]) {
      expect(leavesPage(one, here)).toBe(false);
    }
  });
  test("one goes when all is kept, and stays when something was not, however much else is on its way", () => {
    expect([afterWaiting(2, false), afterWaiting(0, false), afterWaiting(0, true), afterWaiting(1, true)]).toEqual(["wait", "go", "stay", "stay"]);
  });
});
