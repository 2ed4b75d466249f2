import { importLibrary } from "@/lib/domains/library/commands";
import type { Id } from "@/lib/core/ids";
import { inTransaction } from "@/lib/platform/database";
import { loadStarterLibrary } from "@/seed/library";

/** Gives an academy the starter library as its first edition. */
export async function buildLibrary(academyId: Id) {
  const files = await loadStarterLibrary();
  return inTransaction((tx) => importLibrary(tx, academyId, files, { approvedById: null }));
}
