import type { Id } from "@/lib/core/ids";

/** Where the small still of a film's frame lies: in the folder of the film's own bytes, so that it goes with them. */
export const smallKey = (academyId: Id, contentHash: string, filmFrame: number) => `${academyId}/${contentHash}/small/${filmFrame}.webp`;
