import { daysAfter } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { keepModel } from "@/lib/domains/clips/models/actions";
import { todayIn } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { buildConsent, buildPlayer } from "../builders/people";
import { ACADEMY } from "./people";
import type { Story } from "./scene";

/** A grown hitter whose record is kept for his swings: the academy may lay them beside a player's own. Nobody coaches him. */
export const MODEL_HITTER = { key: "brannick", givenName: "Brannick", familyName: "Osterley", sport: "baseball", bats: "both", heightM: 1.8 } as const;
const AGE_YEARS = 31;

/** Makes the model hitter of the demo academy, with both consents that a model needs; once. */
export async function buildModelHitter(academyId: Id): Promise<void> {
  const { givenName, familyName } = MODEL_HITTER;
  if ((await database().player.count({ where: { academyId, givenName, familyName } })) > 0) return;
  const location = await database().location.findFirstOrThrow({ where: { academyId }, orderBy: { name: "asc" } });
  const office = await database().roleGrant.findFirstOrThrow({ where: { academyId, role: "admin" }, orderBy: { from: "asc" } });
  const today = todayIn(ACADEMY.timeZone);
  const birthDate = `${Number(today.slice(0, 4)) - AGE_YEARS}-02-11`;
  const { id: playerId } = await buildPlayer({ academyId, locationId: location.id, ...MODEL_HITTER, birthDate });
  const validUntil = daysAfter(today, 300);
  for (const use of ["lesson", "staff-training"] as const) {
    await buildConsent({ academyId, playerId, recordedById: office.userId, use, givenOn: daysAfter(validUntil, -365), validUntil });
  }
}

const LABELS = { right: "Right-hander, long levers", left: "Left-hander, long levers" } as const;
const DAYS_OF_RIGHT = { right: 240, left: 120 } as const;

/** The head coach keeps the hitter's swing as a model, unless it was one before. */
export const keepAsModel: Story = async ({ swingId, side, coach }) => {
  if ((await database().modelSwing.count({ where: { swingId } })) > 0) return;
  await keepModel.as(coach, {
    swingId, label: LABELS[side], sport: MODEL_HITTER.sport, level: "adult", body: "grown", heightM: MODEL_HITTER.heightM, task: "tee", pitchHeight: "belt", pitchSide: "middle",
    rightHolder: "the hitter", rightBasis: "written-consent", rightUntil: daysAfter(coach.today, DAYS_OF_RIGHT[side]), rightNote: "The signed paper lies in the office.",
  });
};
