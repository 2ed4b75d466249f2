import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import type { Database } from "@/lib/platform/database";
import type { Sight } from "@/lib/reason/types";
import { seeReasoning } from "../policy";
import { tallyForm } from "../schema";
import { readBalls, readLibraryForRanking, talliedBall } from "../scope";
import { symptomViews, tallyView, type TallyView } from "./view";

const subjectOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

/** The contact tally of a player's side: what is noted of a ball, the last balls, and what they say together. */
export const getTally = defineQuery({
  name: "observations.get-tally",
  input: tallyForm,
  policy: may<z.infer<typeof tallyForm>, PlayerSubject, "reasoning.see">(seeReasoning, subjectOf),
  run: async ({ actor, input, granted, db }): Promise<TallyView> => {
    const { academyId, id: playerId } = granted;
    const player = await getPlayer.as(actor, { playerId }, db);
    const facts = await getPlayerFacts.as(actor, { playerId }, db);
    const own = facts.sides.find(({ side }) => side === input.side);
    const library = await readLibraryForRanking(db, academyId);
    if (!own || !library) throw new NotFoundError();
    const balls = await readBalls(db, academyId, playerId, input.side, null);
    const kind = balls[0]?.swingKind;
    const calls = await db.symptomCall.findMany({ where: { academyId, playerId, side: input.side, replacedAt: null }, orderBy: { id: "asc" } });
    const symptoms = symptomViews({
      parts: library.parts, isSlapper: own.isSlapper,
      symptomCalls: calls.map(({ id, symptomId, state }) => ({ id, symptomId, state: state as Sight })),
      balls: balls.filter(({ swingKind }) => swingKind === kind).map(talliedBall),
    });
    return tallyView(library.parts, { playerId, name: player.name, side: input.side, isSlapper: own.isSlapper }, balls, symptoms);
  },
});
