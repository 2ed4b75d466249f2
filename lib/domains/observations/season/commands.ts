import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError } from "@/lib/core/errors";
import { newId } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayerFacts } from "@/lib/domains/roster/queries";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { orConflict } from "../commands";
import { readLibraryForRanking } from "../scope";
import { keepsItsDrills, whyNotInSeason } from "./rules";
import type { AgreeInSeasonInput } from "./schema";
import { readSeasonCase } from "./scope";

/** Keeps the head coach's yes with its reason, for the season that holds today. Any coach of the player may then choose it. */
export async function agreeInSeason(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "reasoning.agree-in-season">, input: AgreeInSeasonInput): Promise<string> {
  const { academyId, id: playerId } = player;
  const { side, faultId, reason } = input;
  const facts = await getPlayerFacts.as(actor, { playerId }, tx);
  if (!facts.sides.some((known) => known.side === side)) throw new InvalidError(`${facts.givenName} has no record for the ${side} side. Nothing was changed.`);
  const library = await readLibraryForRanking(tx, academyId);
  const fault = library?.parts.faults.faults.find(({ id }) => id === faultId);
  if (!fault || library?.retired.has(faultId)) throw new InvalidError("The library has no such fault. Nothing was changed.");
  const asked = await readSeasonCase(tx, { academyId, playerId, side }, facts.season, actor.timeZone);
  const keeps = keepsItsDrills(asked, fault);
  if (!asked.season || (whyNotInSeason(asked, fault) === null && !keeps)) throw new ConflictError(`The season does not stand in the way of “${fault.name}”. Nothing was changed.`);
  const row = { id: newId(), academyId, playerId, side, faultId, seasonId: asked.season.id, reason, saidById: actor.userId, saidAt: now() };
  await orConflict(tx.seasonYes.create({ data: row }), `“${fault.name}” was agreed to already.`);
  return `Agreed: “${fault.name}” may ${keeps ? "have other drills and larger doses" : "become the focus"}. Your reason is kept.`;
}
