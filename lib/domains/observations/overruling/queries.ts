import { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import { readOverrules } from "../policy";
import { namesOfUsers, readLibraryForRanking } from "../scope";
import type { RunOutput } from "../working-out/rules";
import { overruleHints, type OverruleHintView, type OverruleRow } from "./view";

const noInput = z.object({});
/** More than a head coach reads at a time. */
const MOST_ROWS = 400;

/** What coaches said no to, how often and why: a hint that a strength of the library is wrong. */
export const listOverruleHints = defineQuery({
  name: "observations.list-overrule-hints",
  input: noInput,
  policy: mayInAcademy<z.infer<typeof noInput>, "reasoning.read-overrules">(readOverrules),
  run: async ({ actor, db }): Promise<OverruleHintView[]> => {
    const { academyId } = actor;
    const library = await readLibraryForRanking(db, academyId);
    if (!library) throw new NotFoundError("library");
    const found = await db.overrule.findMany({
      where: { academyId }, orderBy: [{ at: "desc" }, { id: "asc" }], take: MOST_ROWS,
      select: { id: true, faultId: true, playerId: true, reason: true, byId: true, at: true, undoneAt: true, rankingRun: { select: { output: true } } },
    });
    // Runs are written by the ranking in its own form.
    const rows = found.map(({ rankingRun, ...row }): OverruleRow => ({ ...row, output: rankingRun.output as unknown as RunOutput }));
    const chosen = await db.focus.findMany({ where: { academyId, faultId: { in: rows.map(({ faultId }) => faultId) } }, select: { faultId: true } });
    return overruleHints(library.parts, rows, chosen, await namesOfUsers(db, academyId, rows.map(({ byId }) => byId)));
  },
});
