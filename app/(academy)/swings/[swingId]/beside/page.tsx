import type { Metadata } from "next";
import Link from "next/link";
import { BesideViewer } from "@/lib/domains/clips/components/beside/beside-viewer";
import { getSwingsBeside } from "@/lib/domains/measurement/queries";
import { sheetAddressOf } from "@/lib/domains/observations/components/sheet/addresses";
import { BackToSheet } from "@/lib/domains/observations/components/sheet/back-to-sheet";
import { Leaf } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Swings side by side" };

interface BesidePageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; with?: string; at?: string; sheet?: string; back?: string }>;
}

const COUNTS = ["One", "Two", "Three", "Four"] as const;

export default async function BesidePage({ params, searchParams }: BesidePageProps) {
  const [{ swingId }, { clip, with: others, at, sheet, back }] = await Promise.all([params, searchParams]);
  const { clips, groups, goneModels, playerName } = await getSwingsBeside({ swingId, clipId: clip || undefined, withIds: others ? others.split(",") : [] });
  const cameFrom = sheetAddressOf(sheet, back);
  const isOneSwing = clips.every((it) => it.clip.swingId === swingId);
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">{COUNTS[clips.length - 1]} {isOneSwing ? (clips.length === 1 ? "camera" : "cameras of one swing") : "clips"} on one clock</h1>
        <span className="quiet small only-wide">{playerName}</span>
        <span className="push" />
        {cameFrom ? <BackToSheet href={cameFrom} /> : null}
        <Link className="btn" href={`/swings/${swingId}/talk?${new URLSearchParams({ ...(clip ? { clip } : {}), ...(others ? { with: others } : {}) })}`}>
          Talk over it
        </Link>
        <Link className="btn" href={`/swings/${swingId}${clip ? `?clip=${clip}` : ""}`}>
          Work on this swing
        </Link>
      </div>
      {goneModels > 0 ? <p className="why">{goneModels === 1 ? "This model may no longer be shown." : "These models may no longer be shown."} What is left stands here without {goneModels === 1 ? "it" : "them"}.</p> : null}
      <BesideViewer clips={clips} groups={groups} startSeconds={secondsIn(at)} />
    </Leaf>
  );
}

/** The instant that an address names; contact where it names none. */
function secondsIn(named: string | undefined): number {
  const seconds = Number(named);
  return named && Number.isFinite(seconds) ? seconds : 0;
}
