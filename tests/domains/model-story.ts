import { newId, type Id } from "@/lib/core/ids";
import { dayValue } from "@/lib/core/days";
import { database } from "@/lib/platform/database";
import type { ModelFields } from "@/lib/domains/clips/models/schema";

/** What the head coach says of a model, as a form sends it. */
export const modelFields: ModelFields = {
  label: "Quiet hands", sport: "softball", level: "11-12", body: "growing", heightM: 1.47, task: "tee", pitchHeight: "belt", pitchSide: "middle",
  rightHolder: "the family", rightBasis: "written-consent", rightUntil: "2027-05-01", rightNote: "",
};

/** A model as a row, whatever the consents say. */
export async function buildModel(given: { academyId: Id; playerId: Id; swingId: Id; userId: Id } & Partial<Omit<ModelFields, "body">> & { isAdult?: boolean; withdrawnAt?: Date }) {
  const { userId, isAdult = false, withdrawnAt, rightUntil, ...more } = given;
  const { body: _, ...fields } = modelFields;
  return database().modelSwing.create({
    data: {
      ...fields, ...more, id: newId(), isAdult, rightUntil: dayValue(rightUntil ?? fields.rightUntil), recordedById: userId, recordedAt: new Date("2026-11-20T10:00:00Z"),
      ...(withdrawnAt ? { withdrawnAt, withdrawnById: userId } : {}),
    },
  });
}
