import { describe, expect, test } from "vitest";
import { getNoteForFamily, listSentNotes } from "@/lib/domains/plans/queries";
import { logPractice } from "@/lib/domains/practice/actions";
import { getParentsPage, getStops, getToday, listWeek } from "@/lib/domains/practice/queries";
import { clearPauseAsCoach, clearPauseAsFamily, reportPain, withdrawConsent } from "@/lib/domains/roster/actions";
import { getFamilyPlayers, listConsents } from "@/lib/domains/roster/queries";
import { database, type Database } from "@/lib/platform/database";
import { actorOf, CANARY, family, sentPlan } from "./practice-story";
import { buildGuardianship, buildPlayer } from "@/seed/builders/people";

/** A database that counts the questions put to it. */
function counting() {
  let count = 0;
  const db = database().$extends({ query: { $allOperations: ({ args, query }) => (count++, query(args)) } }) as unknown as Database;
  return { db, count: () => count };
}

describe("the family's pages", () => {
  test("hold no word of what only coaches see, and no birth date", async () => {
    const { player, odile, playerId, noteId } = await family();
    await reportPain.as(player, { playerId, part: "knee", level: 3, words: "pulls when I push" });
    const pages = [
      await getToday.as(player, { playerId }), await getStops.as(player, { playerId }), await getParentsPage.as(odile, { playerId }),
      await listWeek.as(odile, { playerId }), await listSentNotes.as(player, { playerId }), await getNoteForFamily.as(odile, { noteId }), await listConsents.as(odile, { playerId }),
    ];
    const text = JSON.stringify(pages);
    expect(text).toContain("Your load is quiet.");
    for (const never of [CANARY, "2014-05-05", "pulls when I push"]) expect(text).not.toContain(never);
    expect(await database().privateNote.count({ where: { words: CANARY } })).toBeGreaterThan(0);
  });

  test("ask the database as often for ten times the rows", async () => {
    const { player, odile, playerId, teeId, academyId, users } = await family({ startsOn: "2026-10-01" });
    const asked = async () => {
      const [today, parents] = [counting(), counting()];
      await getToday.as(player, { playerId }, today.db);
      await getParentsPage.as(odile, { playerId }, parents.db);
      return [today.count(), parents.count()];
    };
    await logPractice.as(player, { planDrillId: teeId });
    await reportPain.as(player, { playerId, part: "knee", level: 3 });
    const before = await asked();
    for (let day = 1; day <= 20; day++) await logPractice.as(player, { planDrillId: teeId, day: `2026-11-${String(day).padStart(2, "0")}` }).catch(() => undefined);
    for (let n = 0; n < 9; n++) await reportPain.as(player, { playerId, part: "hip", level: 1 });
    await sentPlan({ academyId, playerId, authorId: users.coach.id });
    expect(await asked()).toEqual(before);
    expect(before[0]).toBeGreaterThan(3);
  });

  test("show the still with its marks while the consent holds, and nothing of it once it is withdrawn", async () => {
    const { player, odile, playerId, clipId } = await family();
    const before = await getToday.as(player, { playerId });
    expect(before.note?.still).toMatchObject({ url: `/api/media/clips/${clipId}/stills/96`, marks: [{ kind: "ring" }] });
    await withdrawConsent.as(odile, { playerId, use: "lesson" });
    expect((await getToday.as(player, { playerId })).note?.still?.url).toBeNull();
    expect(JSON.stringify(await getParentsPage.as(odile, { playerId }))).not.toContain("/api/media/");
  });

  test("name who was told when something hurts, and end the stop when both sides cleared it", async () => {
    const { player, odile, coach, playerId } = await family();
    await reportPain.as(player, { playerId, part: "knee", level: 3 });
    const [stop] = (await getStops.as(player, { playerId })).stops;
    expect(stop).toMatchObject({ part: "knee", reportedBy: "Ines Corvane", told: ["Adair Linsky", "Bastien Corvane", "Marlow Tessen", "Odile Corvane"], isClearedByFamily: false });
    expect((await getStops.as(player, { playerId })).canClear).toBe(false);
    const page = await getParentsPage.as(odile, { playerId });
    expect(page.canClear).toBe(true);
    await clearPauseAsFamily.as(odile, { playerId, pauseId: stop!.pauseId });
    expect((await getToday.as(player, { playerId })).stops).toMatchObject([{ isClearedByFamily: true, isClearedByCoach: false }]);
    await clearPauseAsCoach.as(coach, { playerId, pauseId: stop!.pauseId });
    expect((await getToday.as(player, { playerId })).stops).toEqual([]);
  });

  test("let a player of age clear the own part", async () => {
    const { player, playerId } = await family({ birthDate: "1999-05-05" });
    await reportPain.as(player, { playerId, part: "knee", level: 3 });
    expect(await getStops.as(player, { playerId })).toMatchObject({ canClear: true, isAdult: true });
  });

  test("hold no numbers below eleven but counts to do", async () => {
    const young = await family({ birthDate: "2016-05-05" });
    expect((await getToday.as(young.player, { playerId: young.playerId })).showsNumbers).toBe(false);
    const older = await family();
    expect((await getToday.as(older.player, { playerId: older.playerId })).showsNumbers).toBe(true);
  });

  test("say so when a plan has not begun or is over, and ask for nothing then", async () => {
    const soon = await family({ startsOn: "2026-11-26" });
    expect(await getToday.as(soon.player, { playerId: soon.playerId })).toMatchObject({ phase: "before", drills: [], onHold: [] });
    const over = await family({ endsOn: "2026-11-24" });
    expect(await getToday.as(over.player, { playerId: over.playerId })).toMatchObject({ phase: "over", drills: [] });
  });

  test("tell when a drill is done often enough for the week", async () => {
    const { player, playerId, strengthId } = await family();
    for (const day of ["2026-11-23", "2026-11-24"]) await logPractice.as(player, { planDrillId: strengthId, day });
    expect((await getToday.as(player, { playerId })).drills.map(({ isEnoughThisWeek }) => isEnoughThisWeek)).toEqual([false, false, true]);
  });
});

