import { beforeAll, describe, expect, test } from "vitest";
import { buildUser } from "@/seed/builders/people";
import { buildSwing } from "@/seed/builders/swings";
import { authorize } from "@/lib/access/ability";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { approveProposal, proposeChange } from "@/lib/domains/library/commands";
import * as libraryPolicy from "@/lib/domains/library/policy";
import { findEditionInForce, findProposalSubject, readEdition } from "@/lib/domains/library/scope";
import { parkFocus } from "@/lib/domains/observations/actions";
import * as actions from "@/lib/domains/plans/actions";
import { seeSentNote } from "@/lib/domains/plans/policy";
import * as queries from "@/lib/domains/plans/queries";
import { findNoteSubject, sentNotesScope } from "@/lib/domains/plans/scope";
import { reportPain } from "@/lib/domains/roster/actions";
import { database, inTransaction } from "@/lib/platform/database";
import { academyId, actorFor, buildHouse, CANARY, coachId, drafted, headId, taught, WORDS } from "./plan-story";

beforeAll(buildHouse);

describe("beginning a plan", () => {
  test("without a focus is refused in a sentence", async () => {
    const { coach, here } = await taught({ hasNoFocus: true });
    await expect(actions.startPlan.as(coach, here)).rejects.toThrow(new ConflictError("A note needs a focus. Choose first what to work on; nothing was begun."));
  });

  test("asks first what is at home", async () => {
    const { coach, here, page } = await taught({ hasNoHome: true });
    await expect(actions.startPlan.as(coach, here)).rejects.toThrow(/what there is at home/);
    expect((await page()).home).toBeNull();
  });

  test("twice, or by two at once, goes on with one draft", async () => {
    const { coach, here, playerId } = await taught();
    const head = await actorFor(headId, "head-coach");
    const begun = await Promise.all([actions.startPlan.as(coach, here), actions.startPlan.as(head, here), actions.startPlan.as(coach, here)]);
    expect(new Set(begun.map(({ data }) => (data as { planId: Id }).planId)).size).toBe(1);
    expect(await database().plan.count({ where: { playerId } })).toBe(1);
  });

  test("takes the newest clip of the side that has a mark, with its frame", async () => {
    const { coach, here, playerId } = await taught();
    const older = await buildSwing({ academyId, playerId, createdById: coachId, side: "right" });
    const newer = await buildSwing({ academyId, playerId, createdById: coachId, side: "right" });
    for (const [clip, frameIndex] of [[older.clips[0], 5], [newer.clips[0], 17]] as const) {
      const shape = { v: 1, kind: "ring", cx: 100, cy: 90, rx: 20, ry: 20 };
      await database().mark.create({ data: { id: newId(), academyId, clipId: clip!.id, frameIndex, shape, createdById: coachId } });
    }
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    expect(await database().note.findUniqueOrThrow({ where: { planId } })).toMatchObject({ clipId: newer.clips[0]!.id, frameIndex: 17 });
  });
});

