import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { settings } from "@/lib/platform/settings";
import { seeSwing, type SwingSubject } from "../policy";
import { clipIdForm } from "../schema";
import { findSwingOfClip } from "../scope";
import { seeSuggestionErrors } from "./policy";
import { noInputForm, notSuggestedForm } from "./schema";
import { readLastLook } from "./scope";
import type { SuggestionErrorRow, SuggestionErrors, Suggesting } from "./view";

/** Whether points are suggested on a clip, and why not. */
export const getSuggesting = defineQuery({
  name: "clips.get-suggesting",
  input: clipIdForm,
  policy: may<z.infer<typeof clipIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingOfClip(db, actor.academyId, input.clipId)),
  run: async ({ input, granted, db }): Promise<Suggesting> => {
    const { run, frames } = await readLastLook(db, { academyId: granted.academyId, id: input.clipId });
    const found = frames.filter(({ presence }) => presence !== null).length;
    if (run?.model && run.modelVersion && found > 0) return { is: "done", frames: frames.length, found, model: run.model, version: run.modelVersion };
    if (settings().SUGGEST_POINTS === "off") return { is: "not", why: "off" };
    const why = notSuggestedForm.safeParse(run?.reason);
    return why.success && why.data !== "off" ? { is: "not", why: why.data } : { is: "waiting" };
  },
});

type ErrorRow = { [K in keyof SuggestionErrorRow]: SuggestionErrorRow[K] };

/**
 * How far off the model is, from what coaches did with its suggestions: a point that was taken as it was counts as answered, the distances are those
 * of points that were moved or had been placed beside it. A clip's torso is the median of those suggested on it.
 */
export const getSuggestionErrors = defineQuery({
  name: "clips.get-suggestion-errors",
  input: noInputForm,
  policy: mayInAcademy(seeSuggestionErrors),
  run: async ({ granted: { academyId }, db }): Promise<SuggestionErrors> => {
    const rows = await db.$queryRaw<ErrorRow[]>`
      WITH pair AS (
        SELECT s."clipId", s."frameIndex", split_part(s."point", '_', 1) AS joint, s."xPx" = p."xPx" AND s."yPx" = p."yPx" AS is_taken, sqrt((s."xPx" - p."xPx") ^ 2 + (s."yPx" - p."yPx") ^ 2) AS px
        FROM "ClipPoint" s
        JOIN "ClipPoint" p ON p."academyId" = s."academyId" AND p."clipId" = s."clipId" AND p."frameIndex" = s."frameIndex" AND p."point" = s."point" AND p."source" = 'placed'
        WHERE s."academyId" = ${academyId}::uuid AND s."source" = 'suggested' AND s."setById" IS NULL
      ), trunk AS (
        SELECT "clipId", "frameIndex",
          sqrt((sum(CASE WHEN "point" LIKE 'sh%' THEN "xPx" ELSE -"xPx" END) / 2) ^ 2 + (sum(CASE WHEN "point" LIKE 'sh%' THEN "yPx" ELSE -"yPx" END) / 2) ^ 2) AS px
        FROM "ClipPoint"
        WHERE "academyId" = ${academyId}::uuid AND "source" = 'suggested' AND "point" IN ('sh_f', 'sh_b', 'hip_f', 'hip_b') AND "clipId" IN (SELECT "clipId" FROM pair)
        GROUP BY "clipId", "frameIndex" HAVING count(*) = 4
      ), torso AS (
        SELECT "clipId", percentile_cont(0.5) WITHIN GROUP (ORDER BY px) AS px FROM trunk GROUP BY "clipId"
      )
      SELECT c."view", pair.joint, count(*)::int AS answered, count(*) FILTER (WHERE is_taken)::int AS taken,
        percentile_cont(0.5) WITHIN GROUP (ORDER BY pair.px) FILTER (WHERE NOT is_taken) AS "medianPx",
        percentile_cont(0.95) WITHIN GROUP (ORDER BY pair.px) FILTER (WHERE NOT is_taken) AS "p95Px",
        percentile_cont(0.5) WITHIN GROUP (ORDER BY pair.px / nullif(torso.px, 0)) FILTER (WHERE NOT is_taken) AS "medianTorso",
        percentile_cont(0.95) WITHIN GROUP (ORDER BY pair.px / nullif(torso.px, 0)) FILTER (WHERE NOT is_taken) AS "p95Torso"
      FROM pair JOIN "Clip" c ON c."id" = pair."clipId" LEFT JOIN torso ON torso."clipId" = pair."clipId"
      GROUP BY c."view", pair.joint ORDER BY c."view", pair.joint`;
    const exchangedByHand = await db.clipPoint.count({ where: { academyId, source: "suggested", setById: { not: null } } });
    const models = await db.suggestingRun.findMany({ where: { academyId, outcome: "done" }, distinct: ["model", "modelVersion"], orderBy: [{ model: "asc" }, { modelVersion: "asc" }], select: { model: true, modelVersion: true } });
    return { rows, exchangedByHand, models: models.map(({ model, modelVersion }) => `${model} ${modelVersion}`) };
  },
});
