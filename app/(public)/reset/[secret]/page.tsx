import { currentSay, titled } from "@/lib/access/current-say";
import { LinkPage } from "@/lib/domains/identity/components/link-page";
import { getLink } from "@/lib/domains/identity/queries";

export const generateMetadata = titled("A new password");

export default async function ResetLinkPage({ params }: { params: Promise<{ secret: string }> }) {
  const { secret } = await params;
  return <LinkPage link={await getLink({ secret })} secret={secret} say={await currentSay()} />;
}
