import Link from "next/link";
import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { currentSay } from "@/lib/access/current-say";
import { countNewMessages } from "@/lib/domains/messages/queries";
import { LanguageSwitch } from "@/lib/domains/identity/components/language-switch";
import { getMe } from "@/lib/domains/identity/queries";
import { getFamilyPlayers } from "@/lib/domains/roster/queries";
import { RunningHead } from "@/lib/ui/running-head";
import { Thumbs } from "@/lib/ui/thumbs";

/** The ways round of one player's portal. Names are shown here and never stand in an address. */
export default async function PlayerLayout({ children, params }: { children: ReactNode; params: Promise<{ playerId: string }> }) {
  const { playerId } = await params;
  const me = await getMe({});
  const players = await getFamilyPlayers({});
  const player = players.find(({ id }) => id === playerId);
  if (!player) notFound();
  const say = await currentSay();
  const base = `/family/${playerId}`;
  const newMessages = await countNewMessages({ playerId });
  const places = [
    { href: `${base}/today`, label: say("Today"), also: [`${base}/sheet`] },
    { href: `${base}/notes`, label: say("Notes") },
    { href: `${base}/swing`, label: me.role === "player" ? say("My swing") : say("Swing"), also: [`${base}/clips`] },
    { href: `${base}/messages`, label: newMessages > 0 ? say("Messages ({count})", { count: newMessages }) : say("Messages") },
    ...(me.role === "guardian" ? [{ href: `${base}/parents`, label: say("For parents") }] : []),
  ];
  return (
    <>
      <RunningHead
        house={{ name: me.academyName, href: `${base}/today` }}
        items={places}
        say={say}
        who={
          <>
            {players.length > 1 ? (
              <div className="pick" role="navigation" aria-label={say("Whose pages")}>
                {players.map(({ id, givenName }) => (
                  <Link key={id} href={`/family/${id}/today`} aria-current={id === playerId ? "true" : undefined}>
                    {givenName}
                  </Link>
                ))}
              </div>
            ) : me.role === "guardian" ? (
              <span>{player.name}</span>
            ) : null}
            <LanguageSwitch />
            <Link href="/account" className={players.length > 1 ? "only-wide" : undefined}>
              {me.name}
            </Link>
            <Link href={`${base}/hurts`} className="hurts only-wide">
              {say("It hurts")}
            </Link>
          </>
        }
      />
      {children}
      <Thumbs items={[...places, { href: `${base}/hurts`, label: say("It hurts"), isStrong: true }]} say={say} />
    </>
  );
}
