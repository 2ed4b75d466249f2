import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Actor, Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { contentHash } from "@/lib/core/canonical-json";
import { approveProposal, declineProposal, proposeChange, proposeNewDrill, withdrawProposal } from "@/lib/domains/library/actions";
import {
  getDrill, getDrillsForPlanning, getEditionInForce, getFault, getLibraryIndex, getProposal, listEditions, listProposals, searchLibrary,
} from "@/lib/domains/library/queries";
import { readWorkingTables } from "@/lib/domains/library/scope";
import { newId } from "@/lib/core/ids";
import { database, inTransaction } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildAcademy, buildSession, buildUser } from "@/seed/builders/people";
import { loadStarterLibrary } from "@/seed/library";

interface Starter {
  readonly faults: { readonly faults: readonly { id: string; name: string; synonyms: readonly string[] }[] };
}

let starter: Starter;
let academyId: string;
let head: Actor;
let coach: Actor;
let otherCoach: Actor;
let baseEditionId: string;

const signIn = async (role: Role, displayName: string): Promise<Actor> => {
  const { id: userId } = await buildUser({ academyId, roles: [role], displayName });
  return findActor((await buildSession({ academyId, userId, activeRole: role })).id);
};
const proposalIdOf = ({ data }: { data?: unknown }) => (data as { proposalId: string }).proposalId;
const propose = async (fields: Record<string, unknown>, by: Actor = coach) =>
  proposalIdOf(await proposeChange.as(by, { subject: "drill", recordId: "mirror-load", baseEditionId, reason: "Clearer for our kids", ...fields } as never));
const nameInForce = async () => (await getDrill.as(coach, { id: "mirror-load" })).name;

beforeAll(async () => {
  starter = (await loadStarterLibrary()) as unknown as Starter;
});
beforeEach(async () => {
  academyId = (await buildAcademy()).id;
  baseEditionId = (await buildLibrary(academyId)).id;
  [head, coach, otherCoach] = [await signIn("head-coach", "Hedda Harnisch"), await signIn("coach", "Corin Caddel"), await signIn("coach", "Odo Orrell")];
});

describe("finding in the library", () => {
  test("every name and every synonym lands on its one fault, however a coach types it (N01)", async () => {
    const wordings = starter.faults.faults.flatMap(({ id, name, synonyms }) => [name, ...synonyms].map((wording) => ({ id, wording })));
    expect(wordings.length).toBeGreaterThan(150);
    for (const { id, wording } of wordings) {
      const { faults } = await searchLibrary.as(coach, { text: ` ${wording.toUpperCase()}. ` });
      expect(faults[0]?.id, wording).toBe(id);
    }
  });

  test("what has no such word finds nothing, and nothing asked finds nothing", async () => {
    expect(await searchLibrary.as(coach, { text: "xylophone" })).toEqual({ text: "xylophone", faults: [], drills: [] });
    expect((await searchLibrary.as(coach, { text: "  " })).faults).toEqual([]);
  });

  test("the first page holds every fault under one area and every drill under one set-up", async () => {
    const index = await getLibraryIndex.as(coach, {});
    expect(index.areas.flatMap(({ faults }) => faults).length).toBe(45);
    expect(index.setups.flatMap(({ drills }) => drills).length).toBe(81);
  });

  test("a fault's page tells bands in words and which checkpoints are read by the program", async () => {
    const fault = await getFault.as(coach, { id: "back-foot-overspin" });
    expect(fault.comesFrom[0]).toMatchObject({ id: "ins-spin-foot", kind: "root" });
    expect(fault.leadsTo.map(({ id }) => id)).toContain("front-shoulder-opens");
    const measured = fault.checkpoints.find(({ id }) => id === "front-knee-firming");
    expect(measured).toMatchObject({ isMeasured: true, countsFrom: "under 3°" });
    expect(fault.checkpoints.find(({ id }) => id === "back-foot-spin-lead")).toMatchObject({ isMeasured: true, countsFrom: "over 28°" });
    expect(fault.drills.length).toBeGreaterThan(0);
  });
});

