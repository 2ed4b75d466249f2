import { expect, it } from "vitest";
import { solveLinearModel } from "./solver";

const MODEL = "Maximize\n sum: + 3 c0 + 2 c1\nSubject To\n m0: + 2 c0 + 2 c1 <= 3\nBounds\n 0 <= c0 <= 1\n 0 <= c1 <= 1\nGenerals\n c0\n c1\nEnd\n";

it("models asked for at once are solved each for itself, in a thread that leaves this one free", async () => {
  let turns = 0;
  const timer = setInterval(() => (turns += 1), 1);
  const answers = await Promise.all([MODEL, MODEL.replace("+ 3 c0", "+ 1 c0"), MODEL.replace("<= 3", ">= 9")].map((text) => solveLinearModel(text, 30)));
  clearInterval(timer);
  expect(answers.map(({ status }) => status)).toEqual(["best", "best", "impossible"]);
  expect([answers[0]?.values, answers[1]?.values]).toEqual([{ c0: 1, c1: 0 }, { c0: 0, c1: 1 }]);
  expect(turns).toBeGreaterThan(1);
});

it("a text that is no model is an error, and the next model is solved all the same", async () => {
  await expect(solveLinearModel("rubbish", 30)).rejects.toThrow(/could not read the model/);
  expect((await solveLinearModel(MODEL, 30)).status).toBe("best");
});
