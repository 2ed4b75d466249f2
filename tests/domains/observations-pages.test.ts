import { beforeAll, describe, expect, test } from "vitest";
import { buildAcademy, buildAssignment, buildLocation, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildLibrary } from "@/seed/builders/library";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import type { Actor, Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { answerCause, callFault, chooseFocus, overruleFault } from "@/lib/domains/observations/actions";
import { seeReasoning } from "@/lib/domains/observations/policy";
import { getFoci, getPlayerOverview, getWhatFirst, listCageDay } from "@/lib/domains/observations/queries";
import { taughtPlayersScope } from "@/lib/domains/observations/scope";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import { database } from "@/lib/platform/database";

let academyId: Id;
let coachId: Id;
let editionId: Id;
let coach: Actor;

const actorOf = async (userId: Id, activeRole: Role) => findActor((await buildSession({ academyId, userId, activeRole })).id);

beforeAll(async () => {
  academyId = (await buildAcademy()).id;
  await buildLibrary(academyId);
  editionId = (await database().edition.findFirstOrThrow({ where: { academyId } })).id;
  coachId = (await buildUser({ academyId, displayName: "Marlow Tessen", roles: ["coach"] })).id;
});

async function taught(given: Parameters<typeof buildPlayer>[0] = {}) {
  const { id: locationId } = await buildLocation({ academyId });
  const player = await buildPlayer({ academyId, locationId, birthDate: "2013-05-05", ...given });
  await buildAssignment({ academyId, playerId: player.id, userId: coachId });
  coach = await actorOf(coachId, "coach");
  return { playerId: player.id, side: "right" as const };
}

const swingOf = (here: { playerId: Id; side: "right" | "left" }, more: Partial<Parameters<typeof buildSwing>[0]> = {}) =>
  buildSwing({ academyId, playerId: here.playerId, createdById: coachId, side: here.side, ...more });

const rowOf = async (here: { playerId: Id; side: "right" }, faultId: string, swingId?: Id) => {
  const { sections } = await getWhatFirst.as(coach, { ...here, swingId });
  return sections.flatMap(({ rows, others }) => [...rows, ...others]).find((row) => row.faultId === faultId);
};

describe("what first", () => {
  test("begins with the academy's three questions, then the rest; before any call nothing is recommended", async () => {
    const here = await taught();
    await swingOf(here);
    const view = await getWhatFirst.as(coach, here);
    expect(view.sections.map(({ id }) => id)).toEqual(["back-leg", "front-side", "back-arm", "rest"]);
    expect(view.sections.flatMap(({ rows, others }) => [...rows, ...others]).map(({ faultId }) => faultId)).not.toContain("slap-popup");
    expect(view).toMatchObject({ isAnythingKnown: false, candidates: [], swingWords: "One swing, off a tee, 25 November" });
  });

  test("without a swing says so and shows no rows", async () => {
    const here = await taught();
    expect(await getWhatFirst.as(coach, here)).toMatchObject({ swingInHandId: null, swingWords: null, sections: [], candidates: [] });
  });

  test("shows the readings of the swing in hand, what they propose, and the frame they came from", async () => {
    const here = await taught();
    const [newest, older] = [await swingOf(here), await swingOf(here, { filmedOn: "2026-11-20" })];
    const clipId = newest.clips[0]?.id ?? "";
    await buildReading({ academyId, swingId: newest.id, clipId, editionId, checkpointId: "front-knee-firming", value: -20, sd: 2, verdict: "talk-about", frameIndex: 77 });
    expect(await rowOf(here, "front-leg-soft")).toMatchObject({ proposal: "seen", still: { clipId, frameIndex: 77 }, settledAs: null, readings: [{ verdict: "talk-about" }] });
    expect(await rowOf(here, "front-leg-soft", older.id)).toMatchObject({ proposal: null, readings: [] });
  });

  test("a grey reading is shown with its reason and proposes nothing", async () => {
    const here = await taught();
    const swing = await swingOf(here);
    await buildReading({ academyId, swingId: swing.id, clipId: swing.clips[0]?.id ?? "", editionId, checkpointId: "front-knee-firming", value: -20, sd: 2, verdict: null, isGrey: true });
    expect(await rowOf(here, "front-leg-soft")).toMatchObject({ proposal: null, readings: [{ verdict: null, words: "Not sure enough to judge" }] });
  });

  test("what the readings say can be taken over as a call", async () => {
    const here = await taught();
    const swing = await swingOf(here);
    const call = { ...here, swingId: swing.id, faultId: "front-leg-soft", state: "as-read" as const };
    await expect(callFault.as(coach, call)).rejects.toThrow(/do not say enough/);
    await buildReading({ academyId, swingId: swing.id, clipId: swing.clips[0]?.id ?? "", editionId, checkpointId: "front-knee-firming", value: -20, sd: 2, verdict: "talk-about" });
    await callFault.as(coach, call);
    expect(await database().observation.findFirstOrThrow({ where: { swingId: swing.id } })).toMatchObject({ state: "seen", source: "reading" });
    expect(await rowOf(here, "front-leg-soft")).toMatchObject({ ownCall: "seen", count: { seen: 1, judged: 1, notVisible: 0 } });
  });

  test("names what a candidate explains, what speaks against it, and what raised it", async () => {
    const here = await taught();
    const swing = await swingOf(here);
    for (const faultId of ["back-foot-overspin", "front-shoulder-opens"]) await callFault.as(coach, { ...here, swingId: swing.id, faultId, state: "seen" });
    await callFault.as(coach, { ...here, swingId: swing.id, faultId: "front-leg-soft", state: "not-seen" });
    const view = await getWhatFirst.as(coach, here);
    const [first] = view.candidates;
    expect(first).toMatchObject({ faultId: "back-foot-overspin", word: "likely", against: ["Front leg stays soft"] });
    expect(first?.sentence).toMatch(/explains .*chest flies open early/);
    expect(first?.reasons?.raisedBy.map(({ words }) => words)).toContain("“Front side / chest flies open early”: seen");
    expect(first?.chain.text.length).toBe(first?.chain.links.length);
    expect(first?.chain.columns).toContain("launch");
    expect(view.candidates.every(({ reasons }) => reasons !== null)).toBe(true);
  });

  test("an overruled candidate stands apart with its reason, and the next one moves up", async () => {
    const here = await taught();
    const swing = await swingOf(here);
    for (const faultId of ["back-foot-overspin", "front-shoulder-opens", "barrel-drag"]) await callFault.as(coach, { ...here, swingId: swing.id, faultId, state: "seen" });
    const before = (await getWhatFirst.as(coach, here)).candidates.map(({ faultId }) => faultId);
    await overruleFault.as(coach, { ...here, faultId: before[0] ?? "", reason: "the foot slipped once" });
    const after = await getWhatFirst.as(coach, here);
    expect(after.candidates.map(({ faultId }) => faultId)).not.toContain(before[0]);
    expect(after.candidates).toHaveLength(before.length);
    expect(after.overruled).toMatchObject([{ faultId: before[0], reason: "the foot slipped once", by: "Marlow Tessen" }]);
  });

  test("what was answered is not asked again", async () => {
    const here = await taught();
    const swing = await swingOf(here);
    await callFault.as(coach, { ...here, swingId: swing.id, faultId: "back-foot-overspin", state: "seen" });
    const [toAsk] = (await getWhatFirst.as(coach, here)).askFirst;
    await answerCause.as(coach, { ...here, nodeId: toAsk?.nodeId ?? "", answer: "no" });
    const view = await getWhatFirst.as(coach, here);
    expect(view.askFirst.map(({ nodeId }) => nodeId)).not.toContain(toAsk?.nodeId);
    expect(view.answered).toMatchObject([{ nodeId: toAsk?.nodeId, answer: "no" }]);
  });

  test("of a side the player has no record for does not exist", async () => {
    const here = await taught();
    await expect(getWhatFirst.as(coach, { ...here, side: "left" })).rejects.toThrow(NotFoundError);
  });
});

/** The database, counting how often it is asked. */
function counting() {
  const asked = { times: 0 };
  const db = new Proxy(database(), {
    get: (target, name) => {
      const model: unknown = Reflect.get(target, name);
      if (typeof model !== "object" || model === null) return model;
      return new Proxy(model, {
        get: (inner, method) => {
          const found: unknown = Reflect.get(inner, method);
          if (typeof found === "function") asked.times++;
          return found;
        },
      });
    },
  });
  return { db, asked };
}

test("the pages ask the database equally often, however many swings, calls and players there are", async () => {
  const here = await taught();
  const timesOf = async (ask: (db: ReturnType<typeof counting>["db"]) => Promise<unknown>) => {
    const { db, asked } = counting();
    await ask(db);
    return asked.times;
  };
  const measure = async () => [
    await timesOf((db) => getWhatFirst.as(coach, here, db)),
    await timesOf((db) => getPlayerOverview.as(coach, here, db)),
    await timesOf((db) => listCageDay.as(coach, {}, db)),
  ];
  const grow = async (count: number) => {
    for (let i = 0; i < count; i++) {
      const swing = await swingOf(here, { views: ["side", "rear"] });
      await callFault.as(coach, { ...here, swingId: swing.id, faultId: "barrel-drag", state: "seen" });
      await taught();
    }
  };
  await grow(1);
  const few = await measure();
  await grow(10);
  expect(await measure()).toEqual(few);
  expect(few.every((times) => times > 2)).toBe(true);
});

describe("the other pages", () => {
  test("show focus, parked things and swings of the one side only", async () => {
    const here = await taught({ bats: "both" });
    await swingOf(here);
    await swingOf({ ...here, side: "left" });
    await chooseFocus.as(coach, { ...here, faultId: "barrel-drag" });
    expect((await getFoci.as(coach, here)).active).toMatchObject([{ faultId: "barrel-drag", cue: expect.any(String) }]);
    expect(await getFoci.as(coach, { ...here, side: "left" })).toEqual({ active: [], parked: [] });
    const overview = await getPlayerOverview.as(coach, here);
    expect(overview.swings).toHaveLength(1);
    expect(overview.swingCounts.map(({ count }) => count)).toEqual([1, 1]);
  });

  test("the cage day names whoever was filmed last first", async () => {
    const early = await taught({ givenName: "Early" });
    const late = await taught({ givenName: "Late" });
    const never = await taught({ givenName: "Never" });
    await swingOf(early, { filmedOn: "2026-11-04", createdAt: new Date("2026-11-26T10:00:00Z") });
    await swingOf(late, { createdAt: new Date("2026-11-26T11:00:00Z") });
    const rows = await listCageDay.as(coach, {});
    const ids = rows.map(({ playerId }) => playerId);
    expect(ids.indexOf(late.playerId)).toBeLessThan(ids.indexOf(early.playerId));
    expect(ids.indexOf(early.playerId)).toBeLessThan(ids.indexOf(never.playerId));
    expect(rows.find(({ playerId }) => playerId === early.playerId)).toMatchObject({ weeksSinceSwing: 3, mayBeFilmed: false, foci: [] });
    expect(rows.find(({ playerId }) => playerId === never.playerId)?.weeksSinceSwing).toBeNull();
  });

  test("the scope and the policy give the same answer on every player and every role", async () => {
    const roles: readonly Role[] = ["admin", "head-coach", "coach", "player", "guardian"];
    const players = await database().player.findMany({ select: { id: true } });
    const actors = [coach];
    for (const role of roles) actors.push(await actorOf((await buildUser({ academyId, roles: [role] })).id, role));
    for (const actor of actors) {
      const listed = new Set((await database().player.findMany({ where: taughtPlayersScope(actor), select: { id: true } })).map(({ id }) => id));
      for (const { id } of players) {
        const subject = await findPlayerSubject(database(), academyId, id);
        expect(listed.has(id)).toBe(subject !== null && seeReasoning.allows(actor, subject));
      }
    }
  });
});
