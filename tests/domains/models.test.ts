import pg from "pg";
import { beforeAll, describe, expect, test, vi } from "vitest";
import type { Actor, Person, Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import type { Id } from "@/lib/core/ids";
import { addMark, setEvent } from "@/lib/domains/clips/actions";
import { editModel, keepModel, restoreModel, withdrawModel } from "@/lib/domains/clips/models/actions";
import { findModelFilm, getModel, getModelDraft, listModels, listModelsFor } from "@/lib/domains/clips/models/queries";
import { modelState } from "@/lib/domains/clips/models/rules";
import { shownOn } from "@/lib/domains/clips/models/scope";
import { watchClip } from "@/lib/domains/clips/policy";
import { getSwing } from "@/lib/domains/clips/queries";
import { clipsScope, findClipSubject } from "@/lib/domains/clips/scope";
import { getSwingsBeside } from "@/lib/domains/measurement/queries";
import { database } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildClip } from "./clip-story";
import { buildModel, modelFields } from "./model-story";

/** One academy: Pia, who is shown as a model, and Ned, whose coach looks for one and does not teach Pia. */
interface Story {
  readonly academyId: Id;
  readonly pia: Id;
  readonly ned: Id;
  readonly people: Readonly<Record<"head" | "nedsCoach" | "piasCoach" | "guardian" | "piasGuardian" | "admin", Person>>;
}

async function personOf(academyId: Id, role: Role): Promise<{ userId: Id; sign: () => Promise<Person> }> {
  const { id: userId } = await buildUser({ academyId, roles: [role] });
  const sign = async () => (await findActor((await buildSession({ academyId, userId, activeRole: role })).id)) as Person;
  return { userId, sign };
}

async function buildStory(): Promise<Story> {
  const { id: pia, academyId, locationId } = await buildPlayer({ givenName: "Pia", familyName: "Lindqvane", sport: "softball", bats: "left", heightM: 1.47, birthDate: "2014-05-05" });
  const { id: ned } = await buildPlayer({ academyId, locationId, givenName: "Ned", familyName: "Tarrow", sport: "softball", bats: "left", heightM: 1.45, birthDate: "2014-01-05" });
  const [head, nedsCoach, piasCoach, guardian, piasGuardian, admin] = await Promise.all([
    personOf(academyId, "head-coach"), personOf(academyId, "coach"), personOf(academyId, "coach"), personOf(academyId, "guardian"), personOf(academyId, "guardian"), personOf(academyId, "admin"),
  ]);
  await buildAssignment({ academyId, playerId: ned, userId: nedsCoach.userId });
  await buildAssignment({ academyId, playerId: pia, userId: piasCoach.userId });
  await buildGuardianship({ academyId, playerId: ned, userId: guardian.userId });
  await buildGuardianship({ academyId, playerId: pia, userId: piasGuardian.userId });
  for (const playerId of [pia, ned]) await buildConsent({ academyId, playerId, recordedById: admin.userId });
  await buildConsent({ academyId, playerId: pia, recordedById: admin.userId, use: "staff-training" });
  const people = {
    head: await head.sign(), nedsCoach: await nedsCoach.sign(), piasCoach: await piasCoach.sign(), guardian: await guardian.sign(), piasGuardian: await piasGuardian.sign(), admin: await admin.sign(),
  };
  return { academyId, pia, ned, people };
}

const swingOfPia = async ({ academyId, pia, people }: Story) => {
  const clip = await buildClip({ academyId, playerId: pia, userId: people.piasCoach.userId, side: "left" });
  await setEvent.as(people.piasCoach, { clipId: clip.clipId, event: "contact", frameIndex: 200 });
  return clip;
};
const keep = async (story: Story, swingId: Id, more: Partial<typeof modelFields> = {}): Promise<Id> =>
  ((await keepModel.as(story.people.head, { swingId, ...modelFields, ...more })).data as { modelId: Id }).modelId;
const forNed = ({ people, ned }: Story, actor: Actor = people.nedsCoach) => listModelsFor.as(actor, { playerId: ned, side: "left", view: "side", task: "tee", pitchHeight: "belt", pitchSide: "middle" });
const watches = async (story: Story, actor: Person, clipId: Id) => {
  const subject = await findClipSubject(database(), story.academyId, clipId, actor.today);
  return subject !== null && watchClip.allows(actor, subject);
};

let story: Story;
beforeAll(async () => {
  story = await buildStory();
});

