import { InviteStaffForm } from "@/lib/domains/identity/components/staff-forms";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Invite somebody" };

export default function InvitePage() {
  return (
    <Leaf>
      <Opening title="Invite somebody" sub="A coach sees only the players assigned to them; a head coach sees all; an admin keeps the roster." />
      <Entry side="Who" isStrong label="Who">
        <InviteStaffForm />
      </Entry>
    </Leaf>
  );
}
