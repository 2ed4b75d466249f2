import type { Metadata } from "next";
import Link from "next/link";
import { CheckpointSheet } from "@/lib/domains/observations/components/sheet/checkpoint-sheet";
import { ChooseModel } from "@/lib/domains/observations/components/sheet/choose-model";
import { ChooseSwings } from "@/lib/domains/observations/components/sheet/choose-swings";
import { OwnBest } from "@/lib/domains/observations/components/sheet/own-best";
import { sheetWords as words } from "@/lib/domains/observations/components/sheet/sheet-words";
import { getCheckpointSheet } from "@/lib/domains/observations/sheet/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Leaf, Opening } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata: Metadata = { title: "Checkpoint sheet" };

interface SheetPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; with?: string | string[]; model?: string; at?: string; lines?: string; numbers?: string }>;
}

export default async function SheetPage({ params, searchParams }: SheetPageProps) {
  const [{ swingId }, { clip, with: others, model, at, lines, numbers }] = await Promise.all([params, searchParams]);
  const withIds = others === undefined ? undefined : [others].flat().flatMap((part) => part.split(",")).filter((part) => part !== "" && part !== "none");
  const sheet = await getCheckpointSheet({ swingId, clipId: clip, withIds, modelId: model });
  if (!sheet.isShown) {
    return (
      <Leaf>
        <Opening title={words.title} sub={<Link href={`/players/${sheet.playerId}`}>{sheet.playerName}</Link>} />
        <Problem
          happened={`No consent to film ${sheet.playerName} for lessons is in force, so the stills are not shown.`}
          kept="The clips and all that was placed on them are kept."
          todo="The family or the office can give a consent."
        />
      </Leaf>
    );
  }
  const player = `/players/${sheet.playerId}`;
  return (
    <Leaf>
      <Opening
        title={words.title}
        sub={
          <>
            <Link href={`${player}?side=${sheet.side}`}>{sheet.playerName}</Link>, bats {sheet.side}. This swing was taken {sheet.takenWords} and filmed {words.fromView[sheet.view]}; lined up at
            contact.
          </>
        }
        actions={
          <>
            {sheet.clips.length > 1 ? (
              <nav className="pick" aria-label="Which view">
                {sheet.clips.map((it, i) => (
                  <Link key={it.clipId} href={`/swings/${swingId}/sheet?clip=${it.clipId}`} aria-current={it.clipId === sheet.clipId ? "page" : undefined}>
                    {words.view[it.view]}
                    {sheet.clips.slice(0, i).some(({ view }) => view === it.view) ? ` ${i + 1}` : null}
                  </Link>
                ))}
              </nav>
            ) : null}
            <ButtonLink href={`/swings/${swingId}?clip=${sheet.clipId}`}>Swing view</ButtonLink>
            <ButtonLink kind="main" href={`${player}/what-first?side=${sheet.side}&swing=${swingId}`}>
              What first
            </ButtonLink>
          </>
        }
      />
      {sheet.strangeCount > 0 ? <p className="why">{words.strange(sheet.strangeCount)}</p> : null}
      {sheet.isCutShort ? <p className="why">{words.tooMany}</p> : null}
      {sheet.models.isGone ? <p className="why">{words.goneModel}</p> : null}
      <div className="bar-line no-print sheet-bar">
        <ChooseSwings sheet={sheet} />
        <ChooseModel sheet={sheet} withIds={withIds} />
        <OwnBest sheet={sheet} />
      </div>
      <CheckpointSheet key={`${sheet.clipId} ${sheet.rows.map((row) => row.clipId).join(" ")}`} sheet={sheet} asked={{ withIds, modelId: sheet.models.chosenId ?? undefined, at, lines, numbers }} />
    </Leaf>
  );
}