describe("the drills of a plan", () => {
  const everyDrill = async () => (await readEdition(database(), academyId, (await findEditionInForce(database(), academyId))!.id)).drills.drills;

  test("come from the short list only, in whatever order one clicks", async () => {
    const { coach, here, page } = await taught({ birthDate: "2016-05-05", complaint: "wrist" });
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    const allowed = new Set((await page()).draft!.proposed.map(({ id }) => id));
    const refused: string[] = [];
    for (const { id } of (await everyDrill()).filter((drill) => !allowed.has(drill.id)).reverse()) {
      await actions.addDrill.as(coach, { planId, drillId: id }).then(() => undefined, (error: unknown) => {
        expect(error).toBeInstanceOf(ConflictError);
        refused.push(id);
      });
    }
    expect(refused.length).toBe((await everyDrill()).length - allowed.size);
    expect(await database().planDrill.count({ where: { planId } })).toBe(0);
  });

  test("that load the wrist are left out for a twelve-year-old with a complaint there, and the reason names it", async () => {
    const { coach, here, page } = await taught({ complaint: "wrist", faultId: "barrel-drag" });
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    const wristDrills = (await everyDrill()).filter(({ avoidParts, faults }) => avoidParts.includes("wrist") && faults.some(({ fault }) => fault === "barrel-drag"));
    expect(wristDrills.length).toBeGreaterThan(0);
    const { leftOut, proposed } = (await page()).draft!;
    for (const { id, name } of wristDrills) {
      expect(proposed.map((one) => one.id)).not.toContain(id);
      expect(leftOut.find((one) => one.name === name)?.limits.join(" ")).toContain("Not while Ines has a complaint there: wrist.");
      await expect(actions.addDrill.as(coach, { planId, drillId: id })).rejects.toThrow(/complaint there: wrist/);
    }
  });

  test("that may no longer be done keep the note from being sent", async () => {
    const { coach, planId, playerId, drillId, page } = await drafted();
    await reportPain.as(coach, { playerId, part: "knee", level: 4 });
    const { draft } = await page();
    expect(draft?.drills[0]?.limits.join(" ")).toMatch(/paused/);
    expect(draft?.proposed.every(({ id }) => id !== drillId)).toBe(true);
    await expect(actions.sendNote.as(coach, { planId })).rejects.toThrow(/^Nothing was sent\. .*has to come out.*paused/);
  });

  test("of a paused player hold no swings", async () => {
    const { coach, here, playerId, page } = await taught();
    await reportPain.as(coach, { playerId, part: "knee", level: 2 });
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    const { proposed, swings } = (await page()).draft!;
    expect(proposed.every((one) => one.swings === 0)).toBe(true);
    expect(swings.mostPerDay).toBe(0);
    const swinging = (await everyDrill()).find(({ faults, dose }) => dose.fullSwings > 0 && faults.some(({ fault }) => fault === "back-foot-overspin"))!;
    await expect(actions.addDrill.as(coach, { planId, drillId: swinging.id })).rejects.toThrow(/paused/);
  });

  test("may not pass the swings a day: the sum is said, and a dose counts as the library counts it", async () => {
    const { coach, here, page } = await taught({ faultId: "barrel-drag" });
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    const swinging = (await page()).draft!.proposed.find((one) => one.swings > 0)!;
    await actions.addDrill.as(coach, { planId, drillId: swinging.id });
    await expect(actions.setDose.as(coach, { planId, drillId: swinging.id, timesPerDay: 200, minutesPerDay: 5 })).rejects.toThrow(
      new RegExp(`One day has \\d+ swings \\(${swinging.name} \\d+\\)\\. The home limit is 60 a day\\.`),
    );
    expect(await database().planDrill.findFirstOrThrow({ where: { planId } })).toMatchObject({ swingsPerDay: swinging.swings, timesPerDay: swinging.times });
  });

  test("move, go and are not put in twice", async () => {
    const { coach, here, page } = await taught();
    const { planId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    const [a, b] = (await page()).draft!.proposed.filter(({ swings }) => swings < 20);
    for (const one of [a!, b!]) await actions.addDrill.as(coach, { planId, drillId: one.id });
    await expect(actions.addDrill.as(coach, { planId, drillId: a!.id })).rejects.toThrow(/stands in the plan already/);
    await actions.moveDrill.as(coach, { planId, drillId: b!.id, direction: "up" });
    await actions.moveDrill.as(coach, { planId, drillId: b!.id, direction: "up" });
    expect((await page()).draft!.drills.map(({ drillId }) => drillId)).toEqual([b!.id, a!.id]);
    await actions.removeDrill.as(coach, { planId, drillId: b!.id });
    expect((await page()).draft!.drills.map(({ drillId }) => drillId)).toEqual([a!.id]);
  });
});

describe("writing a note", () => {
  test("begins with what was kept well, and refuses blame at its own field with nothing kept", async () => {
    const { coach, planId, noteId } = await drafted();
    await expect(actions.writeNote.as(coach, { planId, ...WORDS, keptWell: " " })).rejects.toThrow(/kept well/);
    const refused = await actions.writeNote.as(coach, { planId, ...WORDS, oneThing: "Your foot is wrong." }).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(InvalidError);
    expect(Object.keys((refused as InvalidError).fields)).toEqual(["oneThing"]);
    expect((await database().note.findUniqueOrThrow({ where: { id: noteId } })).oneThing).toBe(WORDS.oneThing);
  });

  test("takes a cue of one's own, without its quotes, under the same rules", async () => {
    const { coach, planId, noteId } = await drafted();
    await actions.chooseCue.as(coach, { planId, cue: "x", ownCue: "“Zip the jacket”" });
    expect((await database().note.findUniqueOrThrow({ where: { id: noteId } })).cue).toBe("Zip the jacket");
    await expect(actions.chooseCue.as(coach, { planId, ownCue: "Fix your hands" })).rejects.toThrow(/stays out of what a family reads/);
  });

  test("takes a still of this player's side only, within the clip", async () => {
    const { coach, planId, playerId } = await drafted();
    const { clips: [clip] } = await buildSwing({ academyId, playerId, createdById: coachId, side: "right" });
    const other = await drafted();
    await expect(actions.chooseStill.as(other.coach, { planId: other.planId, still: `${clip!.id} 3` })).rejects.toThrow(/no such frame/);
    await expect(actions.chooseStill.as(coach, { planId, still: `${clip!.id} 999999` })).rejects.toThrow(/no such frame/);
    await actions.chooseStill.as(coach, { planId, still: `${clip!.id} 3` });
    expect((await database().note.findUniqueOrThrow({ where: { planId } })).frameIndex).toBe(3);
  });
});

describe("sending", () => {
  test("keeps plan and note, and tells the player and every guardian without a word of what it says", async () => {
    const { coach, planId, noteId, playerId, userId, guardianId } = await drafted();
    expect((await actions.sendNote.as(coach, { planId })).message).toBe("Sent to Ines and Odile.");
    expect(await database().plan.findUniqueOrThrow({ where: { id: planId } })).toMatchObject({ state: "sent" });
    const notices = await database().notice.findMany({ where: { playerId, kind: "note-sent", subjectId: noteId } });
    expect(notices.map((notice) => notice.userId).sort()).toEqual([userId, guardianId].sort());
    const told = await database().$queryRaw<{ payload: unknown }[]>`SELECT j.payload FROM graphile_worker._private_jobs j WHERE j.key IN (${`notice ${userId}`}, ${`notice ${guardianId}`})`;
    expect(told.map(({ payload }) => Object.keys(payload as object))).toEqual([["userId"], ["userId"]]);
  });

  test("happens once, however often and by however many it is pressed", async () => {
    const { coach, planId, noteId } = await drafted();
    const head = await actorFor(headId, "head-coach");
    const pressed = await Promise.allSettled([coach, head, coach].map((actor) => actions.sendNote.as(actor, { planId })));
    expect(pressed.filter(({ status }) => status === "fulfilled")).toHaveLength(1);
    for (const one of pressed) if (one.status === "rejected") expect(String(one.reason)).toMatch(/sent already on Wednesday 25 November/);
    expect(await database().notice.count({ where: { subjectId: noteId } })).toBe(2);
  });

  test("to a minor without a guardian is refused, and nothing goes out", async () => {
    const { coach, planId, playerId } = await drafted({ isAlone: true });
    await expect(actions.sendNote.as(coach, { planId })).rejects.toThrow(/Ines is a minor and has no guardian here\. Nothing goes to a child alone/);
    expect(await database().notice.count({ where: { playerId, kind: "note-sent" } })).toBe(0);
    const adult = await drafted({ isAlone: true, birthDate: "1990-05-05" });
    expect((await actions.sendNote.as(adult.coach, { planId: adult.planId })).message).toBe("Sent to Ines.");
  });

  test("of a second note for the same focus ends the first plan, and both notes stay", async () => {
    const { coach, here, planId, playerId } = await drafted();
    await actions.sendNote.as(coach, { planId });
    const next = (await actions.startPlan.as(coach, here)).data as { planId: Id };
    expect(next.planId).not.toBe(planId);
    const { draft } = await queries.getPlanDraft.as(coach, here);
    expect(draft?.cues[0]).toEqual({ text: "Send your belt at the pitcher first", from: "said on Wednesday 25 November" });
    await actions.addDrill.as(coach, { planId: next.planId, drillId: draft!.proposed[0]!.id });
    await actions.writeNote.as(coach, { planId: next.planId, ...WORDS });
    await actions.sendNote.as(coach, { planId: next.planId });
    expect((await database().plan.findMany({ where: { playerId }, orderBy: { createdAt: "asc" } })).map(({ state }) => state)).toEqual(["ended", "sent"]);
    expect((await queries.listSentNotes.as(coach, { playerId })).rows.map(({ isInForce }) => isInForce)).toEqual([true, false]);
    expect((await queries.getSentPlan.as(coach, here))?.plan.id).toBe(next.planId);
  });

  test("of a draft whose focus was parked is refused", async () => {
    const { coach, here, planId } = await drafted();
    const { id: focusId } = await database().focus.findFirstOrThrow({ where: { playerId: here.playerId, state: "active" } });
    await parkFocus.as(coach, { ...here, focusId });
    await expect(actions.sendNote.as(coach, { planId })).rejects.toThrow(/A note needs a focus/);
  });
});

describe("a sent note", () => {
  test("keeps the words it was sent with when the library changes", async () => {
    const { coach, here, planId, noteId, drillId } = await drafted();
    const shape = { v: 1, kind: "ring", cx: 100, cy: 90, rx: 20, ry: 20 };
    const { clips: [clip] } = await buildSwing({ academyId, playerId: here.playerId, createdById: coachId, side: "right" });
    const mark = await database().mark.create({ data: { id: newId(), academyId, clipId: clip!.id, frameIndex: 3, shape, createdById: coachId } });
    await actions.chooseStill.as(coach, { planId, still: `${clip!.id} 3` });
    const preview = (await queries.getPlanDraft.as(coach, here)).draft!.letter;
    await actions.sendNote.as(coach, { planId });
    const before = await queries.getNoteForFamily.as(coach, { noteId });
    expect({ ...before, isSent: false, plan: { ...before.plan, state: "draft" } }).toEqual(preview);
    expect(before.still?.marks).toEqual([shape]);

    const head = await actorFor(headId, "head-coach");
    const edition = (await findEditionInForce(database(), academyId))!;
    const drill = (await readEdition(database(), academyId, edition.id)).drills.drills.find(({ id }) => id === drillId)!;
    await inTransaction(async (tx) => {
      const granted = authorize(head, libraryPolicy.proposeToLibrary, { academyId });
      const changed = { subject: "drill" as const, recordId: drillId, baseEditionId: edition.id, reason: "said more plainly", name: `${drill.name} anew`, steps: drill.steps.map((step) => `${step} Slowly.`) };
      const proposalId = await proposeChange(tx, granted, headId, changed);
      const proposal = authorize(head, libraryPolicy.decideProposal, await findProposalSubject(tx, academyId, proposalId));
      await approveProposal(tx, proposal, headId);
    });
    await database().mark.update({ where: { id: mark.id }, data: { removedAt: new Date() } });
    expect((await findEditionInForce(database(), academyId))?.number).toBe(edition.number + 1);
    expect(await queries.getNoteForFamily.as(coach, { noteId })).toEqual(before);
    await actions.startPlan.as(coach, here);
    expect((await queries.getPlanDraft.as(coach, here)).draft?.proposed.map(({ name }) => name)).toContain(`${drill.name} anew`);
  });

  test("is never changed: its words, its drills and its marks are kept by the database", async () => {
    const { coach, planId, noteId, drillId } = await drafted();
    await actions.sendNote.as(coach, { planId });
    for (const change of [
      () => actions.writeNote.as(coach, { planId, ...WORDS, why: "Other words." }),
      () => actions.removeDrill.as(coach, { planId, drillId }),
      () => actions.chooseCue.as(coach, { planId, cue: "Other" }),
      () => actions.addDrill.as(coach, { planId, drillId: "mirror-load" }),
    ]) await expect(change()).rejects.toThrow(/sent already/);
    await expect(database().note.update({ where: { id: noteId }, data: { why: "other" } })).rejects.toThrow(/keeps its words/);
  });

  test("shows its still only while the consent holds", async () => {
    const { coach, planId, noteId, playerId, guardianId } = await drafted();
    const { clips: [clip] } = await buildSwing({ academyId, playerId, createdById: coachId, side: "right" });
    await actions.chooseStill.as(coach, { planId, still: `${clip!.id} 3` });
    await actions.sendNote.as(coach, { planId });
    const guardian = await actorFor(guardianId, "guardian");
    expect((await queries.getNoteForFamily.as(guardian, { noteId })).still?.url).toBe(`/api/media/clips/${clip!.id}/stills/3`);
    await database().consent.updateMany({ where: { playerId }, data: { withdrawnAt: new Date() } });
    expect((await queries.getNoteForFamily.as(guardian, { noteId })).still?.url).toBeNull();
  });
});

describe("what only coaches see", () => {
  test("is in no answer that a family can get, and in the coach's own", async () => {
    const { coach, here, planId, noteId, playerId, userId, guardianId } = await drafted();
    const asked = { playerId, side: "right" as const, noteId, playerIds: [playerId] };
    const family = [await actorFor(userId, "player"), await actorFor(guardianId, "guardian")];
    const answersOf = async (actor: (typeof family)[number]) =>
      Promise.all(Object.values(queries).map(async (query) => query.as(actor, asked as never).then((answer: unknown) => JSON.stringify(answer), (error: unknown) => (error instanceof NotFoundError ? null : String(error)))));
    for (const actor of family) expect((await answersOf(actor)).filter((answer) => answer?.includes(WORDS.keptWell))).toEqual([]);
    await actions.sendNote.as(coach, { planId });
    for (const actor of family) {
      const answers = await answersOf(actor);
      expect(answers.filter((answer) => answer?.includes(CANARY))).toEqual([]);
      expect(answers.filter((answer) => answer?.includes(WORDS.keptWell))).toHaveLength(4);
    }
    expect((await queries.getNoteForCoach.as(coach, { noteId })).privateWords).toBe(CANARY);
    expect((await queries.getHomeworkSummary.as(coach, here))[0]).toMatchObject({ cue: "Send your belt at the pitcher first", daysPerWeek: 4 });
  });
});

describe("the scope of sent notes", () => {
  test("says of every note what the ability says", async () => {
    const sentOne = await drafted();
    await actions.sendNote.as(sentOne.coach, { planId: sentOne.planId });
    const draft = await drafted();
    const strangerId = (await buildUser({ academyId, roles: ["coach"] })).id;
    const adminId = (await buildUser({ academyId, roles: ["admin"] })).id;
    const actors = await Promise.all([
      actorFor(coachId, "coach"), actorFor(headId, "head-coach"), actorFor(strangerId, "coach"), actorFor(adminId, "admin"),
      actorFor(sentOne.userId, "player"), actorFor(sentOne.guardianId, "guardian"), actorFor(draft.guardianId, "guardian"),
    ]);
    let seen = 0;
    for (const actor of actors) {
      const listed = new Set((await database().note.findMany({ where: sentNotesScope(actor), select: { id: true } })).map(({ id }) => id));
      for (const noteId of [sentOne.noteId, draft.noteId]) {
        const subject = (await findNoteSubject(database(), academyId, noteId))!;
        expect(listed.has(noteId)).toBe(seeSentNote.allows(actor, subject));
        if (listed.has(noteId)) seen += 1;
      }
    }
    expect(seen).toBe(4);
  });
});
