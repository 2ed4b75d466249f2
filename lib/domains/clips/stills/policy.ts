import { ability } from "@/lib/access/ability";
import type { SwingSubject } from "../policy";
import { stillsChanged } from "./events";

/** Cuts the stills of a swing's clips: the worker's business. */
export const cutStills = ability<SwingSubject>()("swing.cut-stills", () => false, [stillsChanged.name]);
