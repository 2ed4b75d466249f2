import { currentSay, titled } from "@/lib/access/current-say";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const generateMetadata = titled("Not found");

export default async function NotFound() {
  const say = await currentSay();
  return (
    <Leaf>
      <Problem
        level="h1"
        happened={say("There is no such page, or it is not yours to see.")}
        kept={say("Nothing was changed.")}
        todo={say("The address may be old. Start again from your first page.")}
        action={<ButtonLink href="/" kind="main">{say("To my first page")}</ButtonLink>}
      />
    </Leaf>
  );
}
