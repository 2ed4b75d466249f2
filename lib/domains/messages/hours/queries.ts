import { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import { listHours } from "./policy";
import type { ContactHours } from "./rules";
import { hoursOf } from "./scope";

export interface LocationHours extends ContactHours {
  readonly locationId: Id;
  readonly name: string;
  readonly timeZone: string;
}

/** Between which hours messages go out, for every location of the academy. */
export const listContactHours = defineQuery({
  name: "messages.list-hours",
  input: z.object({}),
  policy: mayInAcademy(listHours),
  run: async ({ actor, db }): Promise<LocationHours[]> => {
    const rows = await db.location.findMany({
      where: { academyId: actor.academyId },
      orderBy: [{ name: "asc" }, { id: "asc" }],
      select: { id: true, name: true, timeZone: true, contactHours: { select: { opensHour: true, closesHour: true } } },
    });
    return rows.map(({ id, name, timeZone, contactHours }) => ({ locationId: id, name, timeZone, ...hoursOf(contactHours) }));
  },
});
