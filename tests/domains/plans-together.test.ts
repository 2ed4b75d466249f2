import { beforeAll, describe, expect, test } from "vitest";
import { OvertakenError } from "@/lib/core/errors";
import { type Id } from "@/lib/core/ids";
import * as actions from "@/lib/domains/plans/actions";
import { database } from "@/lib/platform/database";
import { actorFor, buildHouse, CANARY, drafted, headId, WORDS } from "./plan-story";

beforeAll(buildHouse);

describe("two coaches at one note", () => {
  const PARTS = { keptWell: WORDS.keptWell, oneThing: WORDS.oneThing, why: WORDS.why, forFamily: WORDS.forFamily };
  const was = JSON.stringify(PARTS);
  const keptOf = async (planId: Id) => database().note.findUniqueOrThrow({ where: { planId }, select: { keptWell: true, oneThing: true, why: true, forFamily: true } });

  test("who write different parts lose nothing, and the later one is told", async () => {
    const { coach, planId } = await drafted();
    const head = await actorFor(headId, "head-coach");
    await actions.writeNote.as(head, { planId, ...PARTS, why: "The chest waits a blink longer then.", was });
    const outcome = await actions.writeNote.as(coach, { planId, ...PARTS, forFamily: "A few minutes are enough.", was });
    expect(outcome.message).toContain("Ada Head wrote “Why” meanwhile; that stands too.");
    expect(await keptOf(planId)).toEqual({ ...PARTS, why: "The chest waits a blink longer then.", forFamily: "A few minutes are enough." });
  });

  test("who write the same part: the earlier stands, the later is told by whom, sees it, and may put the own over it", async () => {
    const { coach, planId, page } = await drafted();
    const head = await actorFor(headId, "head-coach");
    await actions.writeNote.as(head, { planId, ...PARTS, why: "Theirs.", was });
    const mine = { planId, ...PARTS, why: "Mine." };
    await expect(actions.writeNote.as(coach, { ...mine, was })).rejects.toThrow(new OvertakenError("Ada Head was faster with “Why”. Both are shown; nothing of either is lost."));
    expect((await keptOf(planId)).why).toBe("Theirs.");
    const { draft } = await page();
    expect(draft).toMatchObject({ words: { why: "Theirs." }, writtenBy: "Ada Head" });
    await actions.writeNote.as(coach, { ...mine, was: JSON.stringify({ ...PARTS, why: "Theirs." }) });
    expect((await keptOf(planId)).why).toBe("Mine.");
  });

  test("at the very same moment: one is kept, the other is told", async () => {
    const { coach, planId } = await drafted();
    const head = await actorFor(headId, "head-coach");
    const done = await Promise.allSettled([actions.writeNote.as(head, { planId, ...PARTS, why: "Theirs.", was }), actions.writeNote.as(coach, { planId, ...PARTS, why: "Mine.", was })]);
    expect(done.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    expect((done.find((one) => one.status === "rejected") as PromiseRejectedResult).reason).toBeInstanceOf(OvertakenError);
  });

  test("hold for the staff's words and the cue as well", async () => {
    const { coach, planId } = await drafted();
    const head = await actorFor(headId, "head-coach");
    await actions.writePrivateNote.as(head, { planId, words: "Theirs.", was: JSON.stringify({ words: CANARY }) });
    await expect(actions.writePrivateNote.as(coach, { planId, words: "Mine.", was: JSON.stringify({ words: CANARY }) })).rejects.toThrow(/^Ada Head was faster/);
    await actions.chooseCue.as(head, { planId, cue: "Belt first", was: "Send your belt at the pitcher first" });
    await expect(actions.chooseCue.as(coach, { planId, cue: "", ownCue: "Belt, then foot", was: "Send your belt at the pitcher first" })).rejects.toThrow(/“Belt first” was chosen .* You had “Belt, then foot”/);
  });

  test("what was changed since the preview is not sent unseen", async () => {
    const { coach, planId, page, drillId } = await drafted();
    const seen = (await page()).draft!.letterSeen;
    const head = await actorFor(headId, "head-coach");
    await actions.setDose.as(head, { planId, drillId, timesPerDay: 3, minutesPerDay: 3 });
    await expect(actions.sendNote.as(coach, { planId, seen })).rejects.toThrow(/The draft was changed since you looked at it/);
    await actions.sendNote.as(coach, { planId, seen: (await page()).draft!.letterSeen });
  });

  test("a forged account of what was seen is refused in a sentence", async () => {
    const { coach, planId } = await drafted();
    await expect(actions.writeNote.as(coach, { planId, ...PARTS, was: "{" })).rejects.toThrow(/Look at the page again/);
  });
});
