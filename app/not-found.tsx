import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata = { title: "Not found" };

export default function NotFound() {
  return (
    <Leaf>
      <Problem
        level="h1"
        happened="There is no such page, or it is not yours to see."
        kept="Nothing was changed."
        todo="The address may be old. Start again from your first page."
        action={<ButtonLink href="/" kind="main">To my first page</ButtonLink>}
      />
    </Leaf>
  );
}
