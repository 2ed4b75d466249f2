import { z } from "zod";
import { defineRoute } from "@/lib/access/define-route";
import { anyone } from "@/lib/access/guard";

/** Whether the pages and the database behind them answer; says nothing about anybody. */
export const health = defineRoute({
  name: "admin.health",
  read: () => ({}),
  input: z.object({}),
  policy: anyone("a probe asks before anybody can be signed in, and learns only that we answer"),
  async run({ db }) {
    await db.$queryRaw`SELECT 1`;
    return Response.json({ status: "well" }, { headers: { "cache-control": "no-store" } });
  },
});