describe("one login for two children", () => {
  test("switches between them and mixes nothing", async () => {
    const { academyId, users, playerId } = await family();
    const sibling = await buildPlayer({ academyId, givenName: "Milo" });
    await buildGuardianship({ academyId, playerId: sibling.id, userId: users.odile.id });
    await sentPlan({ academyId, playerId: sibling.id, authorId: users.coach.id });
    const odile = await actorOf(users.odile, "guardian");
    expect((await getFamilyPlayers.as(odile, {})).map(({ givenName }) => givenName)).toEqual(["Ines", "Milo"]);
    const [ines, milo] = [await getToday.as(odile, { playerId }), await getToday.as(odile, { playerId: sibling.id })];
    expect(ines.note?.playerId).toBe(playerId);
    expect(milo.note?.playerId).toBe(sibling.id);
    expect(JSON.stringify(milo)).not.toContain(playerId);
    // A plan of the one, asked for on the page of the other, is not shown there.
    expect((await getToday.as(odile, { playerId: sibling.id, planId: ines.note?.plan.id })).note?.playerId).toBe(sibling.id);
  });
});

describe("who looked at clips", () => {
  test("names the staff by day in the location's time zone, once a day, and never the family", async () => {
    const { odile, player, coach, head, playerId, academyId, clipId } = await family();
    const at = (sessionId: string, quarter: string) => database().mediaRead.create({ data: { academyId, sessionId, clipId, quarter: new Date(quarter) } });
    await at(coach.sessionId, "2026-11-24T05:45:00Z");
    await at(coach.sessionId, "2026-11-24T05:30:00Z");
    await at(head.sessionId, "2026-11-24T06:15:00Z");
    await at(player.sessionId, "2026-11-24T06:15:00Z");
    await at(odile.sessionId, "2026-11-24T06:15:00Z");
    expect((await getParentsPage.as(odile, { playerId })).watchers).toEqual([
      { day: "2026-11-24", names: ["Adair Linsky"] },
      { day: "2026-11-23", names: ["Marlow Tessen"] },
    ]);
  });
});
