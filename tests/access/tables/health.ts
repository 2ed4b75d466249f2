import type { AccessRow } from "../row";

export const rows: readonly AccessRow[] = [{ name: "admin.health", may: "everybody", input: () => ({}) }];
