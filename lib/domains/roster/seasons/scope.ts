import type { Prisma } from "@/lib/platform/database";

/** More seasons than a player has in some years; those that were said before are over. */
const LOOKED_AT = 30;

/** What was said of a player's seasons, newest first. */
export const saidSeasons = {
  orderBy: [{ setAt: "desc" }, { id: "desc" }],
  take: LOOKED_AT,
  select: { id: true, season: true, from: true, until: true, firstGameOn: true },
} satisfies Prisma.Player$seasonsArgs;