describe("a swing that is kept as a model", () => {
  test("is offered to a coach who does not teach the hitter, who may then look at its film and at nothing else of the hitter", async () => {
    const { swingId, clipId } = await swingOfPia(story);
    const { nedsCoach, piasCoach } = story.people;
    await addMark.as(piasCoach, { clipId, frameIndex: 3, shape: { v: 1, kind: "words", x: 1, y: 1, text: "Pia, belt first" } });
    expect(await watches(story, nedsCoach, clipId)).toBe(false);
    const modelId = await keep(story, swingId);
    const { options, noneMatch } = await forNed(story);
    expect([noneMatch, options[0]?.id, options[0]?.isMatch, options[0]?.clipId]).toEqual([null, modelId, true, clipId]);
    expect(await watches(story, nedsCoach, clipId)).toBe(true);
    await expect(getSwing.as(nedsCoach, { swingId })).rejects.toThrow("not yours");
    await expect(setEvent.as(nedsCoach, { clipId, event: "contact", frameIndex: 5 })).rejects.toThrow("not yours");
    const film = await findModelFilm.as(nedsCoach, { modelId });
    expect(film?.clips[0]?.clip).toMatchObject({ playerName: "Quiet hands", marks: [], abilities: { canMeasure: false, canMark: false } });
    expect(film?.clips[0]?.clip.events.map(({ event }) => event)).toEqual(["contact"]);
    const told = JSON.stringify([options, film]);
    for (const secret of ["Pia", "Lindqvane", story.pia, "2014"]) expect(told).not.toContain(secret);
  });

  test("is not shown to families, the office or players by being a model, nor to another academy", async () => {
    const { swingId, clipId } = await swingOfPia(story);
    const modelId = await keep(story, swingId);
    const elsewhere = await buildStory();
    const { guardian, admin, piasGuardian } = story.people;
    for (const actor of [guardian, admin, elsewhere.people.head, elsewhere.people.nedsCoach]) expect(await watches(story, actor, clipId)).toBe(false);
    expect(await watches(story, piasGuardian, clipId)).toBe(true);
    for (const actor of [guardian, piasGuardian, admin]) await expect(findModelFilm.as(actor, { modelId })).rejects.toThrow("not yours");
    expect(await findModelFilm.as(elsewhere.people.head, { modelId })).toBeNull();
    expect((await forNed(elsewhere)).options).toEqual([]);
  });

  test("is gone everywhere at once when it is withdrawn, when its right has ended, and when a consent is withdrawn", async () => {
    const { head, nedsCoach } = story.people;
    const endings: readonly [string, (modelId: Id) => Promise<unknown>][] = [
      ["withdrawn", (modelId) => withdrawModel.as(head, { modelId })],
      ["lapsed", (modelId) => database().modelSwing.update({ where: { id: modelId }, data: { rightUntil: new Date("2026-11-25T00:00:00Z") } })],
      ["no-showing-consent", () => database().consent.updateMany({ where: { playerId: story.pia, use: "staff-training" }, data: { withdrawnAt: new Date() } })],
      ["no-lesson-consent", () => database().consent.updateMany({ where: { playerId: story.pia, use: "lesson" }, data: { withdrawnAt: new Date() } })],
    ];
    for (const [state, end] of endings) {
      const { swingId, clipId } = await swingOfPia(story);
      const modelId = await keep(story, swingId);
      const isOffered = async () => (await forNed(story)).options.some(({ id }) => id === modelId);
      expect([await isOffered(), await watches(story, nedsCoach, clipId)], state).toEqual([true, true]);
      await end(modelId);
      expect([await isOffered(), await watches(story, nedsCoach, clipId), await findModelFilm.as(nedsCoach, { modelId })], state).toEqual([false, false, null]);
      expect((await getModel.as(head, { modelId })).state).toBe(state);
      await database().consent.updateMany({ where: { playerId: story.pia }, data: { withdrawnAt: null } });
    }
  });

  test("can be brought back within the hour, and after it only with its right recorded anew", async () => {
    const { head } = story.people;
    const { swingId } = await swingOfPia(story);
    const modelId = await keep(story, swingId);
    await withdrawModel.as(head, { modelId });
    expect((await listModels.as(head, {})).withdrawn.find(({ id }) => id === modelId)?.canUndo).toBe(true);
    await restoreModel.as(head, { modelId });
    expect((await forNed(story)).options.map(({ id }) => id)).toContain(modelId);
    await withdrawModel.as(head, { modelId });
    await database().modelSwing.update({ where: { id: modelId }, data: { withdrawnAt: new Date("2026-11-25T13:30:00Z") } });
    await expect(restoreModel.as(head, { modelId })).rejects.toThrow("more than 60 minutes ago");
    const again = await keep(story, swingId);
    await expect(keep(story, swingId)).rejects.toThrow("kept as a model already");
    await database().modelSwing.update({ where: { id: modelId }, data: { withdrawnAt: new Date() } });
    await expect(restoreModel.as(head, { modelId })).rejects.toThrow("kept as a model already");
    expect((await listModels.as(head, {})).kept.filter(({ swingId: of }) => of === swingId).map(({ id }) => id)).toEqual([again]);
  });

  test("is one only with a consent, with contact set, under a made-up name, and with a right that holds", async () => {
    const { head, admin } = story.people;
    const { swingId, clipId } = await swingOfPia(story);
    await expect(keep(story, swingId, { label: "Pia's best" })).rejects.toThrow("own name");
    await expect(keep(story, swingId, { rightUntil: "2026-11-25" })).rejects.toThrow("beyond today");
    await expect(keep(story, swingId, { rightUntil: "2028-11-25" })).rejects.toThrow("at most 365 days");
    await expect(keep(story, swingId, { rightBasis: "own-consent" })).rejects.toThrow("not of age");
    await database().swingEvent.deleteMany({ where: { clipId } });
    expect((await getModelDraft.as(head, { swingId })).hindrance).toContain("Contact is not set");
    await expect(keep(story, swingId)).rejects.toThrow("Contact is not set");
    const nedsSwing = await buildClip({ academyId: story.academyId, playerId: story.ned, userId: admin.userId });
    expect((await getModelDraft.as(head, { swingId: nedsSwing.swingId })).hindrance).toContain("to coaches who do not teach");
    await expect(keep(story, nedsSwing.swingId)).rejects.toThrow("to coaches who do not teach");
    expect(await database().modelSwing.count({ where: { swingId: { in: [swingId, nedsSwing.swingId] } } })).toBe(0);
  });

  test("says who recorded its right and when, also after somebody else changed it", async () => {
    const { head, piasCoach } = story.people;
    const { swingId } = await swingOfPia(story);
    const modelId = (await buildModel({ academyId: story.academyId, playerId: story.pia, swingId, userId: piasCoach.userId })).id;
    expect(await getModel.as(head, { modelId })).toMatchObject({ recordedOn: "2026-11-20", recordedBy: piasCoach.name, daysLeft: 157, rightBasis: "written-consent", rightHolder: "the family" });
    await editModel.as(head, { modelId, ...modelFields, rightHolder: "the mother", rightUntil: "2026-12-05" });
    expect(await getModel.as(head, { modelId })).toMatchObject({ recordedOn: "2026-11-25", recordedBy: head.name, daysLeft: 10, rightHolder: "the mother" });
    await withdrawModel.as(head, { modelId });
    await expect(editModel.as(head, { modelId, ...modelFields })).rejects.toThrow("was withdrawn");
  });

  test("is never offered beside another swing of the same hitter", async () => {
    const { swingId } = await swingOfPia(story);
    const modelId = await keep(story, swingId);
    const beside = await listModelsFor.as(story.people.piasCoach, { playerId: story.pia, side: "left", view: "side" });
    expect(beside.options.map(({ id }) => id)).not.toContain(modelId);
    expect((await forNed(story)).options.map(({ id }) => id)).toContain(modelId);
  });

  test("begins with the tags of the swing and of its hitter on that day", async () => {
    const { swingId } = await swingOfPia(story);
    expect((await getModelDraft.as(story.people.head, { swingId })).tags).toEqual({
      side: "left", sport: "softball", heightM: 1.47, level: "11-12", isAdult: false, task: "tee", pitchHeight: "belt", pitchSide: "middle",
    });
  });
});

