import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { readEdition } from "@/lib/domains/library/scope";
import { database } from "@/lib/platform/database";
import { ENGINE_VERSION } from "@/lib/reason/version";
import { workOutOrders } from "../policy";
import { keepInsight, keepOrder, keepSteadiness } from "./commands";
import { workAsked } from "./events";
import { insightOf, QUICKLY, REASONED_WIDTH, STEADY_WIDTH, steadinessOf, workOut, type RunInput } from "./rules";
import { readWork } from "./scope";

/** Works out what a page does not wait for: an order that must be sampled, reasons and questions of a wide one, and whether the first of it is steady. */
export const workOutOrder = defineJob(workAsked, async ({ payload, actor }) => {
  const found = await readWork(database(), payload.workId);
  if (!found || found.doneAt) return skipped(found ? "it was done before" : "nobody asks any more");
  if (found.engineVersion !== ENGINE_VERSION) return skipped("it was asked of another engine");
  const work = authorize(actor, workOutOrders, found);
  const { academyId, editionId } = found;
  const parts = await readEdition(database(), academyId, editionId);
  // It was written by the page's action in this very form.
  const input = found.input as unknown as RunInput;
  const quick = workOut(parts, input, QUICKLY);
  // The order first: somebody looks at the page.
  if (quick.outcome === "too-wide") await keepOrder(database(), work, workOut(parts, input));
  else if (quick.outcome === "ranked" && quick.width > REASONED_WIDTH) await keepInsight(database(), work, insightOf(parts, input, quick.candidates.map(({ id }) => id)));
  const isNarrow = quick.outcome !== "too-wide" && (quick.outcome !== "ranked" || quick.width <= STEADY_WIDTH);
  await keepSteadiness(database(), work, isNarrow ? steadinessOf(parts, input) : null);
  return DONE;
});
