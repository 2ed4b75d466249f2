import type { ActionState } from "@/lib/core/action-state";

/** What an action came to: how it went, that it leads to another page, or that the line was lost and nobody knows. */
export async function outcomeOf(act: () => Promise<ActionState>): Promise<ActionState | "left" | "lost"> {
  return act().catch((problem: unknown) => (isLeaving(problem) ? "left" : "lost"));
}

/** The framework tells of another page by throwing. */
function isLeaving(problem: unknown): boolean {
  return typeof problem === "object" && problem !== null && "digest" in problem && String(problem.digest).startsWith("NEXT_REDIRECT");
}
