import { describe, expect, test } from "vitest";
import { readSettings } from "./settings";

const good = { DATABASE_URL: "postgresql://localhost/x", AUTH_SECRET: "s".repeat(32) };

describe("settings", () => {
  test("what is left out takes its stated default", () => {
    expect(readSettings(good)).toMatchObject({ APP_URL: "http://localhost:3000", DEMO: "off", FFMPEG_PATH: "ffmpeg" });
  });

  test.each([
    ["DATABASE_URL", { ...good, DATABASE_URL: "mysql://x" }],
    ["DATABASE_URL", { AUTH_SECRET: good.AUTH_SECRET }],
    ["AUTH_SECRET", { ...good, AUTH_SECRET: "short" }],
    ["APP_URL", { ...good, APP_URL: "cage" }],
    ["UPLOAD_MAX_BYTES", { ...good, UPLOAD_MAX_BYTES: "lots" }],
    ["MAIL_URL", { ...good, MAIL_URL: "http://mail" }],
  ])("a wrong %s is refused in a sentence that names it", (name, environment) => {
    expect(() => readSettings(environment)).toThrow(new RegExp(`^Setting ${name} .+\\.$`));
  });

  test("every wrong setting is named, not only the first", () => {
    expect(() => readSettings({ DATABASE_URL: "x", AUTH_SECRET: "y" })).toThrow(/DATABASE_URL[\s\S]*AUTH_SECRET/);
  });

  test("an empty setting counts as left out", () => {
    expect(readSettings({ ...good, APP_URL: "" }).APP_URL).toBe("http://localhost:3000");
  });
});
