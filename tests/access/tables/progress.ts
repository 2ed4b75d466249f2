import type { AccessRow } from "../row";

export const rows: readonly AccessRow[] = [{ name: "progress.get-my-swing", may: ["player", "guardian"], input: (cast) => ({ playerId: cast.playerId }) }];