describe("a change of the library", () => {
  test("is proposed by a coach, approved by the head coach, and makes the next edition; the edition before stays word for word", async () => {
    const before = await database().edition.findUniqueOrThrow({ where: { id: baseEditionId } });
    const proposalId = await propose({ name: "Mirror gather check", steps: "Stand side-on to a mirror.\nGather slowly.\n\nHold two seconds." });
    const seen = await getProposal.as(head, { proposalId });
    expect(seen).toMatchObject({ state: "open", proposedBy: "Corin Caddel", problems: [], can: { decide: true, withdraw: false } });
    expect(seen.differences.map(({ field }) => field)).toEqual(["name", "steps"]);

    await approveProposal.as(head, { proposalId });

    const inForce = await getEditionInForce.as(coach, {});
    expect(inForce?.number).toBe(2);
    expect(inForce?.contentHash).not.toBe(before.contentHash);
    expect(await database().edition.findUniqueOrThrow({ where: { id: baseEditionId } })).toEqual(before);
    expect(await contentHash(before.snapshot)).toBe(before.contentHash);
    const drill = await getDrill.as(otherCoach, { id: "mirror-load" });
    expect(drill).toMatchObject({ name: "Mirror gather check", steps: ["Stand side-on to a mirror.", "Gather slowly.", "Hold two seconds."] });
    expect(drill.history).toMatchObject([{ editionNumber: 2, by: "Corin Caddel", reason: "Clearer for our kids" }]);
    const { snapshot, contentHash: hash } = await database().edition.findUniqueOrThrow({ where: { id: inForce?.id } });
    expect(await readWorkingTables(database(), academyId)).toEqual(snapshot);
    expect(await contentHash(snapshot)).toBe(hash);
    const { rows } = await listEditions.as(coach, {});
    expect(rows.map(({ number, approvedBy, isInForce }) => [number, approvedBy, isInForce])).toEqual([[2, "Hedda Harnisch", true], [1, null, false]]);
    expect((await getProposal.as(coach, { proposalId })).differences.find(({ field }) => field === "name")?.runs.map(({ kind }) => kind)).toContain("removed");
  });

  test("of a fault changes its names and what finds it", async () => {
    const proposalId = proposalIdOf(await proposeChange.as(coach, {
      subject: "fault", recordId: "back-foot-overspin", baseEditionId, reason: "Our coaches say so", synonyms: "spinning out\ncorkscrew foot", looksSide: "The heel whips round.",
    }));
    await approveProposal.as(head, { proposalId });
    expect((await searchLibrary.as(coach, { text: "corkscrew foot" })).faults[0]).toMatchObject({ id: "back-foot-overspin", matched: "corkscrew foot" });
    const names = await database().faultName.findMany({ where: { academyId, faultId: "back-foot-overspin" }, select: { name: true } });
    expect(names.map(({ name }) => name).sort()).toEqual(["Over-spinning the back foot", "corkscrew foot", "spinning out"]);
    expect((await getFault.as(coach, { id: "back-foot-overspin" })).looks.side).toBe("The heel whips round.");
  });

  test("that is not approved is in no drill that anybody plans with, whoever asks (N03)", async () => {
    await propose({ name: "A name nobody approved" });
    await proposeNewDrill.as(coach, { likeId: "mirror-load", name: "Window load check", baseEditionId, reason: "No mirror at home" });
    for (const actor of [coach, otherCoach, head]) {
      const told = JSON.stringify([
        await getDrillsForPlanning.as(actor, {}), await searchLibrary.as(actor, { text: "check" }), await getLibraryIndex.as(actor, {}), await getDrill.as(actor, { id: "mirror-load" }),
      ]);
      expect(told).not.toContain("nobody approved");
      expect(told).not.toContain("indow load check");
    }
  });

  test("a new drill keeps the limits of the drill it is like, and shows in planning once it is approved", async () => {
    const proposalId = proposalIdOf(await proposeNewDrill.as(coach, { likeId: "mirror-load", name: "Window load check", baseEditionId, reason: "No mirror at home" }));
    await approveProposal.as(head, { proposalId });
    const { drills } = await getDrillsForPlanning.as(otherCoach, {});
    const [like, made] = ["mirror-load", "window-load-check"].map((id) => drills.find((drill) => drill.id === id));
    expect(made).toEqual({ ...like, id: "window-load-check", name: "Window load check", next: null, easier: null });
    expect(await readWorkingTables(database(), academyId)).toEqual((await database().edition.findFirstOrThrow({ where: { academyId, number: 2 } })).snapshot);
    await expect(proposeNewDrill.as(coach, { likeId: "mirror-load", name: "Window Load-Check", baseEditionId, reason: "No mirror at home" })).rejects.toThrow(/this name already/);
  });

  test("two changes of one field: the first is taken, the second is a conflict named by its field and changes nothing", async () => {
    const [first, second] = [await propose({ name: "Mirror gather" }), await propose({ name: "Mirror pocket" }, otherCoach)];
    await approveProposal.as(head, { proposalId: first });
    await expect(approveProposal.as(head, { proposalId: second })).rejects.toThrow(/drills › mirror-load › name: "name" has changed/);
    expect(await nameInForce()).toBe("Mirror gather");
    const left = await getProposal.as(head, { proposalId: second });
    expect(left.state).toBe("open");
    expect(left.problems.map(({ field }) => field)).toEqual(["name"]);
    expect(left.differences[0]?.hasConflict).toBe(true);
    expect((await getEditionInForce.as(head, {}))?.number).toBe(2);
  });

  test("an approval that meets another one's edition is told so, and takes nothing", async () => {
    const proposalId = await propose({ name: "Mirror gather" });
    const pending = await inTransaction(async (tx) => {
      const { id: _id, ...first } = await tx.edition.findUniqueOrThrow({ where: { id: baseEditionId } });
      await tx.edition.create({ data: { ...first, id: newId(), number: 2, snapshot: first.snapshot as object } });
      const outcome = approveProposal.as(head, { proposalId }).then(() => "approved", String);
      const waiting = async () => (await database().$queryRaw<unknown[]>`SELECT 1 FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'`).length > 0;
      while (!(await waiting())) await new Promise((resolve) => setTimeout(resolve, 20));
      return { outcome };
    });
    expect(await pending.outcome).toMatch(/at the same moment/);
    expect(await nameInForce()).toBe("Mirror load check");
    expect((await getProposal.as(head, { proposalId })).state).toBe("open");
  });

  test("two approvals at the same moment: one edition follows, the loser is told, and tables and edition agree", async () => {
    const both = [await propose({ name: "Mirror gather" }), await propose({ purpose: "See a gather without a ball at all." }, otherCoach)];
    const outcomes = await Promise.allSettled(both.map((proposalId) => approveProposal.as(head, { proposalId })));
    const refused = outcomes.filter((outcome) => outcome.status === "rejected");
    for (const { reason } of refused) expect(String(reason)).toMatch(/at the same moment/);
    const edition = await database().edition.findFirstOrThrow({ where: { academyId }, orderBy: { number: "desc" } });
    expect(edition.number).toBe(1 + outcomes.length - refused.length);
    expect(await readWorkingTables(database(), academyId)).toEqual(edition.snapshot);
  });

  test("written against an older edition is compared with what is in force", async () => {
    await approveProposal.as(head, { proposalId: await propose({ name: "Mirror gather" }) });
    await expect(propose({ name: "Mirror pocket" }, otherCoach)).rejects.toMatchObject({ fields: { name: expect.stringMatching(/has changed since/) } });
    expect(await propose({ purpose: "See the gather." }, otherCoach)).toBeTruthy();
  });

  test("is approved and declined by the head coach only, and taken back by its writer only", async () => {
    const proposalId = await propose({ name: "Mirror gather" });
    for (const actor of [coach, otherCoach, await signIn("admin", "Ada Office")]) {
      await expect(approveProposal.as(actor, { proposalId })).rejects.toThrow(/no such/);
      await expect(declineProposal.as(actor, { proposalId, words: "not for us now" })).rejects.toThrow(/no such/);
    }
    await expect(withdrawProposal.as(otherCoach, { proposalId })).rejects.toThrow(/no such/);
    await withdrawProposal.as(coach, { proposalId });
    await expect(approveProposal.as(head, { proposalId })).rejects.toThrow(/decided already/);
    expect(await nameInForce()).toBe("Mirror load check");
    expect((await listProposals.as(head, { state: "withdrawn" })).rows.map(({ id }) => id)).toEqual([proposalId]);
    expect((await listProposals.as(head, {})).rows).toEqual([]);
  });

  test("that is declined keeps the words it was declined with", async () => {
    const proposalId = await propose({ name: "Mirror gather" });
    await declineProposal.as(head, { proposalId, words: "The old name is known" });
    expect(await getProposal.as(coach, { proposalId })).toMatchObject({ state: "declined", answer: "The old name is known", decidedBy: "Hedda Harnisch" });
  });

  const refusals: [string, Record<string, unknown>, RegExp][] = [
    ["without a reason of three words", { name: "Mirror gather", reason: "Because" }, /three words/],
    ["that changes nothing", { name: "Mirror load check" }, /changes nothing/],
    ["for children below eight", { minAge: "7" }, /At least 8/],
    ["of a field that no proposal changes", { adult: "none" }, /adult/],
    ["with too few steps", { steps: "Stand there." }, /three steps at least/],
  ];
  test.each(refusals)("%s is refused, and nothing is kept", async (_, fields, words) => {
    await expect(propose(fields)).rejects.toThrow(words);
    expect(await database().proposal.count({ where: { academyId } })).toBe(0);
  });

  test("a proposal of another academy is not there", async () => {
    const proposalId = await propose({ name: "Mirror gather" });
    academyId = (await buildAcademy()).id;
    await buildLibrary(academyId);
    const headElsewhere = await signIn("head-coach", "Elsa Elsewhere");
    await expect(getProposal.as(headElsewhere, { proposalId })).rejects.toThrow(/no such/);
    await expect(approveProposal.as(headElsewhere, { proposalId })).rejects.toThrow(/no such/);
  });
});
