import { defineConfig } from "prisma/config";

// Only Prisma's own command line reads this; the running program reads its settings in lib/platform/settings.ts.
export default defineConfig({
  schema: "prisma",
  migrations: { path: "prisma/migrations" },
  datasource: { url: process.env.DATABASE_URL ?? "postgresql://postgres@127.0.0.1:5432/cagebook" },
});
