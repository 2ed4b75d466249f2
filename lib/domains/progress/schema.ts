import { z } from "zod";
import { SIDES } from "@/lib/domains/clips/schema";
import { idForm } from "@/lib/domains/roster/schema";

export const mySwingForm = z.object({ playerId: idForm, side: z.enum(SIDES).optional() });
