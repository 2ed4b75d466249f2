import { beforeAll, describe, expect, test } from "vitest";
import { buildAcademy, buildAssignment, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildLibrary } from "@/seed/builders/library";
import { buildSwing } from "@/seed/builders/swings";
import type { Actor } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { canonicalJson } from "@/lib/core/canonical-json";
import type { Id } from "@/lib/core/ids";
import { readEdition } from "@/lib/domains/library/scope";
import { callFault, chooseFocus, overruleFault, undoOverrule } from "@/lib/domains/observations/actions";
import { answerQuestion, askForOrder, noteCue, takeBackAnswer } from "@/lib/domains/observations/asking/actions";
import { getCoachViews } from "@/lib/domains/observations/coaches/queries";
import { listOverruleHints } from "@/lib/domains/observations/overruling/queries";
import { getFoci, getWhatFirst } from "@/lib/domains/observations/queries";
import { callSymptom, noteBall, takeBackBall } from "@/lib/domains/observations/tally/actions";
import { getTally } from "@/lib/domains/observations/tally/queries";
import { workOutOrder } from "@/lib/domains/observations/working-out/jobs";
import { workOut, type RunInput } from "@/lib/domains/observations/working-out/rules";
import { database } from "@/lib/platform/database";

let academyId: Id;
let locationId: Id;
let coachId: Id;
let headId: Id;
let coach: Actor;
let head: Actor;

const actorFor = async (userId: Id, activeRole: "coach" | "head-coach") => findActor((await buildSession({ academyId, userId, activeRole })).id);

beforeAll(async () => {
  academyId = (await buildAcademy()).id;
  locationId = (await buildLocation({ academyId })).id;
  await buildLibrary(academyId);
  coachId = (await buildUser({ academyId, displayName: "Marlow Tessen", roles: ["coach"] })).id;
  headId = (await buildUser({ academyId, displayName: "Ada Head", roles: ["head-coach"] })).id;
  head = await actorFor(headId, "head-coach");
});

/** A player with one swing off the tee from the right, of the age of a level. */
async function taught(birthDate = "2013-05-05") {
  const player = await buildPlayer({ academyId, locationId, birthDate });
  await buildAssignment({ academyId, playerId: player.id, userId: coachId });
  coach = await actorFor(coachId, "coach");
  const swing = await buildSwing({ academyId, playerId: player.id, createdById: coachId });
  const here = { playerId: player.id, side: "right" as const };
  const call = async (state: "seen" | "not-seen", faultIds: readonly string[], by: Actor = coach) => {
    for (const faultId of faultIds) await callFault.as(by, { ...here, swingId: swing.id, faultId, state });
  };
  return { here, swing, call };
}

const TIME = 240_000;
const NINE = "2017-05-05";

describe("the worked case of a nine-year-old whose barrel drags", () => {
  test("asks for the one-hand hold, keeps the answer, and the answer changes what is asked first; taken back, all is as before", async () => {
    const { here, call } = await taught(NINE);
    await call("seen", ["barrel-drag", "back-elbow-leads"]);
    await call("not-seen", ["front-shoulder-opens", "trunk-fold"]);
    const before = await getWhatFirst.as(coach, here);
    expect(before.candidates[0]?.faultId).toBe("back-elbow-leads");
    expect(before.question?.questionId).toBe("one-hand-hold");
    expect(before.question?.answers.map(({ id }) => id)).toEqual(["holds", "wobbles", "drops"]);
    expect(before.question?.answers.every(({ then }) => then !== "")).toBe(true);

    await answerQuestion.as(coach, { ...here, questionId: "one-hand-hold", answer: "holds" });
    const after = await getWhatFirst.as(coach, here);
    expect(after.question?.questionId).not.toBe("one-hand-hold");
    expect(after.answers).toMatchObject([{ questionId: "one-hand-hold", isStanding: true }]);
    expect(after.askFirst.map(({ nodeId }) => nodeId)).not.toEqual(before.askFirst.map(({ nodeId }) => nodeId));
    await expect(answerQuestion.as(coach, { ...here, questionId: "one-hand-hold", answer: "nonsense" })).rejects.toThrow(/no answer/);
    await expect(answerQuestion.as(coach, { ...here, questionId: "pain-today", answer: "some" })).rejects.toThrow(/Pain is not weighed/);

    await takeBackAnswer.as(coach, { ...here, questionId: "one-hand-hold" });
    const back = await getWhatFirst.as(coach, here);
    expect(back.question).toEqual(before.question);
    expect(back.askFirst).toEqual(before.askFirst);
  }, TIME);

  test("an answer that is too old is shown and counts no more", async () => {
    const { here, call } = await taught(NINE);
    await call("seen", ["barrel-drag", "back-elbow-leads"]);
    await answerQuestion.as(coach, { ...here, questionId: "one-hand-hold", answer: "drops" });
    await database().questionAnswer.updateMany({ where: { playerId: here.playerId }, data: { answeredOn: new Date("2026-01-05") } });
    const view = await getWhatFirst.as(coach, here);
    expect(view.answers).toMatchObject([{ isStanding: false }]);
    expect(view.question?.questionId).toBe("one-hand-hold");
  }, TIME);
});

