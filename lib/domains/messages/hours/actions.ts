"use server";

import type { z } from "zod";
import { defineAction } from "@/lib/access/define-action";
import { may } from "@/lib/access/guard";
import { setContactHours } from "./commands";
import { setHours, type LocationSubject } from "./policy";
import { hourWords } from "./rules";
import { setHoursForm } from "./schema";
import { findLocationSubject } from "./scope";

export const setHoursOfLocation = defineAction({
  name: "messages.set-hours",
  input: setHoursForm,
  policy: may<z.infer<typeof setHoursForm>, LocationSubject, "messages.set-hours">(setHours, (input, db, actor) => findLocationSubject(db, actor.academyId, input.locationId)),
  run: async ({ actor, input, granted, tx }) => {
    const { opensHour, closesHour } = input;
    await setContactHours(tx, actor, granted, { opensHour, closesHour });
    return { message: `Kept. Messages go out from ${hourWords(opensHour)} to ${hourWords(closesHour)}.` };
  },
});
