import type { Metadata } from "next";
import { OverruleHints } from "@/lib/domains/observations/components/overrule-hints";
import { listOverruleHints } from "@/lib/domains/observations/overruling/queries";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Overruled" };

export default async function OverruledPage() {
  const hints = await listOverruleHints({});
  return (
    <Leaf>
      <Opening title="Overruled" sub="Where coaches said no to what came first, and why. One no is a coach who knows the player; many are a hint that a strength of the library is wrong." />
      <OverruleHints hints={hints} />
    </Leaf>
  );
}
