import { describe, expect, test } from "vitest";
import { deviceWords, passwordProblem, roleToBeginIn } from "./rules";

describe("passwords", () => {
  test("ten characters of any kind are enough, nine are not", () => {
    expect(passwordProblem("aaaaaaaaaa", [])).toBeNull();
    expect(passwordProblem("aB3$aB3$a", [])).toMatch(/at least 10/);
  });

  test("the name itself is refused, however it is spaced or written large", () => {
    expect(passwordProblem("MarlowTessen", ["Marlow Tessen", null])).toMatch(/name itself/);
    expect(passwordProblem("kim@example.test", [null, "Kim@example.test"])).toMatch(/name itself/);
    expect(passwordProblem("Marlow Tessen swings", ["Marlow Tessen"])).toBeNull();
  });

  test("an endless password is refused before it is worked on", () => {
    expect(passwordProblem("x".repeat(201), [])).toMatch(/at most 200/);
  });
});

describe("the role a session begins in", () => {
  test("is the one used last while it holds, else the first that does, else none", () => {
    expect(roleToBeginIn(["coach", "guardian"], "guardian")).toBe("guardian");
    expect(roleToBeginIn(["coach", "guardian"], "admin")).toBe("coach");
    expect(roleToBeginIn([], "admin")).toBeNull();
  });
});

describe("device words", () => {
  test.each([
    ["Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605 Version/18.0 Mobile/15E148 Safari/604.1", "Safari on an iPhone"],
    ["Mozilla/5.0 (Linux; Android 15; Pixel) AppleWebKit/537 Chrome/140.0 Mobile Safari/537.36", "Chrome on an Android phone"],
    ["Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537 Chrome/140.0 Safari/537.36 Edg/140.0", "Edge on a Windows computer"],
    ["curl/8", "an unknown device"],
    [null, "an unknown device"],
  ])("%s is told as %s", (agent, words) => {
    expect(deviceWords(agent)).toBe(words);
  });
});
