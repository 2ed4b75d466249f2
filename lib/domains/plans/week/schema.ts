import { z } from "zod";
import { weekdaysForm } from "@/lib/domains/roster/loads/schema";
import { idForm } from "@/lib/domains/roster/schema";
import { PRACTICE_ORDERS } from "@/lib/prescribe/week/request";

export const suggestWeekForm = z.object({
  planId: idForm,
  practiceOrder: z.enum(PRACTICE_ORDERS, "Choose how practice is laid out."),
  /** What the page showed of the drills. */
  seen: z.string().max(2000).optional(),
});
export const setWeekdaysForm = z.object({ planId: idForm, drillId: z.string().max(80), weekdays: weekdaysForm });
