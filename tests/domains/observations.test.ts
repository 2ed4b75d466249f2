import { beforeAll, describe, expect, test } from "vitest";
import { buildAcademy, buildAssignment, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildLibrary } from "@/seed/builders/library";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import type { Actor } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { canonicalJson } from "@/lib/core/canonical-json";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { readEdition } from "@/lib/domains/library/scope";
import { answerCause, callFault, chooseFocus, endFocus, overruleFault, parkFocus, resumeFocus, undoOverrule } from "@/lib/domains/observations/actions";
import { workOut, type RunInput } from "@/lib/domains/observations/working-out/rules";
import { database } from "@/lib/platform/database";

let academyId: Id;
let locationId: Id;
let coachId: Id;
let coach: Actor;
let head: Actor;

const actorFor = async (userId: Id, activeRole: "coach" | "head-coach") => findActor((await buildSession({ academyId, userId, activeRole })).id);

beforeAll(async () => {
  academyId = (await buildAcademy()).id;
  locationId = (await buildLocation({ academyId })).id;
  await buildLibrary(academyId);
  coachId = (await buildUser({ academyId, displayName: "Marlow Tessen", roles: ["coach"] })).id;
  head = await actorFor((await buildUser({ academyId, displayName: "Ada Head", roles: ["head-coach"] })).id, "head-coach");
});

/** A player of thirteen who bats right, with one swing off the tee. */
async function taught(given: { birthDate?: string; bats?: "right" | "left" | "both"; sport?: "baseball" | "softball" } = {}) {
  const player = await buildPlayer({ academyId, locationId, birthDate: given.birthDate ?? "2013-05-05", bats: given.bats, sport: given.sport });
  await buildAssignment({ academyId, playerId: player.id, userId: coachId });
  coach = await actorFor(coachId, "coach");
  const swing = await buildSwing({ academyId, playerId: player.id, createdById: coachId, side: given.bats === "left" ? "left" : "right" });
  const here = { playerId: player.id, side: swing.side as "right" | "left" };
  const call = (faultId: string, state: "seen" | "not-seen" | "not-visible" | "take-back", more: object = {}) =>
    callFault.as(coach, { ...here, swingId: swing.id, faultId, state, ...more });
  return { player, swing, here, call };
}

const callsOf = (swingId: Id) => database().observation.findMany({ where: { swingId }, orderBy: [{ calledAt: "asc" }, { id: "asc" }] });
const lastRun = (playerId: Id) => database().rankingRun.findFirstOrThrow({ where: { playerId }, orderBy: { ranAt: "desc" } });

describe("a call", () => {
  test("replaces the coach's own earlier one, and the earlier one is kept", async () => {
    const { swing, call } = await taught();
    await call("barrel-drag", "seen");
    await call("barrel-drag", "not-seen");
    const rows = await callsOf(swing.id);
    expect(rows.map(({ state, source, replacedAt }) => [state, source, replacedAt === null])).toEqual([["seen", "eye", false], ["not-seen", "eye", true]]);
    expect(rows[0]?.editionId).toBe((await database().edition.findFirstOrThrow({ where: { academyId } })).id);
    await call("barrel-drag", "take-back");
    expect((await callsOf(swing.id)).filter(({ replacedAt }) => replacedAt === null)).toEqual([]);
  });

  test("of another coach stands beside it", async () => {
    const { swing, here, call } = await taught();
    await call("barrel-drag", "seen");
    await callFault.as(head, { ...here, swingId: swing.id, faultId: "barrel-drag", state: "not-seen" });
    expect((await callsOf(swing.id)).filter(({ replacedAt }) => replacedAt === null)).toHaveLength(2);
  });

  test("keeps the reading as it was and the frame it came from", async () => {
    const { swing, call } = await taught();
    const clipId = swing.clips[0]?.id ?? "";
    const { id: editionId } = await database().edition.findFirstOrThrow({ where: { academyId } });
    await buildReading({ academyId, swingId: swing.id, clipId, editionId, checkpointId: "front-knee-firming", value: -12, sd: 2, verdict: "talk-about", frameIndex: 88 });
    await call("front-leg-soft", "seen", { source: "both" });
    const [row] = await callsOf(swing.id);
    expect(row).toMatchObject({ source: "both", clipId, frameIndex: 88, reading: { checkpointId: "front-knee-firming", value: -12, verdict: "talk-about" } });
    await database().reading.updateMany({ where: { swingId: swing.id }, data: { value: 3 } });
    expect((await callsOf(swing.id))[0]?.reading).toMatchObject({ value: -12 });
  });

  test("by a reading needs a reading that speaks", async () => {
    const { call } = await taught();
    await expect(call("barrel-drag", "seen", { source: "reading" })).rejects.toThrow(/No reading speaks/);
  });

  test("of a fault that is unknown, retired or of slappers only is refused in a sentence", async () => {
    const { call } = await taught();
    await expect(call("no-such-fault", "seen")).rejects.toThrow(new InvalidError('The library has no fault "no-such-fault". Nothing was changed.'));
    await expect(call("slap-early-leave", "seen")).rejects.toThrow(InvalidError);
    await database().fault.update({ where: { academyId_id: { academyId, id: "trunk-fold" } }, data: { retiredAt: new Date() } });
    await expect(call("trunk-fold", "seen")).rejects.toThrow(/was retired/);
    await database().fault.update({ where: { academyId_id: { academyId, id: "trunk-fold" } }, data: { retiredAt: null } });
  });

  test("on a swing of the other side, of a side without a record, or of somebody else is refused", async () => {
    const { player, swing, here } = await taught({ bats: "both" });
    const asked = { swingId: swing.id, faultId: "barrel-drag", state: "seen" as const };
    await expect(callFault.as(coach, { playerId: player.id, side: "left", ...asked })).rejects.toThrow(/taken from the right side/);
    const other = await taught();
    await expect(callFault.as(coach, { ...other.here, side: "left", ...asked })).rejects.toThrow(/no record for the left side/);
    await expect(callFault.as(coach, { ...other.here, ...asked })).rejects.toThrow(NotFoundError);
    expect(here.side).toBe("right");
  });
});

