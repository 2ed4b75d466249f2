import { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import { idForm } from "@/lib/domains/roster/schema";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { Database } from "@/lib/platform/database";
import { seeReasoning } from "../policy";
import { gatherInput } from "../rules";
import { playerSideForm } from "../schema";
import { namesOfUsers, readEvidence, readLibraryForRanking } from "../scope";
import { workOutOnce } from "../working-out/rules";
import type { CoachColumn, CoachViewsView } from "./view";

const coachViewsForm = playerSideForm.extend({ swingId: idForm });
const subjectOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

/** One swing as each coach who called it sees it, side by side: the calls, and what would come first by them. */
export const getCoachViews = defineQuery({
  name: "observations.get-coach-views",
  input: coachViewsForm,
  policy: may<z.infer<typeof coachViewsForm>, PlayerSubject, "reasoning.see">(seeReasoning, subjectOf),
  run: async ({ actor, input, granted, db }): Promise<CoachViewsView> => {
    const { academyId, id: playerId } = granted;
    const player = await getPlayer.as(actor, { playerId }, db);
    const facts = await getPlayerFacts.as(actor, { playerId }, db);
    const library = await readLibraryForRanking(db, academyId);
    const kind = await db.swing.findFirst({ where: { id: input.swingId, academyId, playerId, side: input.side }, select: { swingKind: true } });
    if (!library || !kind || !facts.sides.some(({ side }) => side === input.side)) throw new NotFoundError();
    const { given, swings, observations } = await readEvidence(db, facts, academyId, input.side, library, kind.swingKind);
    const swing = swings.filter(({ id }) => id === input.swingId);
    const onSwing = observations.filter(({ swingId }) => swingId === input.swingId);
    const coachIds = [...new Set(onSwing.map(({ calledById }) => calledById))].sort();
    const names = await namesOfUsers(db, academyId, coachIds);
    const callsOf = (coachId: Id) => onSwing.filter(({ calledById }) => calledById === coachId);
    const coaches = coachIds.map((coachId): CoachColumn => {
      const own = new Set(callsOf(coachId).map(({ id }) => id));
      const run = gatherInput({
        ...given, swings: swing, calls: given.calls.filter(({ id }) => own.has(id)), readings: given.readings.filter(({ swingId }) => swingId === input.swingId), overruled: [],
      });
      const output = workOutOnce(library.editionId, library.parts, run);
      const first = output.outcome === "ranked" && output.isEnoughSeen ? output.candidates.map(({ name }) => name) : [];
      const why = output.outcome === "ranked" ? (output.isEnoughSeen ? null : "not enough seen yet") : output.outcome === "too-wide" ? "too little called to say at once" : "these calls cannot all hold";
      return { coachId, name: names.get(coachId) ?? "A coach", first, why };
    });
    const faultIds = [...new Set(onSwing.map(({ faultId }) => faultId))];
    const rows = faultIds.map((faultId) => {
      const states = coachIds.map((coachId) => given.calls.find(({ id }) => callsOf(coachId).some((row) => row.id === id && row.faultId === faultId))?.state ?? null);
      const said = new Set(states.filter((state) => state !== null && state !== "not-visible"));
      return { faultId, name: library.parts.faults.faults.find(({ id }) => id === faultId)?.name ?? faultId, isDifferent: said.size > 1, states };
    });
    return {
      playerId, playerName: player.name, swingId: input.swingId, coaches,
      rows: rows.sort((a, b) => Number(b.isDifferent) - Number(a.isDifferent) || (a.name < b.name ? -1 : 1)),
    };
  },
});