test("a model is offered beside a player's swing, opens under its label with what it is not, and nowhere else", async () => {
  const own = await buildStory();
  const { nedsCoach, head } = own.people;
  const model = await swingOfPia(own);
  const modelId = await keep(own, model.swingId, { body: "grown", level: "adult" });
  const { swingId } = await buildClip({ academyId: own.academyId, playerId: own.ned, userId: nedsCoach.userId, side: "right" });
  const beside = (withIds: readonly Id[]) => getSwingsBeside.as(nedsCoach, { swingId, withIds: [...withIds] });
  const plain = await beside([]);
  expect(plain.groups.find(({ id }) => id === "models")?.choices).toMatchObject([{ clipId: model.clipId, words: "Quiet hands, bats left, grown" }]);
  const both = await beside([model.clipId]);
  expect(both.clips.map(({ startsFlipped }) => startsFlipped)).toEqual([false, true]);
  await database().clip.update({ where: { id: model.clipId }, data: { isMirrored: true } });
  expect((await beside([model.clipId])).clips[1]?.startsFlipped).toBe(false);
  await database().clip.update({ where: { id: model.clipId }, data: { isMirrored: false } });
  expect(both.clips[1]).toMatchObject({ isShown: true, caption: "Model: Quiet hands", clip: { playerName: "Quiet hands", marks: [] } });
  expect(both.clips[1]?.unlike.join(". ")).toMatch(/Bats left, shown mirrored\..*levers and timing differ/);
  expect(both.groups.find(({ id }) => id === "models")).toBeUndefined();
  for (const secret of ["Pia", "Lindqvane", own.pia]) expect(JSON.stringify([plain, both])).not.toContain(secret);
  await withdrawModel.as(head, { modelId });
  expect((await beside([])).groups.find(({ id }) => id === "models")).toBeUndefined();
  const gone = await beside([model.clipId]);
  expect([gone.goneModels, gone.clips.length]).toEqual([1, 1]);
  for (const secret of ["Quiet hands", "Pia", model.clipId, modelId]) expect(JSON.stringify(gone)).not.toContain(secret);
  const never = await swingOfPia(own);
  await expect(beside([never.clipId])).rejects.toThrow("not yours");
  const elsewhere = await buildStory();
  const theirs = await swingOfPia(elsewhere);
  await withdrawModel.as(elsewhere.people.head, { modelId: await keep(elsewhere, theirs.swingId) });
  await expect(beside([theirs.clipId])).rejects.toThrow("not yours");
});