describe("a ranking run", () => {
  /** The library's worked case "twist", called by a coach. */
  async function twist() {
    const made = await taught();
    for (const id of ["back-foot-overspin", "front-shoulder-opens", "trunk-fold", "barrel-drag", "back-elbow-no-load"]) await made.call(id, "seen");
    for (const id of ["step-out", "lunge-forward"]) await made.call(id, "not-seen");
    await chooseFocus.as(coach, { ...made.here, faultId: "back-foot-overspin" });
    return made;
  }

  test("gives what the library's worked case says, through the real calls", async () => {
    const { player } = await twist();
    const run = await lastRun(player.id);
    const output = run.output as { candidates: { id: string }[]; askFirst: { id: string }[] };
    expect(output.candidates.map(({ id }) => id)).toEqual(["back-foot-overspin", "no-back-hip-load", "front-shoulder-opens"]);
    expect(output.askFirst.slice(0, 2).map(({ id }) => id)).toEqual(["ins-spin-foot", "tim-no-start-cue"]);
  });

  test("is made again bit for bit from what was stored", async () => {
    const { player } = await twist();
    const run = await lastRun(player.id);
    const parts = await readEdition(database(), academyId, run.editionId);
    expect(canonicalJson(workOut(parts, run.input as unknown as RunInput))).toBe(canonicalJson(run.output));
  });

  test("is kept once while nothing changes, and never changed", async () => {
    const { player, here } = await twist();
    await chooseFocus.as(coach, { ...here, faultId: "barrel-drag" });
    expect(await database().rankingRun.count({ where: { playerId: player.id } })).toBe(1);
    await answerCause.as(coach, { ...here, nodeId: "ins-spin-foot", answer: "yes" });
    await overruleFault.as(coach, { ...here, faultId: "no-back-hip-load", reason: "loads well off live pitching" });
    expect(await database().rankingRun.count({ where: { playerId: player.id } })).toBe(2);
    await expect(database().rankingRun.updateMany({ where: { playerId: player.id }, data: { engineVersion: "0" } })).rejects.toThrow(/never changed/);
  });
});

describe("an answer to what is asked first", () => {
  test("is kept, replaced and taken back", async () => {
    const { player, here } = await taught();
    await answerCause.as(coach, { ...here, nodeId: "eq-bat-heavy", answer: "yes" });
    await answerCause.as(coach, { ...here, nodeId: "eq-bat-heavy", answer: "no" });
    await answerCause.as(coach, { ...here, nodeId: "eq-bat-heavy", answer: "not-asked" });
    const rows = await database().causeAnswer.findMany({ where: { playerId: player.id }, orderBy: { answeredAt: "asc" } });
    expect(rows.map(({ isPresent, replacedAt }) => [isPresent, replacedAt !== null])).toEqual([[true, true], [false, true]]);
  });
  test("about pain, a fault or nothing known is refused", async () => {
    const { here } = await taught();
    await expect(answerCause.as(coach, { ...here, nodeId: "phys-pain", answer: "yes" })).rejects.toThrow(/report it/);
    await expect(answerCause.as(coach, { ...here, nodeId: "barrel-drag", answer: "yes" })).rejects.toThrow(InvalidError);
  });
});

