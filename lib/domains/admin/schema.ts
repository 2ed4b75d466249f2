import { z } from "zod";
import { isId, type Id } from "@/lib/core/ids";

export const listAuditForm = z.object({ after: z.custom<Id>(isId).optional() });