describe("the contact tally", () => {
  test("alone makes an order, before anybody has called anything, and takes it away again", async () => {
    const { here } = await taught();
    expect((await getWhatFirst.as(coach, here)).isAnythingKnown).toBe(false);
    for (let i = 0; i < 8; i++) await noteBall.as(coach, { ...here, task: "toss", swingKind: "power", pitchHeight: "high", press: i < 5 ? "miss" : "weak", height: "pop", direction: "middle" });
    const tally = await getTally.as(coach, here);
    expect(tally.symptoms.find(({ symptomId }) => symptomId === "miss-up")).toMatchObject({ state: "seen", isCalled: false });
    const view = await getWhatFirst.as(coach, here);
    expect(view.symptoms.map(({ symptomId }) => symptomId)).toContain("miss-up");
    expect(view.isAnythingKnown).toBe(true);
    await callSymptom.as(coach, { ...here, symptomId: "miss-up", state: "not-seen" });
    expect((await getTally.as(coach, here)).symptoms.find(({ symptomId }) => symptomId === "miss-up")).toMatchObject({ state: "not-seen", isCalled: true });
    await callSymptom.as(coach, { ...here, symptomId: "miss-up", state: "take-back" });
    for (const { id } of tally.balls) await takeBackBall.as(coach, { ...here, ballId: id });
    expect((await getWhatFirst.as(coach, here)).isAnythingKnown).toBe(false);
  }, TIME);

  test("refuses what no list of the library holds, and a running slap of somebody who is no slapper", async () => {
    const { here } = await taught();
    await expect(noteBall.as(coach, { ...here, task: "moon", swingKind: "power", press: "hard" })).rejects.toThrow(/no task “moon”/);
    await expect(noteBall.as(coach, { ...here, task: "tee", swingKind: "running-slap", press: "hard" })).rejects.toThrow(/not taken as a slapper/);
  }, TIME);
});

describe("the worker", () => {
  test("finds out once whether the first is steady, and the page says it; another call asks anew", async () => {
    const { here, call } = await taught();
    await call("seen", ["back-foot-overspin", "front-shoulder-opens", "trunk-fold", "barrel-drag", "back-elbow-no-load"]);
    await call("not-seen", ["step-out", "lunge-forward", "front-leg-soft", "casting", "standing-up"]);
    const before = await getWhatFirst.as(coach, here);
    expect(before.steadiness).toBeNull();
    expect(before.workDue).not.toBeNull();
    await askForOrder.as(coach, here);
    await askForOrder.as(coach, here);
    const [work, ...more] = await database().rankingWork.findMany({ where: { playerId: here.playerId } });
    expect(more).toEqual([]);
    expect((await workOutOrder.perform({ workId: work?.id }, false)).is).toBe("done");
    expect((await workOutOrder.perform({ workId: work?.id }, false)).is).toBe("skipped");
    const after = await getWhatFirst.as(coach, here);
    expect(after.steadiness).toEqual({ isSteady: expect.any(Boolean), instead: after.steadiness?.instead ?? null });
    expect(after.workDue).toBeNull();
    await call("not-seen", ["dive-in"]);
    expect((await getWhatFirst.as(coach, here)).workDue).not.toBeNull();
  }, TIME);

  test("finds the reasons and the next question of an order for which a page does not wait; the order itself is there at once and exact", async () => {
    const { here } = await taught();
    for (const symptomId of ["bp-not-game", "miss-offspeed", "off-end", "pull-side-rollover", "frozen"]) await callSymptom.as(coach, { ...here, symptomId, state: "seen" });
    const before = await getWhatFirst.as(coach, here);
    expect(before).toMatchObject({ sampledError: null, question: null });
    expect(before.candidates.map(({ reasons }) => reasons)).toEqual([null, null, null]);
    await askForOrder.as(coach, here);
    const work = await database().rankingWork.findFirstOrThrow({ where: { playerId: here.playerId } });
    expect((await workOutOrder.perform({ workId: work.id }, false)).is).toBe("done");
    const after = await getWhatFirst.as(coach, here);
    expect(after.candidates.map(({ faultId }) => faultId)).toEqual(before.candidates.map(({ faultId }) => faultId));
    expect(after.candidates[0]?.reasons?.raisedBy.length).toBeGreaterThan(0);
    const asked = after.question?.questionId ?? "";
    await answerQuestion.as(coach, { ...here, questionId: asked, answer: after.question?.answers[0]?.id ?? "" });
    expect((await getWhatFirst.as(coach, here)).question?.questionId).not.toBe(asked);
  }, TIME);
});

