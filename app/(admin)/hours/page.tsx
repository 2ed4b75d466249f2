import { HoursList } from "@/lib/domains/messages/components/hours-list";
import { listContactHours } from "@/lib/domains/messages/hours/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Hours for messages" };

export default async function HoursPage() {
  return (
    <Leaf>
      <Opening
        title="Hours for messages"
        sub="What a coach writes outside these hours goes when they begin. What a family writes can be read at once and rings nobody before then. Each location by its own clock."
        actions={<ButtonLink href="/roster">Roster</ButtonLink>}
      />
      <HoursList locations={await listContactHours({})} />
    </Leaf>
  );
}
