import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { LocationSubject } from "./policy";
import { USUAL_HOURS, type ContactHours } from "./rules";

/** The hours of a location, from its row or the usual ones. */
export function hoursOf(row: ContactHours | null): ContactHours {
  return row ? { opensHour: row.opensHour, closesHour: row.closesHour } : USUAL_HOURS;
}

export async function findLocationSubject(db: Database, academyId: Id, locationId: Id): Promise<LocationSubject | null> {
  return db.location.findFirst({ where: { id: locationId, academyId }, select: { id: true, academyId: true } });
}
