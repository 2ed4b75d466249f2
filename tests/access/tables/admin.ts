import type { AccessRow } from "../row";

export const rows: readonly AccessRow[] = [{ name: "admin.list-audit", may: ["admin", "adminElsewhere"], input: () => ({}) }];