describe("overruling", () => {
  test("needs a reason of three words, and is kept with the run it was based on", async () => {
    const { player, here, call } = await taught();
    await call("barrel-drag", "seen");
    await expect(overruleFault.as(coach, { ...here, faultId: "barrel-drag", reason: "no, wrong" })).rejects.toThrow(/three words/);
    await overruleFault.as(coach, { ...here, faultId: "barrel-drag", reason: "bat was borrowed" });
    const run = await lastRun(player.id);
    expect(await database().overrule.findFirstOrThrow({ where: { playerId: player.id } })).toMatchObject({ rankingRunId: run.id, reason: "bat was borrowed" });
    await expect(overruleFault.as(coach, { ...here, faultId: "barrel-drag", reason: "said it once more" })).rejects.toThrow(/overruled already/);
  });
  test("is undone once, by whoever teaches, and stays on the record", async () => {
    const { player, here } = await taught();
    await overruleFault.as(coach, { ...here, faultId: "barrel-drag", reason: "bat was borrowed" });
    const { id: overruleId } = await database().overrule.findFirstOrThrow({ where: { playerId: player.id } });
    await undoOverrule.as(head, { ...here, overruleId });
    await expect(undoOverrule.as(head, { ...here, overruleId })).rejects.toThrow(/undone already/);
    expect(await database().overrule.count({ where: { playerId: player.id } })).toBe(1);
  });
});

describe("the focus", () => {
  const active = (playerId: Id) => database().focus.findMany({ where: { playerId, state: "active" }, orderBy: { slot: "asc" } });

  test("is at most two things: a third is refused with the names of both, and may park one", async () => {
    const { player, here } = await taught();
    await chooseFocus.as(coach, { ...here, faultId: "barrel-drag" });
    await chooseFocus.as(coach, { ...here, faultId: "front-leg-soft" });
    const third = { ...here, faultId: "trunk-fold" };
    await expect(chooseFocus.as(coach, third)).rejects.toThrow(/^Two things are in focus already: “.+” and “.+”\. Say which one to park/);
    const [first] = await active(player.id);
    await chooseFocus.as(coach, { ...third, parkId: first?.id });
    expect((await active(player.id)).map(({ faultId, slot }) => [faultId, slot])).toEqual([["trunk-fold", 1], ["front-leg-soft", 2]]);
    expect(await database().focus.count({ where: { playerId: player.id, state: "parked", faultId: "barrel-drag" } })).toBe(1);
  });

  test("is counted per batting side", async () => {
    const { player, here } = await taught({ bats: "both" });
    for (const faultId of ["barrel-drag", "front-leg-soft"]) for (const side of ["right", "left"] as const) await chooseFocus.as(coach, { ...here, side, faultId });
    expect(await active(player.id)).toHaveLength(4);
  });

  test("never holds three, however many choose at once, and whoever is refused reads why", async () => {
    const { player, here } = await taught();
    const chosen = await Promise.allSettled(["barrel-drag", "front-leg-soft", "trunk-fold", "step-out"].map((faultId) => chooseFocus.as(coach, { ...here, faultId })));
    const refused = chosen.flatMap((one) => (one.status === "rejected" ? [one.reason as unknown] : []));
    expect(refused.length).toBeGreaterThanOrEqual(2);
    for (const reason of refused) expect(reason).toBeInstanceOf(ConflictError);
    expect((await active(player.id)).length).toBe(4 - refused.length);
    expect((await active(player.id)).length).toBeLessThanOrEqual(2);
  });

  test("is parked, taken up again as the same focus, and ended", async () => {
    const { player, here } = await taught();
    await chooseFocus.as(coach, { ...here, faultId: "barrel-drag" });
    const [focus] = await active(player.id);
    const focusId = focus?.id ?? "";
    await parkFocus.as(coach, { ...here, focusId });
    await expect(parkFocus.as(coach, { ...here, focusId })).rejects.toThrow(ConflictError);
    await resumeFocus.as(coach, { ...here, focusId });
    expect((await active(player.id)).map(({ id }) => id)).toEqual([focusId]);
    await expect(chooseFocus.as(coach, { ...here, faultId: "barrel-drag" })).rejects.toThrow(/in focus already/);
    await endFocus.as(coach, { ...here, focusId });
    expect(await active(player.id)).toEqual([]);
    await expect(endFocus.as(coach, { ...here, focusId: newId() })).rejects.toThrow(NotFoundError);
  });
});
