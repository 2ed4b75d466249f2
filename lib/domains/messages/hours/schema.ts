import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";

const hour = (least: number, most: number) => z.coerce.number({ error: "Choose an hour." }).int("Choose an hour.").min(least, "Choose an hour.").max(most, "Choose an hour.");

export const setHoursForm = z.object({ locationId: idForm, opensHour: hour(0, 23), closesHour: hour(1, 24) });
