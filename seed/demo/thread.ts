import { DateTime } from "luxon";
import { daysAfter } from "@/lib/core/days";
import { todayIn } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { buildThread } from "../builders/messages";
import { ACADEMY } from "./people";
import type { Scene } from "./scene";

/** A short thread of yesterday afternoon, whose last question waits for the coach. Rows, since it lies in the past whenever the demo is made. */
export async function talk({ playerId, coach, player }: Scene): Promise<void> {
  const guardians = await database().guardianship.findMany({ where: { playerId, until: null }, orderBy: { user: { displayName: "desc" } }, select: { userId: true } });
  const [parent] = guardians;
  if (!player || !parent) return;
  const yesterday = daysAfter(todayIn(ACADEMY.timeZone), -1);
  const at = (time: string) => DateTime.fromISO(`${yesterday}T${time}`, { zone: ACADEMY.timeZone }).toJSDate().toISOString();
  await buildThread({
    academyId: coach.academyId,
    playerId,
    people: [...guardians.map(({ userId }) => ({ userId, part: "guardian" as const })), { userId: player.userId, part: "player" }, { userId: coach.userId, part: "coach" }],
    messages: [
      { by: coach.userId, words: "Good work today, Ines. The belt went first three times in a row. Keep the drills short this week.", at: at("16:10") },
      { by: player.userId, words: "ok! the slow one is hard", at: at("17:25") },
      { by: parent.userId, words: "She has a school trip on Friday. Is it fine if she does Friday’s drills on Saturday?", at: at("19:05") },
    ],
  });
}