test("the condition on rows and the rule say alike whether a model is shown, and scope and ability whether its clip may be watched", async () => {
  const { academyId, pia, people } = await buildStory();
  const at = new Date("2026-11-25T12:00:00Z");
  for (const uses of [["lesson", "staff-training"], ["lesson"], ["staff-training"], []]) {
    await database().consent.updateMany({ where: { playerId: pia }, data: { withdrawnAt: at } });
    await database().consent.updateMany({ where: { playerId: pia, use: { in: uses } }, data: { withdrawnAt: null } });
    for (const rightUntil of ["2026-11-24", "2026-11-25", "2026-11-26"]) {
      for (const withdrawnAt of [undefined, at]) {
        const { swingId, clipId } = await buildClip({ academyId, playerId: pia, userId: people.head.userId });
        const { id } = await buildModel({ academyId, playerId: pia, swingId, userId: people.head.userId, rightUntil, withdrawnAt });
        const isShown = modelState({ rightUntil, isWithdrawn: withdrawnAt !== undefined, permittedUses: uses }, "2026-11-25") === "shown";
        expect(await database().modelSwing.count({ where: { id, ...shownOn("2026-11-25") } })).toBe(isShown ? 1 : 0);
        for (const actor of [people.nedsCoach, people.guardian, people.admin]) {
          const subject = await findClipSubject(database(), academyId, clipId, actor.today);
          const mayWatch = subject !== null && watchClip.allows(actor, subject);
          expect(mayWatch).toBe(isShown && actor.role === "coach");
          expect(await database().clip.count({ where: { AND: [clipsScope(actor), { id: clipId }] } })).toBe(mayWatch ? 1 : 0);
        }
      }
    }
  }
});

test("the lists of models ask the database a fixed number of times, however many there are", async () => {
  const own = await buildStory();
  const { head } = own.people;
  const countAll = async () => {
    const counts: number[] = [];
    for (const ask of [() => forNed(own), () => listModels.as(head, {})]) {
      await ask();
      const spy = vi.spyOn(pg.Client.prototype, "query");
      await ask();
      counts.push(spy.mock.calls.length);
      spy.mockRestore();
    }
    return counts;
  };
  const more = async (count: number) => {
    for (let i = 0; i < count; i++) await buildModel({ academyId: own.academyId, playerId: own.pia, userId: head.userId, swingId: (await swingOfPia(own)).swingId, label: `Model ${i}` });
  };
  await more(2);
  const before = await countAll();
  await more(9);
  expect((await forNed(own)).options).toHaveLength(11);
  expect(await countAll()).toEqual(before);
});