describe("overruling and what it tells", () => {
  test("the head coach sees how often and why, taken back ones too, with the links that put it there; the run is the same bit for bit", async () => {
    const { here, call } = await taught();
    await call("seen", ["back-foot-overspin", "front-shoulder-opens", "barrel-drag"]);
    await overruleFault.as(coach, { ...here, faultId: "back-foot-overspin", reason: "the shoe slipped on turf" });
    const [overruled] = (await getWhatFirst.as(coach, here)).overruled;
    await undoOverrule.as(coach, { ...here, overruleId: overruled?.id ?? "" });
    await overruleFault.as(coach, { ...here, faultId: "back-foot-overspin", reason: "it was the tee set deep" });
    const hint = (await listOverruleHints.as(head, {})).find(({ faultId }) => faultId === "back-foot-overspin");
    expect(hint).toMatchObject({ count: 2, takenBack: 1, coachCount: 1, playerCount: 1 });
    expect(hint?.reasons.map(({ reason }) => reason).sort()).toEqual(["it was the tee set deep", "the shoe slipped on turf"]);
    expect(hint?.links.length).toBeGreaterThan(0);
    const run = await database().rankingRun.findFirstOrThrow({ where: { playerId: here.playerId }, orderBy: { ranAt: "asc" } });
    const parts = await readEdition(database(), academyId, run.editionId);
    expect(canonicalJson(workOut(parts, run.input as unknown as RunInput))).toBe(canonicalJson(run.output));
  }, TIME);

  test("two coaches' views of one swing stand side by side, what they differ in first", async () => {
    const { here, swing, call } = await taught();
    await call("seen", ["back-foot-overspin", "front-shoulder-opens"]);
    await call("seen", ["front-shoulder-opens"], head);
    await call("not-seen", ["back-foot-overspin"], head);
    const view = await getCoachViews.as(coach, { ...here, swingId: swing.id });
    expect(view.coaches.map(({ name }) => name).sort()).toEqual(["Ada Head", "Marlow Tessen"]);
    expect(view.rows.map(({ faultId, isDifferent }) => [faultId, isDifferent])).toEqual([["back-foot-overspin", true], ["front-shoulder-opens", false]]);
    const firstOf = (name: string) => view.coaches.find((one) => one.name === name)?.first[0];
    expect(firstOf("Marlow Tessen")).toBe("Over-spinning the back foot");
    expect(firstOf("Ada Head")).not.toBe("Over-spinning the back foot");
    expect((await getWhatFirst.as(coach, here)).coachCount).toBe(2);
  }, TIME);
});

test("the words that clicked stand first for that player only, and can be taken back", async () => {
  const [one, other] = [await taught(), await taught()];
  for (const { here } of [one, other]) await chooseFocus.as(coach, { ...here, faultId: "barrel-drag" });
  const usual = (await getFoci.as(coach, other.here)).active[0]?.cue;
  await noteCue.as(coach, { ...one.here, faultId: "barrel-drag", ownCue: "knock on the door" });
  expect((await getFoci.as(coach, one.here)).active[0]).toMatchObject({ cue: "knock on the door", hasClicked: true });
  expect((await getFoci.as(coach, other.here)).active[0]).toMatchObject({ cue: usual, hasClicked: false });
  await noteCue.as(coach, { ...one.here, faultId: "barrel-drag", cue: "" });
  expect((await getFoci.as(coach, one.here)).active[0]).toMatchObject({ cue: usual, hasClicked: false });
}, TIME);
