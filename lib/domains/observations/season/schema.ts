import type { z } from "zod";
import { overruleForm } from "../schema";

/** A yes names side and fault and says why, as an overruling does. */
export const agreeInSeasonForm = overruleForm;
export type AgreeInSeasonInput = z.infer<typeof agreeInSeasonForm>;
